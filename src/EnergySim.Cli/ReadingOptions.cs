using System.CommandLine;
using System.Globalization;
using EnergySim.Files;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Cli;

/// <summary>The options that say how a file is to be read.</summary>
internal sealed class ReadingOptions
{
    private readonly Option<string?> _zone = new("--zone") { Description = "The meter's IANA zone, such as America/Denver." };
    private readonly Option<string?> _clock = new("--clock") { Description = "The clock of stamps without an offset: local, standard (no daylight saving), utc, or an offset such as +10:00." };
    private readonly Option<string?> _dayFirst = new("--day-first") { Description = "Whether 03/04 is the third of April: yes or no." };
    private readonly Option<string?> _stamp = new("--stamp") { Description = "Which end of its interval a stamp names: start or end." };
    private readonly Option<string?> _decimal = new("--decimal") { Description = "The decimal mark: comma or point." };
    private readonly Option<string?> _unit = new("--unit") { Description = "What the numbers are: Wh, kWh, MWh (energy of the interval), W, kW (mean power)." };
    private readonly Option<int?> _year = new("--year") { Description = "The year of stamps that carry none." };
    private readonly Option<string?> _meter = new("--meter") { Description = "Which of several meters; sum adds them up." };
    private readonly Option<string[]> _role = new("--role") { Description = "What a column holds: \"HEADER=import\", export, net or ignore; may be said several times." };
    private readonly Option<string?> _register = new("--register") { Description = "Whether the numbers are those of a register that counts up: yes or no." };
    private readonly Option<int?> _step = new("--step") { Description = "Length of an interval that is wanted, minutes: finer data are summed, coarser ones shared out evenly." };
    private readonly Option<string?> _change = new("--clock-change") { Description = "split: the file keeps 24 hours on every day; the hour that does not exist is dropped, the one that holds both passes split in two." };
    private readonly Option<string> _duplicates = new("--duplicates") { DefaultValueFactory = _ => "refuse", Description = "Two different numbers for one interval: refuse, first, last, larger or sum." };
    private readonly Option<bool> _fill = new("--fill") { Description = "Fill gaps with the median of the same time of like days; each is listed." };

    public void AddTo(Command command)
    {
        _dayFirst.AcceptOnlyFromAmong("yes", "no");
        _stamp.AcceptOnlyFromAmong("start", "end");
        _decimal.AcceptOnlyFromAmong("comma", "point");
        _unit.AcceptOnlyFromAmong("Wh", "kWh", "MWh", "W", "kW");
        _register.AcceptOnlyFromAmong("yes", "no");
        _change.AcceptOnlyFromAmong("split");
        _duplicates.AcceptOnlyFromAmong("refuse", "first", "last", "larger", "sum");
        foreach (Option option in (Option[])[_zone, _clock, _dayFirst, _stamp, _decimal, _unit, _year, _meter, _role, _register, _step, _change, _duplicates, _fill]) command.Add(option);
    }

    public MeterOptions Of(ParseResult parsed) => new()
    {
        Zone = parsed.GetValue(_zone) is string zone ? ZoneOf(zone) : null,
        Clock = parsed.GetValue(_clock) is string clock ? ClockOf(clock) : null,
        DayFirst = YesNo(parsed.GetValue(_dayFirst)),
        Stamp = parsed.GetValue(_stamp) switch { "start" => StampMark.Start, "end" => StampMark.End, _ => null },
        DecimalComma = parsed.GetValue(_decimal) is string mark ? mark == "comma" : null,
        Unit = parsed.GetValue(_unit) switch { "Wh" => MeterUnit.Wh, "kWh" => MeterUnit.KWh, "MWh" => MeterUnit.MWh, "W" => MeterUnit.W, "kW" => MeterUnit.KW, _ => null },
        Year = parsed.GetValue(_year),
        Meter = parsed.GetValue(_meter),
        Roles = RolesOf(parsed.GetValue(_role) ?? []),
        IsRegister = YesNo(parsed.GetValue(_register)),
        StepMinutes = parsed.GetValue(_step),
        ClockChange = parsed.GetValue(_change) is null ? null : ClockChange.SplitAndDrop,
        Duplicates = Enum.Parse<DuplicateRule>(parsed.GetValue(_duplicates)!, ignoreCase: true),
        FillsGaps = parsed.GetValue(_fill),
    };

    private static bool? YesNo(string? text) => text is null ? null : text == "yes";

    private static DateTimeZone ZoneOf(string id) =>
        DateTimeZoneProviders.Tzdb.GetZoneOrNull(id) ?? throw new ArgumentException($"--zone: \"{id}\" is no IANA zone such as America/Denver.");

    private static ProfileClock ClockOf(string text)
    {
        switch (text)
        {
            case "local": return new ProfileClock.Local();
            case "standard": return new ProfileClock.Standard();
            case "utc": return new ProfileClock.Fixed(Offset.Zero);
        }
        ParseResult<Offset> offset = OffsetPattern.CreateWithInvariantCulture("+HH:mm").Parse(text);
        return offset.Success ? new ProfileClock.Fixed(offset.Value) : throw new ArgumentException($"--clock: \"{text}\" is none of local, standard, utc or an offset such as +10:00.");
    }

    private static Dictionary<string, MeterRole> RolesOf(string[] texts)
    {
        var roles = new Dictionary<string, MeterRole>(StringComparer.OrdinalIgnoreCase);
        foreach (string text in texts)
        {
            int at = text.LastIndexOf('=');
            if (at < 0 || !Enum.TryParse(text[(at + 1)..], ignoreCase: true, out MeterRole role) || char.IsAsciiDigit(text[^1]))
                throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"--role: \"{text}\" is not written \"HEADER=import\" (or export, net, ignore)."));
            roles[text[..at]] = role;
        }
        return roles;
    }
}
