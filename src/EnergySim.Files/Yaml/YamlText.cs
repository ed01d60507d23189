using System.Globalization;
using EnergySim.Time;
using NodaTime;
using NodaTime.Text;
using YamlDotNet.Core;

namespace EnergySim.Files;

/// <summary>One value of a YAML file and where it stands. Each reading of it reports what does not fit and then gives null.</summary>
internal sealed record YamlText(YamlMap Map, string Path, Mark At, string Value)
{
    public void Report(string rule) => Map.ReportAt(At, Path, Value, rule);

    public double? Number(Bounds bounds)
    {
        if (double.TryParse(Value, NumberStyles.Float, CultureInfo.InvariantCulture, out double number)) return Checked(number, bounds, false);
        Report("is not a number");
        return null;
    }

    /// <summary>A share, as a number or in per cent ("20 %").</summary>
    public double? Share(Bounds bounds)
    {
        if (Fraction(out bool inPerCent) is decimal share) return Checked((double)share, bounds, inPerCent);
        Report("is no share; write 0.2 or \"20 %\"");
        return null;
    }

    /// <summary>A rate of any sign, as a number or in per cent.</summary>
    public decimal? Rate()
    {
        if (Fraction(out _) is decimal rate) return rate;
        Report("is no rate; write 0.05 or \"5 %\"");
        return null;
    }

    public decimal? Money(bool negative = true)
    {
        if (!decimal.TryParse(Value, NumberStyles.Float, CultureInfo.InvariantCulture, out decimal money)) Report("is not an amount of money");
        else if (money < 0 && !negative) Report("is below 0");
        else return money;
        return null;
    }

    public int? Whole(int least, int most = int.MaxValue)
    {
        if (!int.TryParse(Value, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int number)) Report("is not a whole number");
        else if (number < least) Report(string.Create(CultureInfo.InvariantCulture, $"is below {least}"));
        else if (number > most) Report(string.Create(CultureInfo.InvariantCulture, $"is above {most}"));
        else return number;
        return null;
    }

    /// <summary>One of the lengths that an interval may have.</summary>
    public int? StepMinutes()
    {
        if (int.TryParse(Value, NumberStyles.None, CultureInfo.InvariantCulture, out int minutes) && TimeAxis.AllowedStepMinutes.Contains(minutes)) return minutes;
        Report("is no length of an interval; they are 1, 5, 15, 30 or 60 minutes long");
        return null;
    }

    public bool? Flag()
    {
        if (Value is "true" or "false") return Value == "true";
        Report("is neither true nor false");
        return null;
    }

    public T? Choice<T>(params ReadOnlySpan<(string Word, T Meaning)> choices) where T : struct
    {
        foreach ((string word, T meaning) in choices)
            if (word == Value) return meaning;
        var words = new List<string>();
        foreach ((string word, T _) in choices) words.Add(word);
        Report(words.Count > 1 ? $"is not one of {string.Join(", ", words)}" : $"is not {words[0]}");
        return null;
    }

    /// <summary>A name that must be known.</summary>
    public string? Name(string kind, IReadOnlyCollection<string> known)
    {
        if (known.Contains(Value)) return Value;
        string hint = Nearest.Hint(Value, known);
        Report($"is no {kind}{(hint.Length > 0 || known.Count == 0 ? hint : $"; there are {string.Join(", ", known)}")}");
        return null;
    }

    public LocalDate? Date()
    {
        if (LocalDatePattern.Iso.Parse(Value) is { Success: true, Value: LocalDate date }) return date;
        Report("is no date; write 2025-01-31");
        return null;
    }

    public MonthDay? MonthDay()
    {
        if (Time.MonthDay.TryParse(Value, out MonthDay day)) return day;
        Report("is no day of the year; write MM-DD");
        return null;
    }

    /// <summary>A time of the day as a minute, 24:00 included.</summary>
    public int? Minute()
    {
        if (ClockWindow.TryParseMinute(Value, out int minute)) return minute;
        Report("is no time of the day; write HH:MM");
        return null;
    }

    public DateTimeZone? Zone()
    {
        if (DateTimeZoneProviders.Tzdb.GetZoneOrNull(Value) is DateTimeZone zone) return zone;
        Report("is no time zone of the IANA list, such as America/New_York");
        return null;
    }

    /// <summary>A window written <c>HH:MM-HH:MM</c>.</summary>
    public ClockWindow? Window()
    {
        string[] ends = Value.Split('-');
        if (ends.Length == 2 && ClockWindow.TryParseMinute(ends[0].Trim(), out int from) && ClockWindow.TryParseMinute(ends[1].Trim(), out int to) && from != 1440 && from != to)
            return new ClockWindow(from, to);
        Report("is no window of the day; write 16:00-21:00");
        return null;
    }

    private double? Checked(double number, Bounds bounds, bool inPerCent)
    {
        if (bounds.FaultOf(number, inPerCent) is not string fault) return number;
        Report(fault);
        return null;
    }

    private decimal? Fraction(out bool inPerCent)
    {
        inPerCent = Value.EndsWith('%');
        ReadOnlySpan<char> digits = inPerCent ? Value.AsSpan()[..^1].TrimEnd() : Value;
        return decimal.TryParse(digits, NumberStyles.Float, CultureInfo.InvariantCulture, out decimal number) ? (inPerCent ? number / 100 : number) : null;
    }
}
