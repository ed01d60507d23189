using System.Globalization;
using EnergySim.Engine;
using EnergySim.Reports.Drawing;
using EnergySim.Reports.Outages;
using EnergySim.Studies.Outages;

namespace EnergySim.Reports.Homeowner;

/// <summary>Page 3: the worst days of the data, and how long outages are lasted.</summary>
internal static class WorstDaysPage
{
    private const int WorstShown = 3;
    private static readonly string[] s_places = ["worst", "second", "third"];
    private static readonly int[] s_hours = [2, 8, 24, 72];

    public static ReportPage Of(ReportWords told)
    {
        OutageResult outages = told.Findings.Outages;
        NamedOutage spell = outages.Offers[0].Named;
        OutageResult drawn = outages with { Offers = [.. outages.Offers.Take(told.Drawn - 1)] };
        BarStyle[] styles = [.. told.Styles.Skip(1)];
        string kept = outages.Terms.Kept.Base.HouseFraction is double share
            ? share >= 1 && outages.Terms.Kept.Parts.Count == 0 ? "the whole house" : string.Create(CultureInfo.InvariantCulture, $"{share:0 %} of the house's use") : "the circuits that you chose";
        List<ReportBlock> blocks =
        [
            new TextBlock(TextKind.Plain, string.Create(CultureInfo.InvariantCulture,
                $"Suppose the grid fails on {ReportWords.At(spell.At)} and stays down for {spell.Hours:0} hours, with {kept} kept running. {Why(told, outages)}")),
            new ListBlock([.. outages.Offers.Select((o, i) => Story(told, o, i))]),
            new ChartBlock("stored-energy", size => StoredEnergyChart.Of(drawn.Home, [.. drawn.Offers.Select(o => (o.Name, o.Named))], Footers.Of(drawn), styles, size), 265 + Legend(drawn)),
            // The last table says the same: where names take the room, it says it alone.
            .. Legend(drawn) == 0 ? [new ChartBlock("lasting", size => LastingChart.Of(drawn, styles, size), 215)] : (ReportBlock[])[],
            new TableBlock("The worst moments for an outage to begin", [.. told.Names.Skip(1)], Worst(told, outages)),
            new TableBlock("Of 100 outages, begun at any moment of these data, so many are lasted whole", [.. told.Names.Skip(1)], Lasted(outages)),
            new TextBlock(TextKind.Caution, "Nobody should rely on this for medical equipment: keep a second supply and a plan with your clinician and utility."),
        ];
        return new ReportPage("Your worst days", blocks);
    }

    // Each offer beyond two, and each long name, takes a line of a picture's height, points.
    private static double Legend(OutageResult drawn) => 30 * (Math.Max(0, drawn.Offers.Count - 2) + drawn.Offers.Count(o => o.Name.Length > 40));

    private static string Why(ReportWords told, OutageResult outages) => outages.Terms.NamedStart is null
        ? $"Of all moments in these data that is the worst for {told.Names[1]}." : "";

    private static string Story(ReportWords told, OfferOutages offer, int index)
    {
        NamedOutage named = offer.Named;
        string start = string.Create(CultureInfo.InvariantCulture, $"{told.Names[index + 1]}: {named.StartKwh:0.0} of {named.HighestKwh:0.#} kWh are stored when it begins.");
        if (named.FirstUnservedHours is not double first) return $"{start} Everything runs to the end.";
        double unserved = named.Ledger.Sums.Kwh(LedgerColumn.UnservedKw);
        string back = named.RecoversHours is double hours
            ? string.Create(CultureInfo.InvariantCulture, $" It runs the house again after {hours:0} hours.") : named.FirstDarkHours is null ? "" : " It does not come back by itself before the grid does.";
        string lasts = first < 0.75 ? "Power falls short within the hour" : $"Everything runs for {Rough.Hours(first)}";
        return string.Create(CultureInfo.InvariantCulture, $"{start} {lasts}; in all, {unserved:0.0} kWh are missing.{back}");
    }

    private static List<TableRow> Lasted(OutageResult outages) =>
    [
        .. s_hours.Where(h => h <= outages.Offers[0].Any.HorizonHours).Select(h => new TableRow(
            h < 48 ? FormattableString.Invariant($"{h} hours") : FormattableString.Invariant($"{h / 24} days"),
            [.. outages.Offers.Select(o => Share(o.Any.AtLeast(h) ?? 0))])),
    ];

    private static string Share(double share) => share is > 0 and < 0.005 ? "under 1" : share is > 0.995 and < 1 ? "over 99" : (share * 100).ToString("0", CultureInfo.InvariantCulture);

    private static int Count(ReportWords told) => told.Findings.Outages.Offers.Max(o => Math.Min(WorstShown, o.Worst.Count));

    private static IEnumerable<TableRow> Rows(OutageResult outages, int count) => Enumerable.Range(0, count).Select(r => new TableRow(
        s_places[r],
        [.. outages.Offers.Select(o => r < o.Worst.Count ? $"{ReportWords.ShortAt(o.Worst[r].At)}: {Rough.Hours(o.Worst[r].LastingHours, o.Any.HorizonHours)}" : "–")]));

    private static List<TableRow> Worst(ReportWords told, OutageResult outages) => [.. Rows(outages, Count(told))];
}
