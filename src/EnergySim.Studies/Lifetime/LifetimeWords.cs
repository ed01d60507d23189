using System.Globalization;
using EnergySim.Economics;
using EnergySim.Studies.Outages;
using EnergySim.Tariffs;
using NodaTime;

namespace EnergySim.Studies.Lifetime;

/// <summary>What is said with the figures of the years to come.</summary>
internal static class LifetimeWords
{
    /// <summary>The assumptions that belong to every saving.</summary>
    public static AssumptionsTold Told(Home home, MoneyTerms terms, LifetimeFlows flows, StartCharge startCharge, OfferBands? bands)
    {
        TariffCalendar first = flows.Years[0].Calendar;
        TariffVersion inForce = VersionInForce(home.Tariff, LifetimeRuns.PlanOf(home, terms).FirstDayOf(1));
        return new AssumptionsTold
        {
            TariffName = home.Tariff.Name,
            TariffDate = inForce.Effective,
            DataYear = Say($"{first.Bills[0].From:uuuu-MM-dd} to {first.Bills[^1].To:uuuu-MM-dd} in steps of {home.Load.Axis.StepMinutes} minutes, one year of weather"),
            Growth = GrowthInWords(terms.Growth),
            ExportRegime = string.Join("; ", [InWords(inForce.Export), .. terms.ExportChanges.Select(c => Say($"from {c.From:uuuu-MM-dd}: {c.Words}"))]),
            StartOfOutageCharge = startCharge switch
            {
                StartCharge.Full => "full, as before a storm seen coming: the best case",
                StartCharge.Reserve => "the reserve and no more",
                _ => "what the everyday run holds at that instant",
            },
            Band = bands is null ? null : "low to high of " + string.Join("; ", bands.TotalSaving.Causes.Select(c => c.Name)) + "; each moved alone, then root of the sum of squares",
        };
    }

    /// <summary>What no band holds.</summary>
    public static IReadOnlyList<string> NotQuantified(Home home, MoneyTerms terms, OutageTerms outage)
    {
        var unknowns = new List<string>
        {
            "Future plans: the utility may move its windows, its fixed and demand charges or its rules for batteries; only prices that are published, and growth, are counted.",
            "What exports will earn once today's agreement, or the table that is stated, ends.",
            "Repairs beyond the replacements that are stated, and what a warranty claim really brings.",
            "How the household changes: people, cars, heating beyond what is stated.",
            "Heat and cold at the place of the battery, which change its ageing.",
        };
        if (terms.Bands.BoundSavingByOffer.Count == 0) unknowns.Add("Control: what a better rule than the stated one would save; no bound is stated.");
        if (home.Solar is not null) unknowns.Add(outage.WeatherYears.Count > 0 ? "Weather unlike the years that are stated." : "Weather beyond the stated range: the data are of one year.");
        return unknowns;
    }

    /// <summary>The sentences under the figures.</summary>
    public static IReadOnlyList<string> Notes(Home home, MoneyTerms terms, LifetimeMoney money, LocalDate finished)
    {
        var notes = new List<string>();
        if (home.Note.Length > 0) notes.Add(home.Note);
        notes.Add("Each year is simulated again on the days of the data, with the capacity that it begins with, its sun, load, prices and export terms; nothing is multiplied by a number of years.");
        notes.Add(Say($"Money is nominal: rates hold {terms.InflationFraction:0.## %} inflation a year. Flows are at the years' ends; discount rate {terms.DiscountFraction:0.## %} nominal, {terms.Discount.In(MoneyBasis.Real, terms.InflationFraction).Fraction:0.## %} real. After the last year nothing is worth anything but cells that came within the years, by the share of their life that is left."));
        if (terms.Unstated.Count > 0) notes.Add($"Not stated, so at the default: {string.Join("; ", terms.Unstated)}.");
        foreach (Incentive incentive in terms.Incentives)
            if (!incentive.Holds(finished)) notes.Add(Say($"{incentive.Name}: not counted; an installation finished on {finished:uuuu-MM-dd} is outside its dates."));
            else notes.Add($"{incentive.Name}: counted; whether the household and the equipment qualify is to be confirmed with who pays it.{(incentive.YearlyPerKw != 0 ? " What the events take from the everyday saving and from backup is not simulated." : "")}");
        if (terms.Incentives.Count == 0) notes.Add("No incentive is counted. In the United States the federal owner credit ended for spending after 2025-12-31 (26 U.S.C. 25D).");
        foreach (OfferMoney offer in money.Offers)
        {
            if (offer.Offer.Price is null) notes.Add($"{offer.Offer.Name}: no price is stated, so nothing is said of its return.");
            if (offer.Years.FirstOrDefault(y => y.CapacityFraction == 0) is { } dead) notes.Add(Say($"{offer.Offer.Name}: out of service from year {dead.Year}, when it holds less than {terms.Life.EndOfLifeFraction:0.# %} of what it held; no replacement is stated."));
            if (offer.Indicators is { FallsBelowAgain: true }) notes.Add($"{offer.Offer.Name}: the sum falls below zero again after it was paid back once.");
        }
        if (home.Tariff.Versions.Any(v => v.Export is ExportTerms.NetBilling { YearEnd: LeftOver.RollsOver }))
            notes.Add("Credit left at a year's end is not carried into the next simulated year, although the plan lets it roll over.");
        if (home.Tariff.Versions.Any(v => v.Events is not null)) notes.Add("Event days are those of the data in every year.");
        notes.Add("A computation on these data and assumptions, not a promise, and no tax or credit advice. Ask for the cash price, the financed price and every fee in writing before signing.");
        return notes;
    }

    /// <summary>Terms of export in words.</summary>
    public static string InWords(ExportTerms terms) => terms switch
    {
        ExportTerms.RetailNetting => "netted at the retail price",
        ExportTerms.NetBilling => "credited at a price of its own",
        ExportTerms.MonthlyNetting => "netted within each bill",
        ExportTerms.TwoWay => "charged in one window and rewarded in another",
        ExportTerms.SellAll => "all solar sold at a contract price",
        _ => "earns nothing",
    };

    private static string GrowthInWords(GrowthRates growth)
    {
        string parts = string.Concat(growth.ByPart.Select(p => Say($", {p.Key} {p.Value:0.## %}")));
        return Say($"energy {growth.Energy:0.## %} a year{parts}, fixed {growth.Fixed:0.## %}, demand {growth.Demand:0.## %}, exports {growth.Export:0.## %}, upkeep and replacements {growth.Costs:0.## %}; nominal, from the last prices known on");
    }

    private static TariffVersion VersionInForce(Tariff tariff, LocalDate date) => tariff.Versions.LastOrDefault(v => v.Effective <= date) ?? tariff.Versions[0];

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
