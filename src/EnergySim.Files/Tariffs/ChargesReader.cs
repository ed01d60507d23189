using EnergySim.Tariffs;
using NodaTime;

namespace EnergySim.Files;

/// <summary>Reads what a version charges besides energy: tiers, minimum, percentages, demand and events.</summary>
internal sealed class ChargesReader(YamlMap map, TariffNames names)
{
    // Kinds of bill line that do not depend on the tariff, in the order of a bill: what a charge may name must stand before it.
    private static readonly string[] s_beforeCredits = ["tier", "event", "fixed", "demand"];
    private static readonly string[] s_beforeMinimum = [.. s_beforeCredits, "export", "export charge", "credit"];
    private static readonly string[] s_beforePercentages = [.. s_beforeMinimum, "minimum"];
    private static readonly string[] s_all = [.. s_beforePercentages, "settlement", "rounding"];

    private static readonly Bounds s_allowance = new(0, Why: "an allowance of nothing has no steps", LeastExcluded: true);

    public Tiers? Tiers()
    {
        if (map.Map("tiers", TariffSections.Tiers) is not YamlMap tiers) return null;
        bool sound = tiers.OneOf("allowanceKwhPerBill", "allowanceKwhPerDay");
        List<TierStep> steps = [.. tiers.Maps("steps", TariffSections.TierStep).Select(Step)];
        for (int i = 0; sound && i < steps.Count; i++)
        {
            if (i == 0 && steps[0].FromFraction != 0) tiers.ReportWhole("steps", "the first step begins at 0");
            if (i > 0 && steps[i].FromFraction <= steps[i - 1].FromFraction) tiers.ReportWhole("steps", "the steps do not rise");
        }
        if (steps.Count == 0 && !tiers.Has("creditPerKwh")) tiers.ReportHere("tiers need steps or a creditPerKwh");
        return new Tiers
        {
            AllowanceKwhPerBill = tiers.Number("allowanceKwhPerBill", s_allowance),
            AllowanceKwhPerDay = tiers.Has("allowanceKwhPerDay") ? AllowancePerDay(tiers) : null,
            Steps = steps,
            CreditPerKwh = tiers.Money("creditPerKwh"),
        };
    }

    public MinimumBill? Minimum()
    {
        if (map.Map("minimum", TariffSections.Minimum) is not YamlMap minimum) return null;
        if (!minimum.Has("perBill") && !minimum.Has("perDay")) minimum.ReportHere("perBill or perDay is missing");
        return new MinimumBill(minimum.Money("perBill", false) ?? 0, minimum.Money("perDay", false) ?? 0, KindsIn(minimum, "counts", s_beforeMinimum));
    }

    public IReadOnlyList<Percentage> Percentages()
    {
        var before = new List<string>();
        var percentages = new List<Percentage>();
        foreach (YamlMap item in map.Maps("percentages", TariffSections.Percentage))
        {
            string name = item.Name("name");
            if (before.Contains(name) || s_all.Contains(name) || names.Parts.Contains(name)) item.Report("name", "is also the name of another kind of line");
            percentages.Add(new Percentage(name, item.Text("rate")?.Rate() ?? 0, KindsIn(item, "of", [.. s_beforePercentages, .. before])));
            before.Add(name);
        }
        return percentages;
    }

    public IReadOnlyList<DemandCharge> Demand()
    {
        var charges = new List<DemandCharge>();
        foreach (YamlMap item in map.Maps("demand", TariffSections.Demand))
        {
            DemandCharge charge = DemandIn(item);
            if (charges.Any(c => c.Name == charge.Name)) item.Report("name", "names two demand charges");
            charges.Add(charge);
        }
        return charges;
    }

    public EventCharge? Events()
    {
        if (map.Map("events", TariffSections.Events) is not YamlMap events) return null;
        var dates = new List<LocalDate>();
        foreach (YamlText text in events.Texts("dates"))
            if (text.Date() is LocalDate date)
            {
                if (dates.Contains(date)) text.Report("stands twice");
                dates.Add(date);
            }
        events.OneOf("dates", "highestLoadDays");
        if (events.Has("season") && !events.Has("highestLoadDays")) events.Report("season", "holds for highestLoadDays only; dates say their season");
        return new EventCharge(dates, events.Money("adder") ?? 0, events.Window())
        {
            HighestLoadDays = events.Text("highestLoadDays")?.Whole(1, 366),
            Season = events.Text("season")?.Name("season of this tariff", names.Seasons),
        };
    }

