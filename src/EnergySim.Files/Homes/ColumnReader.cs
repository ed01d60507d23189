using NodaTime;
using NodaTime.Text;

namespace EnergySim.Files;

/// <summary>Reads how a column of a profile file is to be read.</summary>
internal static class ColumnReader
{
    /// <summary>The column; null, with problems, when something of it does not fit.</summary>
    public static ProfileColumn? Read(YamlMap map)
    {
        int before = map.Reported;
        if (!map.Has("unit")) map.ReportHere("unit is missing; state kW (mean power) or kWh (energy of the interval)");
        if (!map.Has("stamp")) map.ReportHere("stamp is missing; state start or end, whichever end of its interval a stamp names");
        var column = new ProfileColumn
        {
            Column = map.Name("column"),
            Unit = map.Text("unit")?.Choice(("kW", ProfileUnit.KW), ("kWh", ProfileUnit.KWh)) ?? default,
            Stamp = map.Text("stamp")?.Choice(("start", StampMark.Start), ("end", StampMark.End)) ?? default,
            StampColumns = [.. map.Texts("stampColumns").Select(t => t.Value)],
            Clock = map.Text("clock") is YamlText clock ? Clock(clock) : new ProfileClock.InStamp(),
            Pattern = map.Text("pattern")?.Value,
            Year = map.Text("year")?.Whole(1900, 2200),
            StepMinutes = map.Text("stepMinutes")?.StepMinutes(),
            ClockChange = map.Text("clockChange")?.Choice(("as-on-the-clock", ClockChange.AsOnTheClock), ("split-and-drop", ClockChange.SplitAndDrop)) ?? ClockChange.AsOnTheClock,
        };
        return map.Reported == before ? column : null;
    }

    private static ProfileClock Clock(YamlText text)
    {
        switch (text.Value)
        {
            case "local": return new ProfileClock.Local();
            case "standard": return new ProfileClock.Standard();
            case "in-stamp": return new ProfileClock.InStamp();
            case "utc": return new ProfileClock.Fixed(Offset.Zero);
        }
        ParseResult<Offset> offset = OffsetPattern.CreateWithInvariantCulture("+HH:mm").Parse(text.Value);
        if (offset.Success) return new ProfileClock.Fixed(offset.Value);
        text.Report("is no clock; write local, standard, utc, in-stamp or an offset such as \"+10:00\"");
        return new ProfileClock.InStamp();
    }
}
