namespace EnergySim.Files;

/// <summary>The keys of a home file.</summary>
internal static class HomeSections
{
    public static string[] Column { get; } =
        ["unit", "stamp", "stampColumns", "clock", "pattern", "year", "stepMinutes", "clockChange"];

    public static Section Home { get; } = new(
        "", ["home", "zone", "load", "tariff", "batteries", "offers"], ["place", "note", "service", "wiring", "agreement", "solar", "roof", "account", "stepMinutes", "outage", "money"]);

    public static Section Load { get; } = new("profile", ["file", "column"], [.. Column, "nettedInInterval", "factor"]);

    public static Section Solar { get; } = new("solar", ["file", "column", "kind"], [.. Column, "inverterKw", "inverterEfficiency", "factor"]);

    public static Section Roof { get; } = new(
        "roof", ["weather", "planes", "inverterKw"],
        ["latitude", "longitude", "elevationM", "sky", "albedo", "losses", "snowDays", "degradationPerYear", "ageYears", "inverterEfficiency", "inverterCurve"]);

    public static Section Plane { get; } = new(
        "plane", ["plane", "tilt", "azimuth", "kw"], ["temperatureCoefficient", "mounting", "nominalCelsius", "horizon", "monthlyShade", "strings"]);

    public static Section Loss { get; } = new("loss", ["loss", "share", "source"], []);

    /// <summary>The keys after <c>fillsGapHours</c> are for plain files, which do not describe themselves.</summary>
    public static Section Weather { get; } = new(
        "weather", ["file"],
        ["leapDay", "fillsGapHours", "stamp", "clock", "stampColumns", "pattern", "global", "directNormal", "diffuse", "air", "airUnit", "wind", "albedo", "snow", "missing"]);

    public static Section Missing { get; } = new("missing", [], ["global", "directNormal", "diffuse", "air", "wind", "albedo", "snow"]);

    public static Section Service { get; } = new(
        "service", [], ["volts", "mainAmps", "importLimitKw", "exportLimitKw", "guardedBusbarAmps", "busbarLimitKw", "relievesImport"]);

    public static Section Account { get; } = new("account", [], ["readDates", "anniversary"]);

    public static Section Battery { get; } = new(
        "battery", ["capacityKwh", "chargeLimitKw", "dischargeLimitKw", "inverterKw"],
        [
            "surgeAmps", "lowestKwh", "chargeEfficiency", "dischargeEfficiency", "inverterEfficiency", "rectifierEfficiency", "solarInputKw", "solarInputs", "solarInputEachKw", "standbyKw",
            "restart", "wakesBySolar", "chargeTaper", "dischargeTaper",
        ]);

    public static Section Offer { get; } = new(
        "offer", ["offer", "battery", "units", "strategy"], ["price", "pricesByUnits", "breakerAmps", "replacesSolarInverter", "splitFraction"]);

    public static Section Strategy { get; } = new(
        "strategy", ["base"],
        [
            "reserve", "peak", "peakPeriods", "keepsForDearest", "shaveToKw", "refill", "ratchets", "overnight", "sell", "sellsByPrice", "events", "storm", "plansToSell", "rule",
        ]);

    public static Section Overnight { get; } = new("overnight", ["from", "to", "upTo"], ["likeDays"]);

    public static Section Sell { get; } = new("sell", ["from", "to", "downTo"], []);

    public static Section Storm { get; } = new("storm", ["upTo"], ["from", "to", "times", "leadHours", "darkDays", "darkBelow"]);

    public static Section StormTime { get; } = new("stormTime", ["from", "to"], []);

    public static Section Events { get; } = new("events", ["leadHours", "upTo"], []);

    public static Section Wiring { get; } = new(
        "wiring", ["busbarAmps"],
        [
            "edition", "serviceAmps", "sourceEnd", "freeSpaces", "loadBreakersAmps", "solarBreakerAmps", "equipmentVolts", "feeders", "loads", "kept",
            "largestLegKw", "years", "replaceWorkPrice", "splitWorkPrice", "ways",
        ]);

    public static Section Feeder { get; } = new(
        "feeder", ["feeder", "breakerAmps", "conductorAmps"], ["downstreamBreakerAmps", "tapAmps", "tapFeet", "load"]);

    public static Section Loads { get; } = new(
        "loads", ["areaSquareFeet"], ["smallApplianceCircuits", "laundryCircuits", "appliances", "climate", "addedVa", "measured"]);

    public static Section Appliance { get; } = new("dwellingAppliance", ["appliance", "va"], ["kind"]);

    public static Section Climate { get; } = new("climate", ["kind", "va"], []);

    public static Section Measured { get; } = new("measured", ["maxKw", "record"], []);

    public static Section Way { get; } = new("way", ["way", "connects"], ["keeps", "mainAmps", "settingAmps", "feeder", "costs"]);

    public static Section Cost { get; } = new("cost", ["item"], ["labour", "parts", "days"]);

    public static Section Agreement { get; } = new(
        "agreement", ["authorisedKw"], ["growth", "growthKw", "growthRule", "countsStorage", "storageRule", "newTariff"]);

    public static IReadOnlyList<Section> All { get; } =
    [
        Home, Load, Solar, Roof, Plane, Loss, Weather, Missing, Service, Account, Battery, Offer, Strategy, Overnight, Sell, Storm, StormTime, Events,
        Wiring, Feeder, Loads, Appliance, Climate, Measured, Way, Cost, Agreement, .. OutageSections.All, .. MoneySections.All,
    ];
}
