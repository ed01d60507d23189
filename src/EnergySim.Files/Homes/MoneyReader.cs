using EnergySim.Economics;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Files;

/// <summary>Reads a home file's money section; what it does not state stays at its default and is named.</summary>
/// <param name="map">The home file.</param>
/// <param name="offers">Names of the offers.</param>
/// <param name="tariff">The home's tariff; null when it could not be read.</param>
/// <param name="otherTariff">Reads a tariff file named in the home file.</param>
internal sealed class MoneyReader(YamlMap map, IReadOnlyList<string> offers, Tariff? tariff, Func<string, Tariff?> otherTariff)
{
    private const int MostYears = 50;

    private static readonly Bounds s_rate = new(-0.5, 0.5, "a rate a year is written 0.02 or \"2 %\"");
    private static readonly MoneyTerms s_default = new();

    private readonly MoneyContracts _contracts = new(offers);
    private readonly List<string> _unstated = [];

    public MoneyTerms Read()
    {
        YamlMap? m = map.Map("money", MoneySections.Money);
        var terms = new MoneyTerms
        {
            HorizonYears = Or(m?.Text("years")?.Whole(1, MostYears), s_default.HorizonYears, "years", n => $"{n} years"),
            FirstYear = m?.Text("firstYear")?.Whole(1950, 2200),
            Basis = m?.Text("basis")?.Choice(("nominal", MoneyBasis.Nominal), ("real", MoneyBasis.Real)) ?? MoneyBasis.Nominal,
            DiscountFraction = Rate(m, "discount", s_default.DiscountFraction, "discount rate"),
            InflationFraction = Rate(m, "inflation", s_default.InflationFraction, "inflation"),
            Growth = Growth(m),
            SolarFadeFraction = Or(m?.Share("solarFade"), s_default.SolarFadeFraction, "panels fade", Percent),
            LoadGrowthFraction = Rate(m, "loadGrowth", s_default.LoadGrowthFraction, "load grows"),
            AddedLoads = [.. (m?.Maps("addedLoads", MoneySections.AddedLoad) ?? []).Select(Added).OfType<AddedLoad>()],
            ExportChanges = Changes(m),
            Life = Life(m),
            BatteryInverter = MoneyContracts.Inverter(m?.Map("batteryInverter", MoneySections.Inverter), MostYears),
            SolarInverter = MoneyContracts.Inverter(m?.Map("solarInverter", MoneySections.Inverter), MostYears),
            UpkeepPerYear = Or(m?.Money("upkeepPerYear", negative: false), 0, "upkeep", _ => "none"),
            Incentives = [.. (m?.Maps("incentives", MoneySections.Incentive) ?? []).Select(MoneyContracts.Incentive)],
            Loan = MoneyContracts.Loan(m?.Map("loan", MoneySections.Loan)),
            Lease = _contracts.Lease(m?.Map("lease", MoneySections.Lease)),
            BackupValuePerYear = m?.Money("backupValuePerYear", negative: false),
            Bands = Bands(m),
        };
        return terms with { Unstated = _unstated };
    }

    private GrowthRates Growth(YamlMap? money)
    {
        YamlMap? g = money?.Map("growth", MoneySections.Growth);
        GrowthRates d = s_default.Growth;
        var parts = new Dictionary<string, double>(StringComparer.Ordinal);
        string[] known = [.. tariff?.Versions.SelectMany(v => v.EnergyPrices).SelectMany(p => p.Parts).Select(p => p.Part).Distinct() ?? []];
        if (g?.Map("parts", null) is YamlMap own)
            foreach (string part in own.Keys)
            {
                if (tariff is not null && !known.Contains(part)) own.ReportWhole(part, $"the tariff has no such part of a price; there are {string.Join(", ", known)}");
                else if (own.Text(part)?.Share(s_rate) is double rate) parts.Add(part, rate);
            }
        return new GrowthRates
        {
            Energy = Rate(g, "energy", d.Energy, "energy prices grow"),
            ByPart = parts,
            Fixed = Rate(g, "fixed", d.Fixed, "fixed charges grow"),
            Demand = Rate(g, "demand", d.Demand, "demand charges grow"),
            Export = Rate(g, "export", d.Export, "export prices grow"),
            Costs = Rate(g, "costs", d.Costs, "upkeep and replacements grow"),
        };
    }

    private static AddedLoad? Added(YamlMap a)
    {
        ClockWindow? window = a.Has("window") ? a.Text("window")?.Window() : ClockWindow.WholeDay;
        return a.Text("from")?.Date() is LocalDate from && window is ClockWindow when
            ? new AddedLoad(a.Name("name"), from, a.Number("kwhPerDay", Files.Bounds.NotNegative) ?? 0, when)
            : null;
    }

