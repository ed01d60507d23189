namespace EnergySim.Engine;

/// <summary>What can bind in a step. The order is that of first appearance in the step.</summary>
public enum Limit
{
    /// <summary>Off the grid: the plant is dark for want of energy.</summary>
    Dark,

    /// <summary>Off the grid: the inverter tripped on overload.</summary>
    Trip,

    /// <summary>The solar inputs of the battery inverter (Psol).</summary>
    SolarInput,

    /// <summary>Off the grid: the separate solar inverter is too large for the plant (the 1:1 rule of the trade).</summary>
    OneToOne,

    /// <summary>The inverter's rating (Pinv).</summary>
    Inverter,

    /// <summary>The inverter's breaker (OUT).</summary>
    InverterBreaker,

    /// <summary>The guarded busbar (BUS).</summary>
    Busbar,

    /// <summary>The most power into the cells (Pc).</summary>
    ChargeRate,

    /// <summary>No room left under the ceiling.</summary>
    Full,

    /// <summary>The most power out of the cells (Pd).</summary>
    DischargeRate,

    /// <summary>No energy left above the floor.</summary>
    Floor,

    /// <summary>The grid-current cap (IMPORT).</summary>
    Import,

    /// <summary>The wanted import.</summary>
    ImportTarget,

    /// <summary>The export cap (EXPORT).</summary>
    Export,

    /// <summary>The house alone is above the grid-current cap.</summary>
    Overload,
}

/// <summary>A place in the step where a limit may bind, in the order in which they act. Named by the rule's number (ENGINE §5) and the limit.</summary>
public enum LimitSite
{
    /// <summary>Dark interval: all of the house.</summary>
    Dark,

    /// <summary>Tripped interval: all of the house.</summary>
    Trip,

    /// <summary>Rule 1, kW DC.</summary>
    Rule1SolarInput,

    /// <summary>Rule 2, kW AC.</summary>
    Rule2OneToOne,

    /// <summary>Rule 3, kW AC.</summary>
    Rule3Inverter,

    /// <summary>Rule 3, kW AC.</summary>
    Rule3InverterBreaker,

    /// <summary>Rule 3, kW AC.</summary>
    Rule3Busbar,

    /// <summary>Rule 4, DC solar, kW DC.</summary>
    Rule4DcChargeRate,

    /// <summary>Rule 4, DC solar, kW DC.</summary>
    Rule4DcFull,

    /// <summary>Rule 4, AC solar, kW AC.</summary>
    Rule4AcInverter,

    /// <summary>Rule 4, AC solar, kW AC.</summary>
    Rule4AcInverterBreaker,

    /// <summary>Rule 4, AC solar, kW AC.</summary>
    Rule4AcChargeRate,

    /// <summary>Rule 4, AC solar, kW AC.</summary>
    Rule4AcFull,

    /// <summary>Rule 5, kW AC.</summary>
    Rule5DischargeRate,

    /// <summary>Rule 5, kW AC.</summary>
    Rule5Inverter,

    /// <summary>Rule 5, kW AC.</summary>
    Rule5InverterBreaker,

    /// <summary>Rule 5, kW AC.</summary>
    Rule5Busbar,

    /// <summary>Rule 5, kW AC.</summary>
    Rule5Floor,

    /// <summary>Rule 6, kW AC.</summary>
    Rule6ChargeRate,

    /// <summary>Rule 6, kW AC.</summary>
    Rule6Inverter,

    /// <summary>Rule 6, kW AC.</summary>
    Rule6InverterBreaker,

    /// <summary>Rule 6, kW AC.</summary>
    Rule6Busbar,

    /// <summary>Rule 6, kW AC.</summary>
    Rule6Import,

    /// <summary>Rule 6, kW AC.</summary>
    Rule6ImportTarget,

    /// <summary>Rule 7, AC solar, kW AC.</summary>
    Rule7AcExport,

    /// <summary>Rule 7, kW AC.</summary>
    Rule7Inverter,

