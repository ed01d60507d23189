namespace EnergySim.Files;

/// <summary>The keys of a tariff file.</summary>
internal static class TariffSections
{
    private static readonly string[] s_terms =
    [
        "seasons", "holidays", "periods", "energy", "neverOffsetPart", "fixed", "tiers", "minimum", "percentages", "demand", "events",
        "rounding", "export", "meterMinutes", "netsInsideMeterInterval",
    ];

    public static Section Tariff { get; } = new(
        "", ["name", "zone", "effective", "periods", "energy"],
        ["publisher", "currency", "later", .. s_terms.Where(k => k is not ("periods" or "energy"))]);

    public static Section Later { get; } = new("later", ["effective"], s_terms);

    public static Section Holiday { get; } = new("holiday", [], ["every", "move", "date"]);

    public static Section Period { get; } = new("period", ["period"], ["season", "days", "from", "to"]);

    public static Section Energy { get; } = new("energyPrice", ["price"], ["season", "period"]);

    public static Section Fixed { get; } = new("fixed", [], ["perDay", "perMonth", "byDays"]);

    public static Section Tiers { get; } = new("tiers", [], ["allowanceKwhPerBill", "allowanceKwhPerDay", "steps", "creditPerKwh"]);

    public static Section TierStep { get; } = new("tierStep", ["from", "price"], []);

    public static Section Minimum { get; } = new("minimum", [], ["perBill", "perDay", "counts"]);

    public static Section Percentage { get; } = new("percentage", ["name", "rate"], ["of"]);

    public static Section Demand { get; } = new(
        "demandCharge", ["name", "price"],
        ["minutes", "season", "days", "from", "to", "ratchet", "capKw", "earlierMeasuredKw", "earlierBilledKw"]);

    public static Section Ratchet { get; } = new("ratchet", ["share", "bills"], []);

    public static Section Events { get; } = new("events", ["adder"], ["dates", "highestLoadDays", "season", "from", "to"]);

    public static Section Rounding { get; } = new("rounding", ["of"], ["to"]);

    public static Section Nothing { get; } = new("exportNothing", ["terms"], []);

    public static Section RetailNetting { get; } = new("exportRetailNetting", ["terms"], ["neverOffsetOnImport", "settlement", "surplusPrice", "creditLastsBills"]);

    public static Section NetBilling { get; } = new("exportNetBilling", ["terms"], ["prices", "tables", "hours", "pays", "creditLastsBills", "cashOut", "yearEnd"]);

    public static Section MonthlyNetting { get; } = new("exportMonthlyNetting", ["terms"], ["surplusPrice", "acrossPeriods", "cashOutPrice", "creditLastsBills"]);

    public static Section TwoWay { get; } = new("exportTwoWay", ["terms", "charge", "reward"], ["anyTimePrice"]);

    public static Section SellAll { get; } = new("exportSellAll", ["terms", "price"], []);

    public static Section ExportPrice { get; } = new("exportPrice", ["price"], ["month", "hour", "day", "season", "period"]);

    public static Section ExportTable { get; } = new("exportTable", ["months"], ["day", "part"]);

    public static Section CreditUse { get; } = new("creditUse", ["part", "kinds"], []);

    public static Section ExportCharge { get; } = new("exportCharge", ["from", "to", "price"], ["freeKwhPerBill", "freeKwhPerDay"]);

    public static Section ExportReward { get; } = new("exportReward", ["from", "to", "price"], []);

    public static IReadOnlyList<Section> All { get; } =
    [
        Tariff, Later, Holiday, Period, Energy, Fixed, Tiers, TierStep, Minimum, Percentage, Demand, Ratchet, Events, Rounding, Nothing, RetailNetting,
        NetBilling, MonthlyNetting, TwoWay, SellAll, ExportPrice, ExportTable, CreditUse, ExportCharge, ExportReward,
    ];
}
