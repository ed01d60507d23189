using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Plans;

/// <summary>
/// The periods of one version of a plan through the year, by kind of day: a row a month (two where a season ends within it), a cell a
/// half-hour of the local clock.
/// </summary>
public sealed record PlanPicture
{
    /// <summary>Cells in a row.</summary>
    public const int CellsPerRow = 48;

    /// <summary>The kind of day.</summary>
    public required DayType Day { get; init; }

    /// <summary>The rows, January first.</summary>
    public required IReadOnlyList<PlanPictureRow> Rows { get; init; }

    /// <summary>A picture for each kind of day that the version tells apart: weekday, weekend, and holidays or event days where periods name them.</summary>
    /// <param name="version">The version; it must cover every minute.</param>
    public static IReadOnlyList<PlanPicture> Of(TariffVersion version)
    {
        ArgumentNullException.ThrowIfNull(version);
        var rules = new DayRules(version, 2024, 2024);
        var days = new List<DayType> { DayType.Weekday, DayType.Weekend };
        if (rules.NamesHolidays) days.Add(DayType.Holiday);
        if (rules.NamesEvents) days.Add(DayType.Event);
        return [.. days.Select(day => new PlanPicture { Day = day, Rows = RowsOf(rules, day) })];
    }

    // A leap year holds every day there is.
    private static List<PlanPictureRow> RowsOf(DayRules rules, DayType day)
    {
        var rows = new List<PlanPictureRow>();
        for (var date = new LocalDate(2024, 1, 1); date.Year == 2024; date = date.PlusDays(1))
        {
            string season = rules.SeasonOf(date);
            if (rows.Count > 0 && rows[^1].Month == date.Month && rows[^1].Season == season) rows[^1] = rows[^1] with { ToDay = date.Day };
            else rows.Add(new PlanPictureRow(date.Month, date.Day, date.Day, season, Cells(rules.PeriodsOf(season, day))));
        }
        return rows;
    }

    private static string?[] Cells(IReadOnlyList<string?> minutes)
    {
        const int MinutesPerCell = 1440 / CellsPerRow;
        var cells = new string?[CellsPerRow];
        for (int c = 0; c < CellsPerRow; c++)
        {
            string?[] inside = [.. minutes.Skip(c * MinutesPerCell).Take(MinutesPerCell).Distinct()];
            cells[c] = inside.Length == 1 ? inside[0] : null;
        }
        return cells;
    }
}

/// <summary>A row of the picture: some days of one month, in one season.</summary>
/// <param name="Month">Month, 1–12.</param>
/// <param name="FromDay">First day of the month.</param>
/// <param name="ToDay">Last day of the month.</param>
/// <param name="Season">The season.</param>
/// <param name="Periods">For each half-hour of the clock the period; null where it changes within.</param>
public sealed record PlanPictureRow(int Month, int FromDay, int ToDay, string Season, IReadOnlyList<string?> Periods);
