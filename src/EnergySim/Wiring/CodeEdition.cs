namespace EnergySim.Wiring;

/// <summary>A rule of the electrical code that a way to connect is measured by.</summary>
public enum WiringRule
{
    /// <summary>Main + 125 % of the sources' current ≤ busbar.</summary>
    Busbar100,

    /// <summary>The same ≤ 120 % of the busbar, the sources at the end opposite the main.</summary>
    Busbar120,

    /// <summary>Centre-fed panel of a dwelling: the 120 % at one of its ends.</summary>
    CentreFed,

    /// <summary>All breakers but the main ≤ busbar.</summary>
    SumOfBreakers,

    /// <summary>Between meter and main.</summary>
    SupplySide,

    /// <summary>On a feeder, not at its far end.</summary>
    Feeder,

    /// <summary>By a tap of a feeder.</summary>
    FeederTap,

    /// <summary>A power control system holds a busbar or conductor at a setting.</summary>
    PowerControl,

    /// <summary>Breaker and conductor ≥ 125 % of continuous current.</summary>
    Continuous,

    /// <summary>Standard breaker sizes.</summary>
    StandardSize,

    /// <summary>Two pole spaces for the breaker (no code rule; a fact of the panel).</summary>
    Spaces,

    /// <summary>Load calculation by the standard method.</summary>
    StandardLoad,

    /// <summary>Load calculation by the general optional method.</summary>
    OptionalLoad,

    /// <summary>Load calculation of an existing dwelling.</summary>
    ExistingLoad,

    /// <summary>Load calculation from measured demand.</summary>
    MeasuredLoad,

    /// <summary>Off the grid: supply ≥ the largest single load.</summary>
    LargestLoad,

    /// <summary>Off the grid, automatic transfer: supply ≥ the full load, or the load is managed.</summary>
    FullLoad,

    /// <summary>Off the grid: each leg ≤ half of the inverter's rating (common practice).</summary>
    Leg,
}

/// <summary>
/// Where an edition of the National Electrical Code keeps the rules used here. Rules are data: a rule that an edition does not have is absent.
/// Section numbers are those of public notes on the editions; see <see cref="IsFromMemory"/>.
/// </summary>
public sealed class CodeEdition
{
    private readonly Dictionary<WiringRule, string> _sections;
    private readonly HashSet<WiringRule> _fromMemory;

    private CodeEdition(int year, Dictionary<WiringRule, string> sections, params WiringRule[] fromMemory) =>
        (Year, _sections, _fromMemory) = (year, sections, [.. fromMemory]);

    /// <summary>Its year.</summary>
    public int Year { get; }

    /// <summary>Lighting and receptacles of a dwelling, VA per square foot (2026: that of 2023; look it up).</summary>
    public double LightingVaPerSquareFoot { get; } = 3;

