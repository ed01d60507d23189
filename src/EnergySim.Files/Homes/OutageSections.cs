namespace EnergySim.Files;

/// <summary>The keys of a home file's outage questions.</summary>
internal static class OutageSections
{
    public static Section Outage { get; } = new(
        "outage", [],
        [
            "start", "hours", "horizonHours", "sun", "sunByDay", "solarInOutage", "typicalYear", "weatherYears", "charge", "stormLeadHours", "overload", "kept", "keptProfile",
            "keptAppliances", "parts", "restart", "generator", "motors", "legs", "wish", "durations",
        ]);

    public static Section WeatherYear { get; } = new("weatherYear", ["name", "file", "column"], HomeSections.Column);

    public static Section Appliance { get; } = new("appliance", ["appliance", "watts"], ["from", "to", "days"]);

    public static Section Part { get; } = new("loadPart", ["part"], ["share", "profile", "appliances", "kept", "offBelow", "onAbove"]);

    public static Section Restart { get; } = new("restart", [], ["afterTrip", "afterEmpty", "byHandAfterHours", "heldBack", "triesWithSun"]);

    public static Section Generator { get; } = new("generator", ["kw"], ["startBelow", "stopAbove", "fuelKwh", "besideSolar"]);

    public static Section Motor { get; } = new(
        "motor", ["motor"], ["volts", "lockedRotorAmps", "runningAmps", "tons", "horsepower", "code", "softStarter", "softStarterCut"]);

    public static Section Wish { get; } = new("wish", [], ["hours", "share"]);

    public static Section Durations { get; } = new("durations", ["source", "saidiMinutes", "saifi"], ["ordinarySaidiMinutes", "ordinarySaifi"]);

    public static IReadOnlyList<Section> All { get; } = [Outage, WeatherYear, Appliance, Part, Restart, Generator, Motor, Wish, Durations];
}