    /// <summary>Rule 7, kW AC.</summary>
    Rule7InverterBreaker,

    /// <summary>Rule 7, kW AC.</summary>
    Rule7Busbar,

    /// <summary>Rule 7, DC solar, kW AC.</summary>
    Rule7DcExport,

    /// <summary>Rule 8, kW AC.</summary>
    Rule8DischargeRate,

    /// <summary>Rule 8, kW AC.</summary>
    Rule8Inverter,

    /// <summary>Rule 8, kW AC.</summary>
    Rule8InverterBreaker,

    /// <summary>Rule 8, kW AC.</summary>
    Rule8Busbar,

    /// <summary>Rule 8, kW AC.</summary>
    Rule8Export,

    /// <summary>Rule 9, kW AC.</summary>
    Rule9Overload,
}

/// <summary>What the two enumerations say of each other, and the trade's short names.</summary>
public static class Limits
{
    /// <summary>Number of <see cref="Limit"/>s.</summary>
    public const int Count = 15;

    /// <summary>Number of <see cref="LimitSite"/>s.</summary>
    public const int SiteCount = 35;

    private static readonly string[] s_names =
        ["dark", "trip", "Psol", "1:1", "Pinv", "OUT", "BUS", "Pc", "full", "Pd", "floor", "IMPORT", "importTarget", "EXPORT", "overload"];

    private static ReadOnlySpan<byte> Rules =>
    [
        0, 0, 1, 2,
        3, 3, 3,
        4, 4, 4, 4, 4, 4,
        5, 5, 5, 5, 5,
        6, 6, 6, 6, 6, 6,
        7, 7, 7, 7, 7,
        8, 8, 8, 8, 8,
        9,
    ];

    private static ReadOnlySpan<byte> LimitsOfSites =>
    [
        (byte)Limit.Dark, (byte)Limit.Trip, (byte)Limit.SolarInput, (byte)Limit.OneToOne,
        (byte)Limit.Inverter, (byte)Limit.InverterBreaker, (byte)Limit.Busbar,
        (byte)Limit.ChargeRate, (byte)Limit.Full, (byte)Limit.Inverter, (byte)Limit.InverterBreaker, (byte)Limit.ChargeRate, (byte)Limit.Full,
        (byte)Limit.DischargeRate, (byte)Limit.Inverter, (byte)Limit.InverterBreaker, (byte)Limit.Busbar, (byte)Limit.Floor,
        (byte)Limit.ChargeRate, (byte)Limit.Inverter, (byte)Limit.InverterBreaker, (byte)Limit.Busbar, (byte)Limit.Import, (byte)Limit.ImportTarget,
        (byte)Limit.Export, (byte)Limit.Inverter, (byte)Limit.InverterBreaker, (byte)Limit.Busbar, (byte)Limit.Export,
        (byte)Limit.DischargeRate, (byte)Limit.Inverter, (byte)Limit.InverterBreaker, (byte)Limit.Busbar, (byte)Limit.Export,
        (byte)Limit.Overload,
    ];

    /// <summary>The rule of the step, 0–9, in which the site lies.</summary>
    public static int RuleOf(LimitSite site) => Rules[(int)site];

    /// <summary>The limit that binds there.</summary>
    public static Limit LimitOf(LimitSite site) => (Limit)LimitsOfSites[(int)site];

    /// <summary>The short name used in ledgers (ENGINE §5).</summary>
    public static string NameOf(Limit limit) => s_names[(int)limit];

    /// <summary>Short names of the limits in a set of sites (bit n = site n), each once, in the order in which they bound, joined by <c>;</c>.</summary>
    public static string NamesOf(ulong sites)
    {
        if (sites == 0) return "";
        var names = new List<string>(4);
        for (int site = 0; site < SiteCount; site++)
            if ((sites >> site & 1) != 0 && s_names[(int)LimitOf((LimitSite)site)] is var name && !names.Contains(name)) names.Add(name);
        return string.Join(';', names);
    }
}
