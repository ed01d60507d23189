namespace EnergySim.Files;

/// <summary>The keys of a home file's money section.</summary>
internal static class MoneySections
{
    public static Section Money { get; } = new(
        "money", [],
        [
            "years", "firstYear", "basis", "discount", "inflation", "growth", "solarFade", "loadGrowth", "addedLoads", "exportChanges", "life",
            "batteryInverter", "solarInverter", "upkeepPerYear", "incentives", "loan", "lease", "backupValuePerYear", "bands",
        ]);

    public static Section Growth { get; } = new("growth", [], ["energy", "parts", "fixed", "demand", "export", "costs"]);

    public static Section AddedLoad { get; } = new("addedLoad", ["name", "from", "kwhPerDay"], ["window"]);

    public static Section ExportChange { get; } = new("exportChange", ["from"], ["price", "tariff"]);

    public static Section Life { get; } = new(
        "life", [], ["fadePerYear", "fadePerCycle", "endOfLife", "warrantyYears", "warrantyThroughputKwh", "warrantyShare", "replace"]);

    public static Section Replace { get; } = new("replace", ["when", "pricePerUnit"], ["year"]);

    public static Section Inverter { get; } = new("inverterReplacement", ["year", "price"], []);

    public static Section Incentive { get; } = new(
        "incentive", ["name"],
        ["from", "until", "priceShare", "amount", "perKw", "perKwh", "yearlyPerKw", "years", "eventHours", "ownersOnly"]);

    public static Section Loan { get; } = new("loan", ["rate", "months"], ["fees", "fee", "down", "newPayments"]);

    public static Section NewPayments { get; } = new("newPayments", ["month", "paydown"], ["paid"]);

    public static Section Lease { get; } = new("lease", ["monthly", "years"], ["escalator", "buyout"]);

    public static Section Bands { get; } = new("bands", [], ["solarLow", "solarHigh", "load", "growthLow", "growthHigh", "boundSavings"]);

    public static IReadOnlyList<Section> All { get; } =
        [Money, Growth, AddedLoad, ExportChange, Life, Replace, Inverter, Incentive, Loan, NewPayments, Lease, Bands];
}
