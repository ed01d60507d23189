using System.Globalization;
using EnergySim.Studies.Findings;
using EnergySim.Studies.Lifetime;
using EnergySim.Studies.WiringFit;
using EnergySim.Wiring;

namespace EnergySim.Reports.Homeowner;

/// <summary>Page 4: what was assumed, what cannot be known, cautions, and how to make the report again.</summary>
internal static class TrustPage
{
    public static ReportPage Of(ReportWords told, ReportManifest manifest) => new("What this rests on",
    [
        new HeadingBlock("What we assumed"),
        new FactsBlock(Assumed(told)),
        new HeadingBlock("What nobody can know"),
        new ListBlock(
        [
            "What power will cost. The utility may change its prices, its dear hours or what it pays for the sun that you sell.",
            "The weather. These are one or some years of it; yours will differ.",
            "How your home will change: people, cars, heating.",
            "How fast the battery will age, and what repairs will cost.",
        ]),
        new HeadingBlock("Before you sign or wire anything"),
        new ListBlock(
        [
            "A saving is a computation on these data, not a promise, and no tax or credit advice. Ask for the price, the price with a loan and every fee in writing.",
            "Local code, the utility and a licensed electrician decide what may be wired. What this report says of your panel is to be confirmed by them.",
            "Panels and batteries stay live when the grid is down. Leave work on them to a licensed electrician.",
            "A generator belongs outdoors, away from openings, behind a transfer switch or interlock.",
        ]),
        new HeadingBlock("How to check it"),
        new TextBlock(TextKind.Small, "Anybody with these files and this program can make every figure again: energysim recompute report.json says whether they come out equal. A file is the same if its SHA-256 is."),
        new FactsBlock(
        [
            ("Program", $"EnergySim {manifest.ProgramVersion}"),
            .. manifest.Options.Select(o => (o.Name, o.Value)),
            .. manifest.Inputs.Select(i => (i.Name, i.Sha256)),
        ]),
    ]);

    private static List<(string Name, string Words)> Assumed(ReportWords told)
    {
        var facts = new List<(string, string)>();
        if (told.Note.Length > 0) facts.Add(("Home", told.Note));
        facts.Add(("Prices", $"{told.Comparison.Tariff}{(told.Findings.Utility.Length > 0 ? $", {told.Findings.Utility}" : "")}"));
        facts.Add(("Data", string.Create(CultureInfo.InvariantCulture, $"{told.Span}, in steps of {told.Comparison.StepMinutes} minutes{(told.IsYear ? "" : $": {told.Findings.Days} days, not a year, and not scaled up")}")));
        if (told.Findings.Lifetime is { } years)
        {
            facts.Add(("Sun you sell", years.Disclosure.ExportRegime));
            facts.Add(("Growth", years.Disclosure.Growth));
            facts.Add(("Outages start with", years.Disclosure.StartOfOutageCharge));
            facts.AddRange(years.Offers.Select(o => ($"Range, {Drawing.Lettering.Clean(o.Name)}", Range(told, o, years.Terms.HorizonYears))));
            facts.Add(("Range is of", years.Disclosure.Band));
        }
        else
        {
            facts.Add(("Years to come", $"not told. {told.Findings.WhyNoLifetime}"));
        }
        for (int i = 0; i < told.Columns.Count - 1; i++)
        {
            if (told.Findings.Wiring is null)
            {
                facts.Add(("Wiring", "not asked: the home file states no panel"));
                break;
            }
            facts.Add(($"Panel, {told.Names[i + 1]}", Wiring(told, i)));
        }
        facts.AddRange(told.Findings.Repairs.Select(r => ("Reading the files", r)));
        return facts;
    }

    private static string Range(ReportWords told, LifetimeOffer offer, int horizon)
    {
        string Between(Band band) => $"{told.Rough.About((decimal)band.Likely)} ({told.Rough.Bare((decimal)band.Low)} to {told.Rough.Bare((decimal)band.High)})";
        string payback = offer.Indicators is null ? "no price is stated"
            : offer.Bands.EarliestPaybackYears is double earliest
                ? $"it has paid for itself after {Rough.Years(earliest, horizon)} at best, {Rough.Years(offer.Bands.LatestPaybackYears, horizon)} at worst"
                : string.Create(CultureInfo.InvariantCulture, $"it has not paid for itself within {horizon} years even at best");
        return string.Create(CultureInfo.InvariantCulture, $"saves {Between(offer.Bands.FirstYearSaving)} in the first year and {Between(offer.Bands.TotalSaving)} in {horizon} years; {payback}");
    }

    private static string Wiring(ReportWords told, int offer)
    {
        if (told.WayOf(offer) is not WayResult way) return "no way to connect it was found within the rules; ask a licensed electrician";
        int year = told.Findings.Wiring!.Plan.Edition.Year;
        Verdict? rule = ReportWords.RuleOf(way);
        string section = rule is null ? "" : string.Create(CultureInfo.InvariantCulture, $" ({rule.Section}, {year}: {rule.Arithmetic})");
        return $"{way.Fit.Way.Name}: {way.Fit.Why}{section}. {WiringComparison.ToBeConfirmed}";
    }
}
