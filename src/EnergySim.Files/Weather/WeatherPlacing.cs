using System.Globalization;
using EnergySim.Solar;
using NodaTime;

namespace EnergySim.Files;

/// <summary>Lays the rows of a weather file on even intervals: order and gaps, leap days, months of several years, missing values.</summary>
internal sealed class WeatherPlacing
{
    private const int DayMinutes = 1440;
    private readonly WeatherTable _table;
    private readonly WeatherOptions _options;
    private readonly ProblemList _problems;
    private readonly List<string> _repairs = [];
    private readonly List<string> _notes = [];
    // Start of each interval on the file's clock, and the row that it is taken from.
    private readonly List<long> _starts;
    private readonly List<int> _rows;
    private readonly int _step;
    private bool _isTypical;

    private WeatherPlacing(WeatherTable table, WeatherOptions options, ProblemList problems, int step)
    {
        (_table, _options, _problems, _step) = (table, options, problems, step);
        int lead = table.Mark switch { WeatherMark.Start => 0, WeatherMark.Middle => step / 2, _ => step };
        _starts = [.. table.Stamps.Select(stamp => stamp - lead)];
        _rows = [.. Enumerable.Range(0, _starts.Count)];
    }

    public static WeatherReading? Of(WeatherTable table, WeatherOptions options, ProblemList problems)
    {
        if (table.Stamps.Count < 2)
        {
            problems.Add(new Problem { File = table.File, Rule = "the file has fewer than two rows of data" });
            return null;
        }
        long step = table.StepMinutes ?? table.Stamps[1] - table.Stamps[0];
        if (!Time.TimeAxis.AllowedStepMinutes.Contains((int)Math.Clamp(step, 0, int.MaxValue)))
        {
            table.Report(table.Lines[1], table.StampField, WallClock.Text(table.Stamps[1]),
                string.Create(CultureInfo.InvariantCulture, $"comes {step} minutes after the first row; an interval is 1, 5, 15, 30 or 60 minutes long"));
            return null;
        }
        return new WeatherPlacing(table, options, problems, (int)step).Place();
    }

    private WeatherReading? Place()
    {
        int before = _problems.Count;
        bool isStitched = IsStitched();
        _isTypical = isStitched || _table.SaysTypical;
        if (_isTypical) LayOnOneYear(isStitched);
        CheckOrder();
        if (_problems.Count > before) return null;
        var columns = new WeatherValues(_table, _rows, _step, _options.FillsGapHours, _repairs, _notes);
        double[] global = columns.Needed(WeatherField.Global)!, air = columns.Needed(WeatherField.Air)!;
        double[]? direct = columns.Needed(WeatherField.DirectNormal), diffuse = columns.Needed(WeatherField.Diffuse);
        if (_problems.Count > before) return null;
        if (_table.ClippedCount > 0)
            _repairs.Add(string.Create(CultureInfo.InvariantCulture, $"{_table.ClippedCount:N0} irradiances between {_table.LeastWPerM2:0.##} and 0 W/m² were taken as 0 (an instrument's offset at night)."));
        if (_table.IsFahrenheit) _repairs.Add("Air temperature was turned from °F into °C.");
        WeatherSeries weather = SeriesOf(columns, global, direct, diffuse, air);
        if (weather.IsSplitEstimated) Split(weather, direct is not null, diffuse is not null);
        if (ClockCheck.WarningOf(weather) is string warning) _notes.Add(warning);
        return new WeatherReading { File = _table.File, Rows = _table.Stamps.Count, Repairs = _repairs, Notes = _notes, Weather = weather };
    }

    private WeatherSeries SeriesOf(WeatherValues columns, double[] global, double[]? direct, double[]? diffuse, double[] air) => new()
    {
        Source = _table.Source,
        Place = _table.Place,
        // Half of an odd number of minutes ends on a half minute.
        Start = Instant.FromUnixTimeSeconds(((_starts[0] - _table.OffsetMinutes) * 60) - (_table.Mark == WeatherMark.Middle ? _step % 2 * 30 : 0)),
        Step = Duration.FromMinutes(_step),
        StandardOffset = Offset.FromSeconds(60 * _table.OffsetMinutes),
        IsTypicalYear = _isTypical,
        IsSplitEstimated = direct is null || diffuse is null,
        GlobalWPerM2 = global,
        DirectNormalWPerM2 = direct ?? new double[global.Length],
        DiffuseWPerM2 = diffuse ?? new double[global.Length],
        AirCelsius = air,
        WindMPerS = columns.Optional(WeatherField.Wind),
        AlbedoFraction = columns.Optional(WeatherField.Albedo),
        SnowCm = columns.Optional(WeatherField.Snow),
    };

