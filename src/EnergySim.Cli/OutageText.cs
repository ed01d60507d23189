using System.Globalization;
using EnergySim.Studies.Outages;
using NodaTime;
using Spectre.Console;

namespace EnergySim.Cli;

/// <summary>Prints what outages do: the survival table, the comparison on the same starts, the verdicts, and one outage told in words.</summary>
internal static class OutageText
{
    private static readonly int[] s_hours = [2, 8, 24, 72, 120, 168, 240, 336];

    public static void Write(TextWriter output, OutageResult result, ReserveFrontier? frontier, IReadOnlyList<string> repairs)
    {
        output.WriteLine($"{result.Home} · when the grid is down");
        output.WriteLine();
        Output.WriteTable(output, TableOf(result));
        foreach (PairedOutages pair in result.Pairs)
            output.WriteLine(Say($"{pair.Second} against {pair.First} on the same starts: adds nothing in {pair.AddsNothingFraction:0.0 %}, lasts longer in {pair.AddsHoursFraction:0.0 %} (carries the night, to 06:00, that the first does not in {pair.CarriesNightFraction:0.0 %})")
                + (pair.TakesHoursFraction > 0 ? Say($", lasts less in {pair.TakesHoursFraction:0.0 %}.") : "."));
        if (frontier is not null) FrontierText.Write(output, frontier);
        foreach (OfferOutages offer in result.Offers)
        {
            output.WriteLine();
            foreach (string line in CarryWords.Of(offer)) output.WriteLine(line);
        }
        foreach (OfferOutages offer in result.Offers)
        {
            output.WriteLine();
            foreach (string line in OutageStory.Of(offer)) output.WriteLine(line);
        }
        output.WriteLine();
        foreach (string note in result.Notes.Concat(repairs)) output.WriteLine($"– {note}");
    }

    /// <summary>Formats with the invariant culture.</summary>
    internal static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    /// <summary>A local time.</summary>
    internal static string At(LocalDateTime at) => at.ToString("uuuu-MM-dd HH:mm", CultureInfo.InvariantCulture);

    /// <summary>Hours that a share of the starts lasts; at the horizon "at least".</summary>
    internal static string Hours(Survival survival, double share)
    {
        double hours = survival.HoursLastedBy(share);
        return (hours >= survival.HorizonHours ? "≥ " : "") + hours.ToString("0.##", CultureInfo.InvariantCulture);
    }

    private static Table TableOf(OutageResult result)
    {
        Table table = Output.NewTable();
        table.AddColumn(new TableColumn(""));
        foreach (OfferOutages offer in result.Offers) table.AddColumn(new TableColumn(Markup.Escape(offer.Name)).RightAligned());
        foreach (int hours in s_hours.Where(h => h <= result.Terms.HorizonHours))
            Row(Say($"starts that last {hours} h"), o => Percent(o.Any.AtLeast(hours)));
        Row("", _ => "");
        Row("nine starts in ten last, h", o => Hours(o.Any, 0.9));
        Row("half the starts last, h", o => Hours(o.Any, 0.5));
        Row("one start in ten lasts, h", o => Hours(o.Any, 0.1));
        Row("half last, for want of energy alone, h", o => Hours(o.OnEnergy, 0.5));
        for (int s = 0; s < result.Offers[0].BySeason.Count; s++)
        {
            int season = s;
            Row($"  half last, {result.Offers[0].BySeason[s].Season}, h", o => Hours(o.BySeason[season].Survival, 0.5));
        }
        if (result.Offers[0].ByWeather.Count > 1)
            for (int y = 0; y < result.Offers[0].ByWeather.Count; y++)
            {
                int year = y;
                Row($"  half last, weather of {(y == 0 ? "the home's own year" : result.Offers[0].ByWeather[y].Weather)}, h", o => Hours(o.ByWeather[year].Lasting, 0.5));
            }
        Row("", _ => "");
        Row("share of the kept load served", o => Percent(o.Availability));
        Row("dark, h, mean of starts", o => Number(o.MeanDarkHours));
        Row("unserved, kWh, mean of starts", o => Number(o.MeanUnservedKwh));
        foreach ((OutageKind kind, int index) in result.Offers[0].Carried.Select((c, i) => (c.Kind, i)))
            Row(Say($"outages carried, {kind.Name} ({kind.PerYear:0.##} a year, {kind.MeanHours:0.#} h on average)"), o => Percent(o.Carried[index].CarriedFraction));
        Row("worst starts", o => string.Join('\n', o.Worst.Select(w => At(w.At) + (w.Weather.Length > 0 ? $" ({w.Weather})" : ""))));
        return table;

        void Row(string name, Func<OfferOutages, string> cell) =>
            table.AddRow([new Text(name), .. result.Offers.Select(o => new Text(cell(o)))]);
    }

    private static string Percent(double? share) => share?.ToString("0.0 %", CultureInfo.InvariantCulture) ?? "";

    private static string Number(double value) => value.ToString("#,0.0", CultureInfo.InvariantCulture);
}
