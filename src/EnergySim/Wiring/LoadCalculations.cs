using static System.FormattableString;

namespace EnergySim.Wiring;

/// <summary>
/// Load calculations of a dwelling (NEC Article 220, editions to 2023: parts III and IV and 220.87). They are inputs to a smaller main and to
/// backup of the whole home.
/// </summary>
public static class LoadCalculations
{
    private const double CircuitVa = 1500;

    /// <summary>The general optional method (220.82): 100 % of the first 10 kVA + 40 % of the rest + the largest heating or cooling line.</summary>
    public static CalculatedLoad Optional(DwellingLoads loads, CodeEdition edition)
    {
        double general = GeneralVa(loads, edition);
        double first = Math.Min(general, 10_000), rest = 0.4 * (general - first);
        double climate = 0;
        // Lines of one kind add before the kinds are compared: six room coolers run together.
        foreach (IGrouping<ClimateKind, ClimateLoad> kind in loads.Climate.GroupBy(c => c.Kind))
            climate = Math.Max(climate, kind.Sum(c => c.Va) * ClimateShare(kind.Key));
        double va = first + rest + climate;
        return new CalculatedLoad(
            WiringRule.OptionalLoad, va,
            Invariant($"{general:#,0} VA general → {first:#,0} + 40 % × {general - first:#,0} = {first + rest:#,0}; + {climate:#,0} heating or cooling = {va:#,0} VA"));
    }

    /// <summary>An existing dwelling (220.83(A)): 100 % of the first 8 kVA + 40 % of the rest, what is added included; no new heating or cooling.</summary>
    public static CalculatedLoad Existing(DwellingLoads loads, CodeEdition edition)
    {
        double all = GeneralVa(loads, edition) + loads.Climate.Sum(c => c.Va) + loads.AddedVa;
        double first = Math.Min(all, 8_000), va = first + (0.4 * (all - first));
        return new CalculatedLoad(WiringRule.ExistingLoad, va, Invariant($"{all:#,0} VA in all → {first:#,0} + 40 % × {all - first:#,0} = {va:#,0} VA"));
    }

    /// <summary>
    /// The standard method (Part III) for one range of at most 12 kW and one dryer: lighting and small-appliance load at 100 % to 3 kVA, 35 % to
    /// 120 kVA, 25 % above; four or more fixed appliances at 75 %; the larger of heating and cooling.
    /// </summary>
    /// <exception cref="ArgumentException">There are several ranges or dryers, or a range above 12 kW: their tables are not held here.</exception>
    public static CalculatedLoad Standard(DwellingLoads loads, CodeEdition edition)
    {
        (double lighting, double range, double dryer) = StandardParts(loads, edition);
        double[] fixtures = [.. loads.Appliances.Where(a => a.Kind == ApplianceKind.Fixed).Select(a => a.Va)];
        double fixedVa = fixtures.Sum() * (fixtures.Length >= 4 ? 0.75 : 1);
        double cooling = loads.Climate.Where(c => c.Kind == ClimateKind.Cooling).Sum(c => c.Va), heating = loads.Climate.Sum(c => c.Va) - cooling;
        double va = lighting + range + dryer + fixedVa + Math.Max(cooling, heating);
        return new CalculatedLoad(
            WiringRule.StandardLoad, va,
            Invariant($"{lighting:#,0} lighting + {range:#,0} range + {dryer:#,0} dryer + {fixedVa:#,0} fixed + {Math.Max(cooling, heating):#,0} heating or cooling = {va:#,0} VA"));
    }

    /// <summary>The neutral by the standard method: range and dryer count with 70 %, loads at line-to-line volts not at all, VA.</summary>
    public static double StandardNeutralVa(DwellingLoads loads, CodeEdition edition)
    {
        (double lighting, double range, double dryer) = StandardParts(loads, edition);
        return lighting + (0.7 * (range + dryer));
    }

