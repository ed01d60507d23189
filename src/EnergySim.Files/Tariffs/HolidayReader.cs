using EnergySim.Time;
using NodaTime;

namespace EnergySim.Files;

/// <summary>Reads holiday rules: <c>every: 07-04</c> with a <c>move</c>, <c>every: last monday of may</c>, <c>date: 2025-12-26</c>.</summary>
internal static class HolidayReader
{
    private static readonly string[] s_ordinals = ["first", "second", "third", "fourth", "fifth"];
    private static readonly string[] s_months =
        ["january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"];

    public static HolidayRule? Read(YamlMap map)
    {
        if (!map.OneOf("every", "date")) return null;
        HolidayMove? move = map.Text("move")?.Choice(("none", HolidayMove.None), ("nearest", HolidayMove.Nearest), ("monday", HolidayMove.Monday));
        HolidayRule? rule = map.Text("date")?.Date() is LocalDate date ? new HolidayRule.OnDate(date) : null;
        if (map.Text("every") is YamlText every)
        {
            if (MonthDay.TryParse(every.Value, out MonthDay day)) return new HolidayRule.Fixed(day, move ?? HolidayMove.None);
            rule = Nth(every.Value.ToLowerInvariant().Split(' ', StringSplitOptions.RemoveEmptyEntries));
            if (rule is null) every.Report("is no holiday; write MM-DD, or such as last monday of may");
        }
        if (map.Has("move") && rule is not null) map.ReportWhole("move", "only a holiday of a fixed month and day moves");
        return rule;
    }

    private static HolidayRule.Nth? Nth(string[] words)
    {
        if (words is not [var ordinal, var weekday, "of", var month]) return null;
        int number = ordinal == "last" ? -1 : Array.IndexOf(s_ordinals, ordinal) + 1;
        int monthNumber = Array.IndexOf(s_months, month) + 1;
        bool isDay = Enum.TryParse(weekday, ignoreCase: true, out IsoDayOfWeek day) && day != IsoDayOfWeek.None && char.IsAsciiLetter(weekday[0]);
        return number != 0 && monthNumber > 0 && isDay ? new HolidayRule.Nth(monthNumber, number, day) : null;
    }
}
