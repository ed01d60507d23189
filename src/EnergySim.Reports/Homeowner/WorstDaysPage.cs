using System.Globalization;
using EnergySim.Engine;
using EnergySim.Reports.Outages;
using EnergySim.Studies.Outages;

namespace EnergySim.Reports.Homeowner;

/// <summary>Page 3: the worst days of the data, and how long outages are lasted.</summary>
internal static class WorstDaysPage
{
    private const int WorstShown = 3;

    public static ReportPage Of(ReportWords told)
    {
        OutageResult outages = told.Findings.Outages;
        NamedOutage spell = outages.Offers[0].Named;
        OutageResult drawn = outages with { Offers = [.. outages.Offers.Take(told.Drawn - 1)] };
        BarStyle[] styles = [.. told.Styles.Skip(1)];
        string kept = outages.Terms.Kept.Base.HouseFraction is double share
            ? share >= 1 && outages.Terms.Kept.Parts.Count == 0 ? "the whole house" : string.Create(CultureInfo.InvariantCulture, $"{share:0 %} of the house's use") : "the circuits that you chose";
        var blocks = new List<ReportBlock>
        {
            new TextBlock(TextKind.Plain, string.Create(CultureInfo.InvariantCulture,
                $"Suppose the grid fails on {ReportWords.At(spell.At)} and stays down for {spell.Hours:0} hours, with {kept} kept running. {Why(told, outages)}")),
            new ListBlock([.. outages.Offers.Select((o, i) => Story(told, o, i))]),
            new ChartBlock("stored-energy", size => StoredEnergyChart.Of(drawn, styles, size)),
            new TableBlock($"The worst {Count(told)} starts of an outage in these data", [.. told.Names.Skip(1)], Worst(told, outages)),
            new ChartBlock("lasting", size => LastingChart.Of(drawn, styles, size)),
            new TextBlock(TextKind.Caution, "Nobody should rely on this for medical equipment: keep a second supply and a plan with your clinician and utility."),
        };
        return new ReportPage("Your worst days", blocks);
    }

    private static string Why(ReportWords told, OutageResult outages) => outages.Terms.NamedStart is null
        ? $"Of all moments in these data that is the worst for {told.Names[1]}." : "";

    private static string Story(ReportWords told, OfferOutages offer, int index)
    {
        NamedOutage named = offer.Named;
        string start = string.Create(CultureInfo.InvariantCulture, $"{told.Names[index + 1]} starts with {named.StartKwh:0.0} of {named.HighestKwh:0.#} kWh");
        if (named.FirstUnservedHours is not double first) return $"{start} and runs everything to the end.";
        double unserved = named.Ledger.Sums.Kwh(LedgerColumn.UnservedKw);
        string back = named.RecoversHours is double hours
            ? string.Create(CultureInfo.InvariantCulture, $" It first runs the house again after {hours:0} hours.") : named.FirstDarkHours is null ? "" : " It does not come back by itself before the grid does.";
        string lasts = first < 0.75 ? "falls short within the hour" : $"runs everything for {Rough.Hours(first)}";
        return string.Create(CultureInfo.InvariantCulture, $"{start} and {lasts}. In all, {unserved:0.0} kWh are missing.{back}");
    }

    private static int Count(ReportWords told) => told.Findings.Outages.Offers.Max(o => Math.Min(WorstShown, o.Worst.Count));

    private static IEnumerable<TableRow> Rows(OutageResult outages, int count) => Enumerable.Range(0, count).Select(r => new TableRow(
        (string[])["worst", "second", "third"] is { } names ? names[r] : "",
        [.. outages.Offers.Select(o => r < o.Worst.Count ? $"{ReportWords.At(o.Worst[r].At)}: {Rough.Hours(o.Worst[r].LastingHours, o.Any.HorizonHours)}" : "–")]));

    private static List<TableRow> Worst(ReportWords told, OutageResult outages) => [.. Rows(outages, Count(told))];
}