    public BillRounding Rounding()
    {
        if (map.Map("rounding", TariffSections.Rounding) is not YamlMap rounding) return BillRounding.LinesToTheCent;
        decimal to = rounding.Money("to") ?? BillRounding.LinesToTheCent.To;
        if (to <= 0) rounding.Report("to", "is not above 0");
        return new BillRounding(rounding.Text("of")?.Choice(("line", false), ("total", true)) ?? false, to);
    }

    /// <summary>Kinds of line that a part of the export credit pays, in order.</summary>
    public IReadOnlyList<string> KindsPaid(YamlMap use) => KindsIn(use, "kinds", s_beforeCredits);

    private IReadOnlyList<string> KindsIn(YamlMap item, string key, string[] before)
    {
        string[] known = [.. names.Parts, .. before];
        return [.. item.Texts(key).Select(t => t.Name("kind of line that comes before", known)).OfType<string>()];
    }

    private TierStep Step(YamlMap step)
    {
        double from = step.Text("from")?.Share(Bounds.NotNegative) ?? 0;
        return step.IsMap("price")
            ? new TierStep(from, null, ByName(step, "price", "period", names.Periods))
            : new TierStep(from, step.Money("price"));
    }

    private Dictionary<string, double> AllowancePerDay(YamlMap tiers)
    {
        if (!tiers.IsMap("allowanceKwhPerDay"))
        {
            double allowance = tiers.Number("allowanceKwhPerDay", s_allowance) ?? 0;
            return names.Seasons.ToDictionary(s => s, _ => allowance);
        }
        YamlMap bySeason = tiers.Map("allowanceKwhPerDay", null)!;
        AskNames(bySeason, tiers, "allowanceKwhPerDay", "season", names.Seasons);
        return bySeason.Keys.ToDictionary(s => s, s => bySeason.Number(s, s_allowance) ?? 0);
    }

    private DemandCharge DemandIn(YamlMap item)
    {
        string? season = item.Text("season")?.Name("season of this tariff", names.Seasons);
        YamlMap? ratchet = item.Map("ratchet", TariffSections.Ratchet);
        bool bySeason = item.IsMap("price");
        if (bySeason && season is not null) item.ReportHere("a price by season and a season exclude each other");
        return new DemandCharge
        {
            Name = item.Name("name"),
            Minutes = item.Text("minutes")?.StepMinutes() ?? 15,
            PricePerKw = bySeason ? null : item.Money("price", false),
            PriceBySeason = bySeason ? ByName(item, "price", "season", names.Seasons) : null,
            Season = season,
            Days = VersionReader.DaysIn(item),
            Window = item.Window(),
            RatchetFraction = ratchet?.Share("share") ?? 0,
            RatchetBills = ratchet?.Text("bills")?.Whole(1) ?? 0,
            CapKw = item.Number("capKw", Bounds.NotNegative),
            EarlierMeasuredKw = item.Numbers("earlierMeasuredKw", Bounds.NotNegative),
            EarlierBilledKw = item.Numbers("earlierBilledKw", Bounds.NotNegative),
        };
    }

    // A price for each season or period, all of them and no other.
    private static Dictionary<string, decimal> ByName(YamlMap item, string key, string kind, IReadOnlyList<string> known)
    {
        YamlMap prices = item.Map(key, null)!;
        AskNames(prices, item, key, kind, known);
        return prices.Keys.ToDictionary(n => n, n => prices.Money(n) ?? 0);
    }

    private static void AskNames(YamlMap byName, YamlMap item, string key, string kind, IReadOnlyList<string> known)
    {
        foreach (string name in byName.Keys.Where(n => !known.Contains(n)))
            byName.ReportWhole(name, $"{name} is no {kind} of this tariff{Nearest.Hint(name, known)}");
        foreach (string name in known.Where(n => !byName.Has(n))) item.ReportWhole(key, $"{kind} {name} is missing");
    }
}