    private List<ExportChange> Changes(YamlMap? money)
    {
        var changes = new List<ExportChange>();
        foreach (YamlMap c in money?.Maps("exportChanges", MoneySections.ExportChange) ?? [])
        {
            if (!c.OneOf("price", "tariff") || c.Text("from")?.Date() is not LocalDate from) continue;
            if (changes.Count > 0 && from <= changes[^1].From) c.Report("from", $"does not come after {changes[^1].From:uuuu-MM-dd}");
            if (c.Money("price") is decimal price)
            {
                changes.Add(new ExportChange(from, new ExportTerms.NetBilling { Prices = [new ExportPrice { Parts = [new PricePart(VersionReader.OnlyPart, price)] }] },
                    FormattableString.Invariant($"credited at {price:0.####} a kWh")));
                continue;
            }
            if (c.Text("tariff") is not YamlText file || otherTariff(file.Value) is not Tariff other) continue;
            ExportTerms terms = other.Versions[^1].Export;
            if (terms is ExportTerms.NetBilling billing && tariff is not null && Strange(billing) is string name)
                c.Report("tariff", $"prices exports by {name}, which the home's tariff does not have");
            changes.Add(new ExportChange(from, terms, $"the terms of {other.Name}"));
        }
        return changes;
    }

    private string? Strange(ExportTerms.NetBilling billing)
    {
        string[] periods = [.. tariff!.Versions.SelectMany(v => v.Periods).Select(p => p.Period)], seasons = [.. tariff.Versions.SelectMany(v => v.Seasons).Select(s => s.Name)];
        return billing.Prices.Select(p => p.Period).FirstOrDefault(p => p is not null && !periods.Contains(p))
            ?? billing.Prices.Select(p => p.Season).FirstOrDefault(s => s is not null && !seasons.Contains(s));
    }

    private BatteryLife Life(YamlMap? money)
    {
        YamlMap? l = money?.Map("life", MoneySections.Life);
        BatteryLife d = s_default.Life;
        YamlMap? replace = l?.Map("replace", MoneySections.Replace);
        if (replace is null) _unstated.Add("no battery is replaced");
        return new BatteryLife
        {
            FadePerYear = Or(l?.Share("fadePerYear"), d.FadePerYear, "cells fade by age", Percent),
            FadePerCycle = Or(l?.Share("fadePerCycle"), d.FadePerCycle, "cells fade by use", f => $"{(f * 100).ToString("0.####", System.Globalization.CultureInfo.InvariantCulture)} % a full cycle"),
            EndOfLifeFraction = Or(l?.Share("endOfLife"), d.EndOfLifeFraction, "out of service below", Whole),
            WarrantyYears = Or(l?.Number("warrantyYears", Files.Bounds.AboveZero), d.WarrantyYears!.Value, "warranty", y => FormattableString.Invariant($"{y} years")),
            WarrantyThroughputKwh = l?.Number("warrantyThroughputKwh", Files.Bounds.AboveZero),
            WarrantyFraction = Or(l?.Share("warrantyShare"), d.WarrantyFraction, "warranted capacity", Whole),
            Replacement = MoneyContracts.Replacement(replace, MostYears),
        };
    }

    private BandTerms Bands(YamlMap? money)
    {
        YamlMap? b = money?.Map("bands", MoneySections.Bands);
        BandTerms d = s_default.Bands;
        var sun = new Bounds(0, 2, "a share of the data's sun");
        var bands = new BandTerms
        {
            SolarLowFraction = Or(b?.Text("solarLow")?.Share(sun), d.SolarLowFraction, "sun of poor years", Whole),
            SolarHighFraction = Or(b?.Text("solarHigh")?.Share(sun), d.SolarHighFraction, "sun of good years", Whole),
            LoadFraction = Or(b?.Share("load"), d.LoadFraction, "load uncertain by", Whole),
            GrowthLowFraction = Rate(b, "growthLow", d.GrowthLowFraction, "low growth"),
            GrowthHighFraction = Rate(b, "growthHigh", d.GrowthHighFraction, "high growth"),
            BoundSavingByOffer = _contracts.ByOffer(b?.Map("boundSavings", null)),
        };
        if (bands.SolarHighFraction < bands.SolarLowFraction) b!.ReportHere("solarHigh is below solarLow");
        if (bands.GrowthHighFraction < bands.GrowthLowFraction) b!.ReportHere("growthHigh is below growthLow");
        return bands;
    }

    private double Rate(YamlMap? at, string key, double otherwise, string words) => Or(at?.Text(key)?.Share(s_rate), otherwise, words, Percent);

    private T Or<T>(T? stated, T otherwise, string words, Func<T, string> say) where T : struct
    {
        if (stated is null) _unstated.Add($"{words} {say(otherwise)}");
        return stated ?? otherwise;
    }

    private static string Percent(double rate) => FormattableString.Invariant($"{rate * 100:0.##} % a year");

    private static string Whole(double share) => FormattableString.Invariant($"{share * 100:0.#} %");
}
