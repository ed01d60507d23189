using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Sweeps;

namespace EnergySim.Reports.Sweeps;

/// <summary>How much of an output's variance each input stands for: by itself, and in all, each with its band.</summary>
internal static class IndicesChart
{
    private const int MostInputs = 12;

    public static Picture Of(OutputMatters output, ChartSize size)
    {
        SobolIndices indices = output.Indices!;
        SobolIndex[] inputs = [.. indices.Inputs.Take(MostInputs)];
        NumberScale scale = NumberScale.Of([0, .. inputs.SelectMany(i => new[] { i.Total, i.TotalBand.High, Math.Max(0, i.FirstBand.High), 0.2 })], size.WidthPx < 560 ? 3 : 5);
        var sheet = new Sheet(size);
        string[] names = [.. inputs.Select(i => sheet.Scale.Shorten(Lettering.Clean(i.Input), 0.32 * size.WidthPx))];
        var frame = new PlotFrame(size, new PlotWords
        {
            Title = SweepWords.Title(output, "what its spread comes from"),
            Lead = $"{SweepWords.Figure(output)}. Share of the variance; mean {SweepWords.Number(indices.Mean)}, standard deviation {SweepWords.Number(Math.Sqrt(indices.Variance))}.",
            Legend = [new LegendLine("by itself (first order)", Palette.OneBattery), new LegendLine("with all it acts together with (total)", Palette.TwoBatteries)],
            Up = "input",
            Along = "share of the variance",
            Footer = SweepWords.Foot(output, string.Create(CultureInfo.InvariantCulture, $"Sobol indices from {indices.Points:N0} pairs of points; thin lines: nine in ten resamples.")),
        }, names);
        Box field = frame.Field;
        double X(double value) => field.Left + (field.Width * Math.Clamp(scale.ShareOf(value), 0, 1));
        double height = field.Height / inputs.Length, thick = Math.Min(0.34 * height, 22);
        foreach (double tick in scale.Ticks)
        {
            // Behind the bars, so that no line crosses their words.
            frame.Area(new Box(X(tick) - 0.5, field.Top, X(tick) + 0.5, field.Bottom), Palette.Guide);
            frame.Along(X(tick), scale.Label(tick));
        }
        for (int i = 0; i < inputs.Length; i++)
        {
            double middle = field.Top + ((i + 0.5) * height);
            frame.Up(middle, names[i], withGuide: false);
            Bar(inputs[i].First, inputs[i].FirstBand, middle - thick, Palette.OneBattery);
            Bar(inputs[i].Total, inputs[i].TotalBand, middle + 1, Palette.TwoBatteries);
        }
        return frame.Picture(string.Join(' ', inputs.Select(i => string.Create(CultureInfo.InvariantCulture,
            $"{Lettering.Clean(i.Input)}: first order {i.First:0.000} ({i.FirstBand.Low:0.000} to {i.FirstBand.High:0.000}), total {i.Total:0.000} ({i.TotalBand.Low:0.000} to {i.TotalBand.High:0.000})."))));

        void Bar(double value, (double Low, double High) band, double top, BarStyle style)
        {
            frame.Area(new Box(X(0), top, Math.Max(X(value), X(0) + 1), top + thick - 1), style.Fill);
            double y = top + ((thick - 1) / 2);
            frame.Area(new Box(X(band.Low), y - 1, X(band.High), y + 1), Palette.Ink);
        }
    }
}
