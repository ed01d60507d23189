using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Sweeps;

namespace EnergySim.Reports.Sweeps;

/// <summary>How an output goes with one input while all others vary: the mean, and dashed where a tenth lie below and above.</summary>
internal static class DependenceChart
{
    public static Picture Of(OutputMatters output, Dependence dependence, ChartSize size)
    {
        IReadOnlyList<DependencePoint> points = dependence.Points;
        NumberScale up = NumberScale.Of(points.SelectMany(p => new[] { p.Low, p.Mean, p.High }), 5), along = NumberScale.Of(points.Select(p => p.Input), size.WidthPx < 560 ? 4 : 8);
        var frame = new PlotFrame(size, new PlotWords
        {
            Title = SweepWords.Title(output, $"by {dependence.Input}"),
            Lead = "While all other inputs of the sweep vary.",
            Legend = [new LegendLine("mean", Palette.OneBattery), new LegendLine("a tenth lie below, a tenth above", Palette.OneBattery, IsDashed: true)],
            Up = SweepWords.Figure(output),
            Along = Lettering.Clean(dependence.Input),
            Footer = SweepWords.Foot(output, "Mean and tenths over all that the other inputs were in this sweep."),
        }, [.. up.Ticks.Select(up.Label)]);
        Box field = frame.Field;
        double X(double value) => field.Left + (field.Width * along.ShareOf(value));
        double Y(double value) => field.Bottom - (field.Height * up.ShareOf(value));
        foreach (double tick in up.Ticks) frame.Up(Y(tick), up.Label(tick), tick > up.Low);
        foreach (double tick in along.Ticks) frame.Along(X(tick), along.Label(tick));
        frame.Curve([.. points.Select(p => (X(p.Input), Y(p.Low)))], Palette.OneBattery, isDashed: true);
        frame.Curve([.. points.Select(p => (X(p.Input), Y(p.High)))], Palette.OneBattery, isDashed: true);
        frame.Curve([.. points.Select(p => (X(p.Input), Y(p.Mean)))], Palette.OneBattery);
        return frame.Picture(string.Join(' ', points.Select(p => string.Create(CultureInfo.InvariantCulture,
            $"At {p.Input:0.####}: mean {SweepWords.Number(p.Mean)}, a tenth below {SweepWords.Number(p.Low)}, a tenth above {SweepWords.Number(p.High)}."))));
    }
}