    /// <summary>The editions known here, oldest first.</summary>
    public static IReadOnlyList<CodeEdition> All { get; } = Array.AsReadOnly(
    [
        new CodeEdition(
            2017,
            Common(new()
            {
                [WiringRule.Busbar100] = "705.12(B)(2)(3)(a)",
                [WiringRule.Busbar120] = "705.12(B)(2)(3)(b)",
                [WiringRule.SumOfBreakers] = "705.12(B)(2)(3)(c)",
                [WiringRule.CentreFed] = "705.12(B)(2)(3)(d)",
                [WiringRule.SupplySide] = "705.12(A)",
                [WiringRule.Feeder] = "705.12(B)(2)(1)",
                [WiringRule.FeederTap] = "705.12(B)(2)(2)",
                [WiringRule.Continuous] = "705.60",
                [WiringRule.LargestLoad] = "710.15",
            }),
            WiringRule.SupplySide, WiringRule.FeederTap, WiringRule.Continuous, WiringRule.StandardLoad, WiringRule.FullLoad),
        new CodeEdition(
            2020,
            Common(new()
            {
                [WiringRule.Busbar100] = "705.12(B)(3)(1)",
                [WiringRule.Busbar120] = "705.12(B)(3)(2)",
                [WiringRule.SumOfBreakers] = "705.12(B)(3)(3)",
                [WiringRule.CentreFed] = "705.12(B)(3)(4)",
                [WiringRule.SupplySide] = "705.11",
                [WiringRule.Feeder] = "705.12(B)(1)",
                [WiringRule.FeederTap] = "705.12(B)(2)",
                [WiringRule.PowerControl] = "705.13",
                [WiringRule.Continuous] = "705.28, 705.30",
                [WiringRule.LargestLoad] = "710.15",
            }),
            WiringRule.CentreFed, WiringRule.FeederTap, WiringRule.Continuous, WiringRule.StandardLoad, WiringRule.FullLoad),
        new CodeEdition(2023, Renumbered("705.13 and 750.30"), RenumberedFromMemory()),
        new CodeEdition(
            2026,
            new(Renumbered("705.13 and Article 130 Part II"))
            {
                [WiringRule.StandardLoad] = "Article 120 (before: 220)",
                [WiringRule.OptionalLoad] = "120.82 (before: 220.82)",
                [WiringRule.ExistingLoad] = "120.83 (before: 220.83)",
                [WiringRule.MeasuredLoad] = "120.87 (before: 220.87)",
                [WiringRule.FullLoad] = "702.4(A)(3)",
            },
            [.. RenumberedFromMemory(), WiringRule.OptionalLoad, WiringRule.ExistingLoad, WiringRule.MeasuredLoad]),
    ]);

    /// <summary>The edition of a year; null = not known here.</summary>
    public static CodeEdition? Of(int year) => All.FirstOrDefault(e => e.Year == year);

    /// <summary>Section of a rule, or null where the edition does not have it.</summary>
    public string? SectionOf(WiringRule rule) => _sections.GetValueOrDefault(rule);

    /// <summary>True when the section's number is from memory and must be looked up before it is quoted.</summary>
    public bool IsFromMemory(WiringRule rule) => _fromMemory.Contains(rule);

    private static Dictionary<WiringRule, string> Common(Dictionary<WiringRule, string> sections)
    {
        sections.Add(WiringRule.StandardSize, "240.6(A)");
        sections.Add(WiringRule.StandardLoad, "220 Part III");
        sections.Add(WiringRule.OptionalLoad, "220.82");
        sections.Add(WiringRule.ExistingLoad, "220.83(A)");
        sections.Add(WiringRule.MeasuredLoad, "220.87");
        sections.Add(WiringRule.FullLoad, "702.4");
        return sections;
    }

    // From 2023 the paragraphs of 705.12 bear other numbers; the section is cited whole.
    private static Dictionary<WiringRule, string> Renumbered(string powerControl) => Common(new()
    {
        [WiringRule.Busbar100] = "705.12, busbars",
        [WiringRule.Busbar120] = "705.12, busbars",
        [WiringRule.SumOfBreakers] = "705.12, busbars",
        [WiringRule.CentreFed] = "705.12, busbars",
        [WiringRule.SupplySide] = "705.11",
        [WiringRule.Feeder] = "705.12, feeders",
        [WiringRule.FeederTap] = "705.12, taps",
        [WiringRule.PowerControl] = powerControl,
        [WiringRule.Continuous] = "705.28, 705.30",
        [WiringRule.LargestLoad] = "710.15",
    });

    private static WiringRule[] RenumberedFromMemory() =>
    [
        WiringRule.Busbar100, WiringRule.Busbar120, WiringRule.SumOfBreakers, WiringRule.CentreFed, WiringRule.Feeder, WiringRule.FeederTap,
        WiringRule.Continuous, WiringRule.StandardLoad, WiringRule.LargestLoad, WiringRule.FullLoad,
    ];
}
