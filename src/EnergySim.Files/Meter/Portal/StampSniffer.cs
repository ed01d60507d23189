namespace EnergySim.Files;

/// <summary>Finds the columns that tell the time.</summary>
internal static class StampSniffer
{
    /// <summary>Where the stamps are; null where there are none.</summary>
    public static StampLayout? Of(PortalTable table)
    {
        if (table.HasCountedStamps) return Counted(table);
        ColumnProfile[] moments = Wanted(table.Columns.Where(c => c.IsMoment));
        ColumnProfile[] dates = Wanted(table.Columns.Where(c => c.IsDate));
        ColumnProfile[] times = Wanted(table.Columns.Where(c => c.IsTime));
        if (dates.Length > 0 && WideHeader.Of(table, dates[0].Index) is StampLayout wide) return wide;
        if (moments.Length > 0 && dates.Length == 0) return Moments(table, moments);
        if (dates.Length > 0 && times.Length > 0) return DatesAndTimes(table, dates, times);
        if (moments.Length > 0) return Moments(table, moments);
        if (dates.Length == 0) return null;
        if (Ordinal(table, dates[0]) is StampLayout ordinal) return ordinal;
        return WithTwo(new StampLayout { Kind = StampKind.DateOnly, Date = dates[0].Index, StepMinutes = 1440, Mark = StampMark.Start, MarkGround = "a row a day" }, dates);
    }

    private static StampLayout WithTwo(StampLayout layout, ColumnProfile[] dates) =>
        dates.Length > 1 && HeaderWords.IsEnd(dates[1].Header) ? layout with { EndDate = dates[1].Index } : layout;

    // Stamps of clerks (revised, billed) do not count where there are others.
    private static ColumnProfile[] Wanted(IEnumerable<ColumnProfile> columns)
    {
        ColumnProfile[] all = [.. columns];
        ColumnProfile[] plain = [.. all.Where(c => !HeaderWords.IsClerical(c.Header))];
        return plain.Length > 0 ? plain : all;
    }

    private static StampLayout Counted(PortalTable table)
    {
        ColumnProfile[] counted = [.. table.Columns.Where(c => c.IsNumber && CountedStamp.Is(table.Grid.Cell(table.FirstRow, c.Index)))];
        ColumnProfile date = counted.FirstOrDefault(c => HeaderWords.IsTime(c.Header)) ?? counted[0];
        return Marked(new StampLayout { Kind = StampKind.Counted, Date = date.Index }, date.Header);
    }

    private static StampLayout Moments(PortalTable table, ColumnProfile[] moments)
    {
        // A file that gives the same moment in local time and in UTC: the second is the surer.
        if (Array.Find(moments, m => HeaderWords.IsUtc(m.Header)) is ColumnProfile utc && moments.Any(m => !HeaderWords.IsUtc(m.Header)))
            moments = [.. moments.Where(m => HeaderWords.IsUtc(m.Header))];
        ColumnProfile? start = Array.Find(moments, m => HeaderWords.IsStart(m.Header)), end = Array.Find(moments, m => HeaderWords.IsEnd(m.Header) && !HeaderWords.IsStart(m.Header));
        if (start is null && end is null && moments.Length >= 2) (start, end) = ByOrder(table, moments[0], moments[1]);
        ColumnProfile stamp = start ?? end ?? moments[0];
        var layout = new StampLayout { Kind = StampKind.Moment, Date = stamp.Index, EndDate = start is not null && end is not null ? end.Index : -1 };
        return Marked(layout, start is not null ? stamp.Header : end is not null ? stamp.Header : moments[0].Header) is { Mark: not null } marked ? marked
            : start is not null ? layout with { Mark = StampMark.Start, MarkGround = "of two stamps a row it is the earlier" }
            : IsRange(table, stamp.Index) ? layout with { Mark = StampMark.Start, MarkGround = "each stamp is a range, its first part the start" } : layout;
    }