    /// <summary>
    /// From measured demand (220.87): 125 % of the highest demand + what is added. A record of 30 days is barred where the home has solar or
    /// peak shaving: null then, and where nothing was measured.
    /// </summary>
    public static CalculatedLoad? Measured(DwellingLoads loads, bool hasSolarOrShaving)
    {
        ArgumentNullException.ThrowIfNull(loads);
        if (loads.Measured is not MeasuredDemand demand || (hasSolarOrShaving && !demand.IsWholeYear)) return null;
        double va = (1250 * demand.MaxKw) + loads.AddedVa;
        return new CalculatedLoad(WiringRule.MeasuredLoad, va, Invariant($"1.25 × {demand.MaxKw:0.##} kW + {loads.AddedVa:#,0} VA added = {va:#,0} VA"));
    }

    /// <summary>Each method that the facts allow, asked of a main.</summary>
    /// <param name="loads">The loads; null = not stated.</param>
    /// <param name="mainAmps">The main, A.</param>
    /// <param name="volts">Line-to-line volts.</param>
    /// <param name="hasSolarOrShaving">True where the home has solar or a battery that shaves peaks.</param>
    /// <param name="edition">The edition.</param>
    public static IReadOnlyList<Verdict> Ask(DwellingLoads? loads, double mainAmps, double volts, bool hasSolarOrShaving, CodeEdition edition)
    {
        ArgumentNullException.ThrowIfNull(edition);
        if (loads is null) return [Verdict.Missing(edition, WiringRule.ExistingLoad, "no load calculation: the dwelling's loads are not stated")];
        var verdicts = new List<Verdict> { Against(Existing(loads, edition), mainAmps, volts, edition), Against(Optional(loads with { Appliances = [.. loads.Appliances, new Appliance("added", loads.AddedVa)] }, edition), mainAmps, volts, edition) };
        if (Measured(loads, hasSolarOrShaving) is CalculatedLoad measured) verdicts.Add(Against(measured, mainAmps, volts, edition));
        else if (loads.Measured is not null) verdicts.Add(Verdict.Missing(edition, WiringRule.MeasuredLoad, "a record of 30 days does not count where there is solar or peak shaving; a year's record does"));
        return verdicts;
    }

    /// <summary>A calculated load asked of a main.</summary>
    public static Verdict Against(CalculatedLoad load, double mainAmps, double volts, CodeEdition edition)
    {
        ArgumentNullException.ThrowIfNull(load);
        double amps = load.Amps(volts);
        return Verdict.Of(edition, load.Rule, amps, mainAmps, Invariant($"{load.Arithmetic} ÷ {volts:0.##} V = {amps:0.##} A {(amps <= mainAmps ? "≤" : ">")} {mainAmps:0.##} A main"));
    }

    private static double GeneralVa(DwellingLoads loads, CodeEdition edition)
    {
        ArgumentNullException.ThrowIfNull(loads);
        return LightingVa(loads, edition) + loads.Appliances.Sum(a => a.Va);
    }

    private static double LightingVa(DwellingLoads loads, CodeEdition edition)
    {
        ArgumentNullException.ThrowIfNull(edition);
        return (edition.LightingVaPerSquareFoot * loads.AreaSquareFeet) + (CircuitVa * (loads.SmallApplianceCircuits + loads.LaundryCircuits));
    }

    private static (double LightingVa, double RangeVa, double DryerVa) StandardParts(DwellingLoads loads, CodeEdition edition)
    {
        ArgumentNullException.ThrowIfNull(loads);
        Appliance[] ranges = [.. loads.Appliances.Where(a => a.Kind == ApplianceKind.Range)], dryers = [.. loads.Appliances.Where(a => a.Kind == ApplianceKind.Dryer)];
        if (ranges.Length > 1 || dryers.Length > 1 || ranges.Any(r => r.Va > 12_000))
            throw new ArgumentException("The standard method is held here for one range of at most 12 kW and one dryer.", nameof(loads));
        double all = LightingVa(loads, edition), first = Math.Min(all, 3_000), next = Math.Min(all - first, 117_000);
        double lighting = first + (0.35 * next) + (0.25 * (all - first - next));
        // One range of at most 12 kW has a demand of 8 kW (Table 220.55, column C); a dryer counts with at least 5 kVA (220.54).
        return (lighting, ranges.Length == 1 ? 8_000 : 0, dryers.Length == 1 ? Math.Max(5_000, dryers[0].Va) : 0);
    }

    private static double ClimateShare(ClimateKind kind) => kind switch
    {
        ClimateKind.Cooling => 1,
        ClimateKind.ManyHeaters => 0.4,
        _ => 0.65,
    };
}
