using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Files;

/// <summary>Says in words how meter files are to be read, as the command line and the page do; also the answers to a <see cref="MeterQuestion"/>.</summary>
public static class MeterWords
{
    /// <summary>The options with one more thing said.</summary>
    /// <param name="options">What was said before.</param>
    /// <param name="word">The option, without its dashes: <c>zone</c>, <c>clock</c>, <c>unit</c> …</param>
    /// <param name="value">What is said of it.</param>
    /// <exception cref="ArgumentException">The option is not known, or the value is none of it.</exception>
    public static MeterOptions With(MeterOptions options, string word, string value)
    {
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(value);
        return word switch
        {
            "zone" => options with { Zone = DateTimeZoneProviders.Tzdb.GetZoneOrNull(value) ?? throw Wrong(word, value, "no IANA zone such as America/Denver") },
            "clock" => options with { Clock = ClockOf(value) },
            "day-first" => options with { DayFirst = YesNo(word, value) },
            "stamp" => options with { Stamp = value switch { "start" => StampMark.Start, "end" => StampMark.End, _ => throw Wrong(word, value, "neither start nor end") } },
            "decimal" => options with { DecimalComma = value switch { "comma" => true, "point" => false, _ => throw Wrong(word, value, "neither comma nor point") } },
            "unit" => options with { Unit = value switch { "Wh" => MeterUnit.Wh, "kWh" => MeterUnit.KWh, "MWh" => MeterUnit.MWh, "W" => MeterUnit.W, "kW" => MeterUnit.KW, _ => throw Wrong(word, value, "none of Wh, kWh, MWh, W, kW") } },
            "year" => options with { Year = Whole(word, value) },
            "meter" => options with { Meter = value },
            "role" => options with { Roles = Role(options.Roles, value) },
            "register" => options with { IsRegister = YesNo(word, value) },
            "step" => options with { StepMinutes = Whole(word, value) },
            "clock-change" => options with { ClockChange = value == "split" ? ClockChange.SplitAndDrop : throw Wrong(word, value, "not split") },
            "duplicates" => options with { Duplicates = !char.IsAsciiDigit(value.FirstOrDefault()) && Enum.TryParse(value, ignoreCase: true, out DuplicateRule rule) ? rule : throw Wrong(word, value, "none of refuse, first, last, larger, sum") },
            "fill" => options with { FillsGaps = YesNo(word, value) },
            _ => throw new ArgumentException($"\"{word}\" says nothing of how meter files are read."),
        };
    }

    private static ArgumentException Wrong(string word, string value, string rule) => new($"--{word}: \"{value}\" is {rule}.");

    private static bool YesNo(string word, string value) => value switch { "yes" => true, "no" => false, _ => throw Wrong(word, value, "neither yes nor no") };

    private static int Whole(string word, string value) => int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out int number) ? number : throw Wrong(word, value, "not a whole number");

    private static ProfileClock ClockOf(string value)
    {
        switch (value)
        {
            case "local": return new ProfileClock.Local();
            case "standard": return new ProfileClock.Standard();
            case "utc": return new ProfileClock.Fixed(Offset.Zero);
        }
        ParseResult<Offset> offset = OffsetPattern.CreateWithInvariantCulture("+HH:mm").Parse(value);
        return offset.Success ? new ProfileClock.Fixed(offset.Value) : throw Wrong("clock", value, "none of local, standard, utc or an offset such as +10:00");
    }

    private static Dictionary<string, MeterRole> Role(IReadOnlyDictionary<string, MeterRole> before, string value)
    {
        int at = value.LastIndexOf('=');
        if (at < 0 || !Enum.TryParse(value[(at + 1)..], ignoreCase: true, out MeterRole role) || char.IsAsciiDigit(value[^1])) throw Wrong("role", value, "not written \"HEADER=import\" (or export, net, ignore)");
        return new Dictionary<string, MeterRole>(before, StringComparer.OrdinalIgnoreCase) { [value[..at]] = role };
    }
}