    private static (ColumnProfile? Start, ColumnProfile? End) ByOrder(PortalTable table, ColumnProfile a, ColumnProfile b)
    {
        if (!StampText.TryRead(table.Grid.Cell(table.FirstRow, a.Index), out StampParts first) || !StampText.TryRead(table.Grid.Cell(table.FirstRow, b.Index), out StampParts second)) return (null, null);
        long? one = first.Minute(false, 2000) - (first.OffsetMinutes ?? 0), two = second.Minute(false, 2000) - (second.OffsetMinutes ?? 0);
        return one == two ? (null, null) : one < two ? (a, b) : (b, a);
    }

    private static StampLayout DatesAndTimes(PortalTable table, ColumnProfile[] dates, ColumnProfile[] times)
    {
        ColumnProfile? start = Array.Find(times, m => HeaderWords.IsStart(m.Header)), end = Array.Find(times, m => HeaderWords.IsEnd(m.Header) && !HeaderWords.IsStart(m.Header));
        if (start is null && end is null && times.Length >= 2) (start, end) = (times[0], times[1]);
        bool hasStart = start is not null || end is null;
        ColumnProfile time = start ?? end ?? times[0];
        ColumnProfile date = hasStart || dates.Length == 1 ? dates[0] : Array.Find(dates, d => HeaderWords.IsEnd(d.Header)) ?? dates[0];
        var layout = new StampLayout
        {
            Kind = StampKind.DateAndTime,
            Date = date.Index,
            Time = time.Index,
            EndDate = start is not null && end is not null && dates.Length > 1 && HeaderWords.IsEnd(dates[1].Header) ? dates[1].Index : -1,
            EndTime = start is not null && end is not null ? end.Index : -1,
        };
        if (Marked(layout, time.Header) is { Mark: not null } marked) return marked;
        if (start is not null && end is not null) return layout with { Mark = StampMark.Start, MarkGround = "of two times a row it is the first" };
        return IsRange(table, time.Index) ? layout with { Mark = StampMark.Start, MarkGround = "each time is a range, its first part the start" } : layout;
    }

    private static StampLayout? Ordinal(PortalTable table, ColumnProfile date)
    {
        foreach (ColumnProfile column in table.Columns)
        {
            if (column.Index == date.Index || !column.IsWhole || !HeaderWords.IsOrdinal(column.Header) || column.Least < 0) continue;
            // 0000, 0015, …: hours and minutes without a colon.
            bool isClock = column.Distinct?.All(t => t.Length == 4) == true;
            if (column.Most <= 2400 && (isClock || column.Most > 300))
                return Marked(new StampLayout { Kind = StampKind.DateAndTime, Date = date.Index, Time = column.Index }, column.Header);
            if (column.Most > 300 || column.Least > 1) continue;
            int count = (int)column.Most + 1 - (int)column.Least;
            int step = count <= 25 ? 60 : count <= 50 ? 30 : count <= 100 ? 15 : 5;
            return new StampLayout
            {
                Kind = StampKind.DateAndOrdinal,
                Date = date.Index,
                Time = column.Index,
                StepMinutes = step,
                FirstOrdinal = (int)column.Least,
                Mark = StampMark.Start,
                MarkGround = column.Least == 0 ? "the intervals of a day are counted from 0" : "the intervals of a day are counted from 1, which begins at midnight",
                IsCounted = true,
            };
        }
        return null;
    }

    private static StampLayout Marked(StampLayout layout, string header) =>
        HeaderWords.IsEnd(header) && !HeaderWords.IsStart(header) ? layout with { Mark = StampMark.End, MarkGround = $"the header \"{SafeText.Of(header)}\"" }
        : HeaderWords.IsStart(header) ? layout with { Mark = StampMark.Start, MarkGround = $"the header \"{SafeText.Of(header)}\"" }
        : layout;

    private static bool IsRange(PortalTable table, int column) =>
        StampText.TryRead(table.Grid.Cell(table.FirstRow, column), out StampParts parts) && parts.IsRange;
}
