using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Outages;

namespace EnergySim.Reports.Outages;

/// <summary>How many of the year's starts last how long, an offer a curve.</summary>
internal static class LastingChart
{
    private static readonly double[] s_hours = [2, 8, 24, 72, 120, 168, 240, 336];

    public static Picture Of(OutageResult result, IReadOnlyList<BarStyle> styles, ChartSize size)
    {
        double horizon = result.Offers[0].Any.HorizonHours;
        double[] hours = [.. s_hours.Where(h => h <= horizon)];
        string[] labels = ["0 %", "25 %", "50 %", "75 %", "100 %"];
        var frame = new PlotFrame(size, new PlotWords
        {
            Title = $"How long outages are lasted · {Lettering.Clean(result.Home)}",
            Lead = string.Create(CultureInfo.InvariantCulture, $"Share of outages, one begun in each of the {result.Offers[0].Any.Starts:#,0} intervals, in which all that is kept is served at least so long."),
            Legend = [.. result.Offers.Select((o, i) => new LegendLine(Lettering.Clean(o.Name), styles[i]))],
            Up = "share of starts",
            Along = "hours lasted (the scale grows closer to the right)",
            Footer = Footers.Of(result),
        }, labels);
        Box field = frame.Field;
        double X(double h) => field.Left + (field.Width * Math.Sqrt(h / horizon));
        double Y(double share) => field.Bottom - (field.Height * share);
        for (int i = 0; i < labels.Length; i++) frame.Up(Y(i / 4.0), labels[i], i > 0);
        foreach (double h in hours)
        {
            frame.Along(X(h), string.Create(CultureInfo.InvariantCulture, $"{h:0} h"));
            frame.Upright(X(h));
        }
        for (int o = 0; o < result.Offers.Count; o++)
        {
            Survival any = result.Offers[o].Any;
            var points = new List<(double, double)>();
            int steps = (int)Math.Round(horizon / any.StepHours);
            double before = 1;
            for (int i = 0; i <= steps; i++)
            {
                double share = any.AtLeast(i * any.StepHours)!.Value;
                if (share != before) points.Add((X(i * any.StepHours), Y(before)));
                if (share != before || i == 0 || i == steps) points.Add((X(i * any.StepHours), Y(share)));
                before = share;
            }
            frame.Curve(points, styles[o]);
        }
        return frame.Picture(Description(result, hours));
    }

    private static string Description(OutageResult result, double[] hours) => string.Join(' ', result.Offers.Select(o =>
        $"{o.Name}: " + string.Join(", ", hours.Select(h => string.Create(CultureInfo.InvariantCulture, $"{o.Any.AtLeast(h):0.0 %} last {h:0} h"))) + "."));
}
