using System.CommandLine;
using EnergySim.Files;

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

    public MeterOptions Of(ParseResult parsed)
    {
        var said = new List<(string Word, string? Value)>
        {
            ("zone", parsed.GetValue(_zone)), ("clock", parsed.GetValue(_clock)), ("day-first", parsed.GetValue(_dayFirst)), ("stamp", parsed.GetValue(_stamp)),
            ("decimal", parsed.GetValue(_decimal)), ("unit", parsed.GetValue(_unit)), ("meter", parsed.GetValue(_meter)), ("register", parsed.GetValue(_register)),
            ("clock-change", parsed.GetValue(_change)), ("duplicates", parsed.GetValue(_duplicates)),
        };
        said.AddRange((parsed.GetValue(_role) ?? []).Select(r => ("role", (string?)r)));
        var options = new MeterOptions { Year = parsed.GetValue(_year), StepMinutes = parsed.GetValue(_step), FillsGaps = parsed.GetValue(_fill) };
        return said.Where(s => s.Value is not null).Aggregate(options, (o, s) => MeterWords.With(o, s.Word, s.Value!));
    }
}
