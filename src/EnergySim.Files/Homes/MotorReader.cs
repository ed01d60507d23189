using EnergySim.Equipment;

namespace EnergySim.Files;

/// <summary>Reads a motor of the outage questions.</summary>
internal static class MotorReader
{
    public static Motor Read(YamlMap map)
    {
        double? amps = map.Number("lockedRotorAmps", Bounds.AboveZero), tons = map.Number("tons", Bounds.AboveZero), power = map.Number("horsepower", Bounds.AboveZero);
        char? code = map.Text("code") is YamlText text ? Code(text) : null;
        if (amps is null && tons is null && power is null && !map.Has("lockedRotorAmps") && !map.Has("tons") && !map.Has("horsepower"))
            map.ReportHere("lockedRotorAmps (from the nameplate), tons or horsepower says how it starts");
        if (map.Has("code") && !map.Has("horsepower")) map.ReportWhole("code", "a code letter needs the horsepower");
        if (map.Has("softStarterCut") && !map.Flag("softStarter", false)) map.ReportWhole("softStarterCut", "state softStarter: true with it");
        var motor = new Motor
        {
            Name = map.Name("motor"),
            Volts = map.Number("volts", Bounds.AboveZero) ?? 230,
            NameplateLockedRotorAmps = amps,
            NameplateRunningAmps = map.Number("runningAmps", Bounds.AboveZero),
            CoolingTons = tons,
            Horsepower = power,
            CodeLetter = code,
            HasSoftStarter = map.Flag("softStarter", false),
            SoftStarterCut = map.Share("softStarterCut"),
        };
        if (motor.LockedRotorAmps is null && (tons is not null || power is not null)) map.ReportHere("it is larger than the tables go; state lockedRotorAmps from the nameplate");
        return motor;
    }

    private static char? Code(YamlText text)
    {
        if (text.Value is [char letter] && MotorTables.CodeLetters.ContainsKey(letter)) return letter;
        text.Report("is no code letter with a bound; they are A to U without I, O and Q; else state lockedRotorAmps");
        return null;
    }
}