    private void Split(WeatherSeries weather, bool hasDirect, bool hasDiffuse)
    {
        var track = new SunTrack(weather.Place, weather.Start, weather.Step, weather.Count);
        if (hasDirect) DiffuseSplit.DiffuseFromDirect(track, weather.GlobalWPerM2, weather.DirectNormalWPerM2, weather.DiffuseWPerM2);
        else if (hasDiffuse) DiffuseSplit.DirectFromDiffuse(track, weather.GlobalWPerM2, weather.DiffuseWPerM2, weather.DirectNormalWPerM2);
        else DiffuseSplit.Split(track, weather.GlobalWPerM2, weather.DirectNormalWPerM2, weather.DiffuseWPerM2);
        _notes.Add(hasDirect ? "Diffuse irradiance is the global less the direct."
            : hasDiffuse ? "Direct irradiance is worked out from global less diffuse."
            : "The file has global irradiance alone: direct and diffuse are estimated from it.");
    }

    // A month that is followed by the next month of another year.
    private bool IsStitched()
    {
        for (int i = 1; i < _starts.Count; i++)
        {
            if (_starts[i] == _starts[i - 1] + _step) continue;
            LocalDate last = DateOf(_starts[i - 1]), next = DateOf(_starts[i]);
            if (next.Month == last.Month + 1 && next.Year != last.Year) return true;
        }
        return false;
    }

    private void LayOnOneYear(bool isStitched)
    {
        var sources = new List<string>();
        (int Year, int Month) month = default;
        long shift = 0;
        int leapRows = 0, kept = 0;
        for (int i = 0; i < _starts.Count; i++)
        {
            LocalDate date = DateOf(_starts[i]);
            if (month != (date.Year, date.Month))
            {
                month = (date.Year, date.Month);
                shift = Minutes(new LocalDate(WeatherFile.TypicalYearOn, date.Month, 1)) - Minutes(new LocalDate(date.Year, date.Month, 1));
                sources.Add(date.ToString("MMMM uuuu", CultureInfo.InvariantCulture));
            }
            if (date is { Month: 2, Day: 29 })
            {
                leapRows++;
                continue;
            }
            (_starts[kept], _rows[kept]) = (_starts[i] + shift, i);
            kept++;
        }
        _starts.RemoveRange(kept, _starts.Count - kept);
        _rows.RemoveRange(kept, _rows.Count - kept);
        _notes.Add(string.Create(CultureInfo.InvariantCulture, $"A typical year{(isStitched ? $" ({string.Join(", ", sources)})" : "")}, laid on {WeatherFile.TypicalYearOn}."));
        if (leapRows > 0) _repairs.Add(string.Create(CultureInfo.InvariantCulture, $"29 February was left out of the typical year, {leapRows:N0} rows."));
    }

    private void CheckOrder()
    {
        for (int i = 1; i < _starts.Count; i++)
        {
            long expected = _starts[i - 1] + _step, start = _starts[i];
            if (start == expected || FillLeapDay(ref i, expected, start)) continue;
            string rule = start == _starts[i - 1] ? "stands twice; each interval has one row"
                : start < expected ? $"comes after {Stamp(i - 1)}; rows go forward in time"
                : (start - expected) % _step != 0 ? string.Create(CultureInfo.InvariantCulture, $"is not a whole number of {_step}-minute intervals after the row before")
                : Gap(expected, start);
            _table.Report(_table.Lines[_rows[i]], _table.StampField, Stamp(i), rule);
        }
    }

    private string Gap(long expected, long start)
    {
        long missing = (start - expected) / _step;
        string hint = IsLeapDay(expected, start) ? "; files of 8,760 rows leave 29 February out: if 28 February may stand for it, say so (leap day: repeat)"
            : missing * _step == 60 ? "; weather is in standard time, whose clock never skips an hour" : "";
        return string.Create(CultureInfo.InvariantCulture, $"comes after a gap; {missing:N0} {(missing == 1 ? "row is" : "rows are")} missing{hint}");
    }

    private bool FillLeapDay(ref int index, long expected, long start)
    {
        int rows = DayMinutes / _step;
        if (!_options.RepeatsForLeapDay || !IsLeapDay(expected, start) || index < rows) return false;
        for (int r = 0; r < rows; r++)
        {
            _starts.Insert(index + r, expected + ((long)r * _step));
            _rows.Insert(index + r, _rows[index + r - rows]);
        }
        _repairs.Add(string.Create(CultureInfo.InvariantCulture, $"28 February {DateOf(expected).Year} stands for the 29th too, which the file leaves out."));
        index += rows;
        return true;
    }

    // Exactly 29 February is missing.
    private bool IsLeapDay(long expected, long start) =>
        start - expected == DayMinutes && DateOf(expected + (_step / 2)) is { Month: 2, Day: 29 };

    private string Stamp(int index) => WallClock.Text(_table.Stamps[_rows[index]]);

    // The date that the middle of an interval is in: one centred on midnight belongs to the day that begins.
    private LocalDate DateOf(long start) => Time.TimeAxis.DateOfDay((int)Math.Floor((start + (_step / 2.0)) / DayMinutes));

    private static long Minutes(LocalDate date) => (long)DayMinutes * Time.TimeAxis.DayOfDate(date);
}
