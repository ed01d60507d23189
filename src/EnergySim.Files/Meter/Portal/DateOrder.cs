using NodaTime;

namespace EnergySim.Files;

/// <summary>Whether dates are written day first; null = both are possible.</summary>
internal readonly record struct DateOrder(bool? IsDayFirst, string Ground)
{
    private static readonly HashSet<string> s_monthFirst = new(StringComparer.Ordinal)
    {
        "America/New_York", "America/Detroit", "America/Chicago", "America/Denver", "America/Boise", "America/Phoenix", "America/Los_Angeles",
        "America/Anchorage", "America/Juneau", "America/Sitka", "America/Nome", "America/Adak", "America/Menominee", "Pacific/Honolulu", "Pacific/Guam",
    };

    /// <summary>What the digits of all dates allow.</summary>
    public static DateOrder Of(PortalTable table, StampLayout stamps, MeterOptions options)
    {
        if (options.DayFirst is bool stated) return new DateOrder(stated, "as said");
        if (stamps.Kind == StampKind.Counted) return new DateOrder(false, "");
        bool open = false, dayFirst = true, monthFirst = true;
        for (int row = table.FirstRow; row < table.Grid.Rows; row++)
        {
            if (!StampText.TryRead(table.Grid.Cell(row, stamps.Date), out StampParts parts) || !parts.IsOrderOpen) continue;
            open = true;
            if (parts.First > 12) monthFirst = false;
            if (parts.Second > 12) dayFirst = false;
            if (!dayFirst || !monthFirst) break;
        }
        if (!open) return new DateOrder(false, "");
        if (dayFirst == monthFirst) return new DateOrder(null, "");
        return new DateOrder(dayFirst, "one of the two numbers is above 12");
    }

    /// <summary>True where dates are written month first and hardly otherwise: the United States (common practice).</summary>
    public static bool IsMonthFirst(DateTimeZone? zone, MeterOptions options)
    {
        if (zone is null && options.Clock is ProfileClock.Fixed f) return f.Offset.Seconds / 3600 is <= -4 and >= -10;
        if (zone is null) return false;
        return s_monthFirst.Contains(zone.Id) || zone.Id.StartsWith("America/Indiana/", StringComparison.Ordinal) || zone.Id.StartsWith("America/Kentucky/", StringComparison.Ordinal)
            || zone.Id.StartsWith("America/North_Dakota/", StringComparison.Ordinal) || zone.Id.StartsWith("US/", StringComparison.Ordinal)
            || zone.Id.StartsWith("UTC-0", StringComparison.Ordinal) || zone.Id == "UTC-10";
    }
}
