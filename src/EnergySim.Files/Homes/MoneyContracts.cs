using EnergySim.Economics;
using NodaTime;

namespace EnergySim.Files;

/// <summary>Reads what the money section says of replacements, incentives, loans and leases.</summary>
/// <param name="offers">Names of the offers.</param>
internal sealed class MoneyContracts(IReadOnlyList<string> offers)
{
    private const int MostMonths = 600;

    private static readonly Bounds s_contractRate = new(0, 1, "a rate a year is written 0.06 or \"6 %\"");

    /// <summary>An inverter's replacement.</summary>
    public static InverterReplacement? Inverter(YamlMap? map, int mostYears) =>
        map is null ? null : new InverterReplacement(map.Text("year")?.Whole(1, mostYears) ?? 1, map.Money("price", negative: false) ?? 0);

    /// <summary>A battery's replacement.</summary>
    public static BatteryReplacement? Replacement(YamlMap? map, int mostYears)
    {
        if (map is null) return null;
        ReplacementRule? rule = map.Text("when")?.Choice(
            ("in-year", ReplacementRule.InYear), ("after-warranty", ReplacementRule.AfterWarranty), ("at-end-of-life", ReplacementRule.AtEndOfLife));
        if (rule is not null && map.Has("year") != (rule == ReplacementRule.InYear)) map.ReportHere("year belongs to when: in-year, and to it alone");
        return new BatteryReplacement(rule ?? default, map.Text("year")?.Whole(2, mostYears) ?? 0, map.Money("pricePerUnit", negative: false) ?? 0);
    }

    /// <summary>An incentive.</summary>
    public static Incentive Incentive(YamlMap map)
    {
        string[] ways = ["priceShare", "amount", "perKw", "perKwh", "yearlyPerKw"];
        if (!ways.Any(map.Has)) map.ReportHere($"it pays nothing; state {string.Join(", ", ways[..^1])} or {ways[^1]}");
        foreach (string key in (string[])["years", "eventHours"])
            if (map.Has(key) && !map.Has("yearlyPerKw")) map.ReportWhole(key, "only yearlyPerKw is paid by the year");
        LocalDate? from = map.Text("from")?.Date(), until = map.Text("until")?.Date();
        if (until < from) map.Report("until", "is before from");
        return new Incentive
        {
            Name = map.Name("name"),
            From = from,
            Until = until,
            PriceFraction = map.Share("priceShare") ?? 0,
            Amount = map.Money("amount", negative: false) ?? 0,
            AmountPerKw = map.Money("perKw", negative: false) ?? 0,
            AmountPerKwh = map.Money("perKwh", negative: false) ?? 0,
            YearlyPerKw = map.Money("yearlyPerKw", negative: false) ?? 0,
            Years = map.Text("years")?.Whole(1, 50),
            EventHours = map.Number("eventHours", Bounds.AboveZero) ?? 3,
            ForOwnersOnly = map.Flag("ownersOnly", true),
        };
    }

    /// <summary>A loan.</summary>
    public static LoanTerms? Loan(YamlMap? map)
    {
        if (map is null) return null;
        int months = map.Text("months")?.Whole(1, MostMonths) ?? 1;
        Reamortisation? again = null;
        if (map.Map("newPayments", MoneySections.NewPayments) is YamlMap n)
        {
            int month = n.Text("month")?.Whole(1, MostMonths) ?? 1;
            if (month >= months) n.Report("month", FormattableString.Invariant($"is not within the loan's {months} months"));
            again = new Reamortisation(month, n.Share("paydown") ?? 0, n.Flag("paid", false));
        }
        return new LoanTerms
        {
            RateFraction = map.Text("rate")?.Share(s_contractRate) ?? 0,
            Months = months,
            FeeFraction = map.Share("fees") ?? 0,
            Fee = map.Money("fee", negative: false) ?? 0,
            Down = map.Money("down", negative: false) ?? 0,
            Reamortisation = again,
        };
    }

    /// <summary>A lease.</summary>
    public LeaseTerms? Lease(YamlMap? map) => map is null ? null : new LeaseTerms
    {
        MonthlyByOffer = ByOffer(map.Map("monthly", null)),
        EscalatorFraction = map.Text("escalator")?.Share(s_contractRate) ?? 0,
        Years = map.Text("years")?.Whole(1, 50) ?? 1,
        BuyoutFraction = map.Share("buyout"),
    };

    /// <summary>An amount for each offer named.</summary>
    public IReadOnlyDictionary<string, decimal> ByOffer(YamlMap? map)
    {
        var amounts = new Dictionary<string, decimal>(StringComparer.Ordinal);
        foreach (string name in map?.Keys ?? [])
        {
            if (!offers.Contains(name)) map!.ReportWhole(name, $"no offer is called so{Nearest.Hint(name, offers)}");
            else if (map!.Money(name, negative: false) is decimal amount) amounts.Add(name, amount);
        }
        return amounts;
    }
}
