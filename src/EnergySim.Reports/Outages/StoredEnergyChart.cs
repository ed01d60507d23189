using System.Globalization;
using EnergySim.Engine;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Outages;

namespace EnergySim.Reports.Outages;

/// <summary>Stored energy through one outage, an offer a curve, and below a row an offer that shows when the house is not served.</summary>
internal static class StoredEnergyChart
{
    private static readonly int[] s_everyHours = [3, 6, 12, 24, 48, 72, 168];

    /// <param name="home">The home's name.</param>
    /// <param name="offers">1–4 offers in the same outage.</param>
    /// <param name="footer">Small print.</param>
    /// <param name="styles">A style an offer.</param>
    /// <param name="size">Size.</param>
    public static Picture Of(string home, IReadOnlyList<(string Name, NamedOutage Named)> offers, IReadOnlyList<string> footer, IReadOnlyList<BarStyle> styles, ChartSize size)
    {
        NamedOutage first = offers[0].Named;
        BillScale scale = BillScale.Of(offers.SelectMany(o => new[] { (decimal)o.Named.HighestKwh }), 5);
        string[] labels = [.. scale.Ticks.Select(Number)];
        var sheet = new Sheet(size);
        double row = 1.25 * sheet.Scale.SizePx;
        var frame = new PlotFrame(size, WordsOf(home, offers, footer, styles), labels, alongLines: 3, rowsBelow: ((offers.Count + 1) * row) + (0.4 * row));
        Box field = frame.Field;
        double X(double hour) => field.Left + (field.Width * hour / first.Hours);
        double Y(double kwh) => field.Bottom - (field.Height * kwh / (double)scale.Highest);
        Nights(frame, first, X);
        foreach (decimal tick in scale.Ticks) frame.Up(Y((double)tick), Number(tick), tick != 0);
        Days(frame, first, X);
        double top = frame.RowsTop + (0.4 * row);
        frame.Text(TextRole.ScaleTitle, "not served:", frame.Sheet.Scale, field.Left, top);
        for (int o = 0; o < offers.Count; o++)
        {
            NamedOutage named = offers[o].Named;
            ReadOnlySpan<double> stored = named.Ledger[LedgerColumn.StoredKwh];
            var points = new List<(double, double)> { (X(0), Y(named.StartKwh)) };
            double step = named.Ledger.Axis.StepHours;
            for (int i = 0; i < stored.Length; i++) points.Add((X((i + 1) * step), Y(stored[i])));
            frame.Curve(points, styles[o]);
            top += row;
            frame.Area(new Box(field.Left, top + (0.25 * row), field.Right, top + (0.9 * row)), Palette.Band);
            foreach ((double from, double to) in Unserved(named))
            {
                frame.Area(new Box(X(from), top + (0.25 * row), X(to), top + (0.9 * row)), styles[o].Edge);
                frame.Area(new Box(X(from) + 1, top + (0.25 * row) + 1, Math.Max(X(from) + 1, X(to) - 1), top + (0.9 * row) - 1), styles[o].Fill);
            }
        }
        return frame.Picture(Description(offers));
    }

    private static PlotWords WordsOf(string home, IReadOnlyList<(string Name, NamedOutage Named)> offers, IReadOnlyList<string> footer, IReadOnlyList<BarStyle> styles)
    {
        NamedOutage first = offers[0].Named;
        string weather = first.Weather.Length > 0 ? $", weather of {Lettering.Clean(first.Weather)}" : "";
        return new PlotWords
        {
            Title = $"What is stored while the grid is down · {Lettering.Clean(home)}",
            Lead = string.Create(CultureInfo.InvariantCulture, $"The grid fails on {first.At:uuuu-MM-dd} at {first.At:HH:mm} for {first.Hours:0} h{weather}."),
            Legend = [.. offers.Select((o, i) => new LegendLine(Lettering.Clean(o.Name), styles[i]))],
            Up = "stored, kWh",
            Along = "local time, and hours since the grid failed; nights shaded",
            Footer = footer,
        };
    }

    // Stretches in which some of the house is not served, h.
    private static IEnumerable<(double From, double To)> Unserved(NamedOutage named)
    {
        double[] unserved = named.Ledger[LedgerColumn.UnservedKw].ToArray();
        double step = named.Ledger.Axis.StepHours;
        for (int i = 0; i < unserved.Length; i++)
        {
            if (unserved[i] == 0) continue;
            int from = i;
            while (i < unserved.Length && unserved[i] > 0) i++;
            yield return (from * step, i * step);
        }
    }

    private static void Nights(PlotFrame frame, NamedOutage first, Func<double, double> x)
    {
        // From six in the evening to six in the morning, whatever the sun does.
        double until = first.Hours, hourOfDay = first.At.TickOfDay / (double)NodaTime.NodaConstants.TicksPerHour;
        for (double from = -24 + (18 - hourOfDay); from < until; from += 24)
        {
            double left = Math.Max(0, from), right = Math.Min(until, from + 12);
            if (right > left) frame.Area(frame.Field with { Left = x(left), Right = x(right) }, Palette.Band);
        }
    }

    private static void Days(PlotFrame frame, NamedOutage first, Func<double, double> x)
    {
        double room = 4 * frame.Sheet.Date.SizePx;
        int every = s_everyHours.FirstOrDefault(h => x(h) - x(0) >= room, 336);
        for (int hour = 0; hour <= first.Hours; hour += every)
        {
            NodaTime.LocalDateTime at = first.At.PlusHours(hour);
            string[] lines = [at.ToString("HH:mm", CultureInfo.InvariantCulture), string.Create(CultureInfo.InvariantCulture, $"{hour} h")];
            bool newDay = hour == 0 || at.Date != first.At.PlusHours(hour - every).Date;
            frame.Along(x(hour), newDay ? [.. lines, at.ToString("MMM d", CultureInfo.InvariantCulture)] : lines);
            if (hour > 0) frame.Upright(x(hour));
        }
    }

    private static string Description(IReadOnlyList<(string Name, NamedOutage Named)> offers) => string.Join(' ', offers.Select(o => string.Create(CultureInfo.InvariantCulture,
        $"{o.Name}: starts with {o.Named.StartKwh:0.0} of {o.Named.HighestKwh:0.#} kWh, ") + (o.Named.FirstUnservedHours is double h
        ? string.Create(CultureInfo.InvariantCulture, $"load is first left unserved after {h:0.##} h; {o.Named.Ledger.Sums.Kwh(LedgerColumn.UnservedKw):0.0} kWh are not served.")
        : "the house is served throughout.")));

    private static string Number(decimal value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}

/// <summary>Small print that stands under every picture of outages.</summary>
internal static class Footers
{
    public static IReadOnlyList<string> Of(OutageResult result) =>
        [.. result.Notes.Take(result.Notes.Count > 3 && result.Notes[0].StartsWith("Each outage", StringComparison.Ordinal) ? 2 : 3).Select(Lettering.Clean),
            Caution];

    public const string Caution = "A computation on these data, not a promise. Nobody should rely on it for medical equipment.";
}
