using EnergySim.Economics;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Lifetime;

/// <summary>A plan as one of the years to come sees it, dated back onto the days of the data.</summary>
/// <param name="Tariff">The plan with the versions in force in that year, before growth.</param>
/// <param name="Key">Which versions they are, and where a change falls: years alike share a layout.</param>
/// <param name="EnergyGrowthYears">Years of growth on everything but exports.</param>
/// <param name="ExportGrowthYears">Years of growth on what exports earn.</param>
internal sealed record YearPlan(Tariff Tariff, string Key, int EnergyGrowthYears, int ExportGrowthYears);

/// <summary>
/// Which prices hold in each year: the plan's versions by date, what exports earn by the changes laid over them. Growth begins the year after
/// the last known version (or, for exports, after the change in force) came in; prices that are known do not grow.
/// </summary>
internal sealed class PlanByYear
{
    private readonly Tariff _plan;
    private readonly IReadOnlyList<ExportChange> _changes;
    private readonly List<(TariffVersion Version, int Change)> _dated = [];
    private readonly LocalDate _from, _to;
    private readonly int _firstYear;

    /// <param name="plan">The plan.</param>
    /// <param name="changes">What exports earn from stated dates on, rising.</param>
    /// <param name="axis">The data's intervals: one year.</param>
    /// <param name="firstYear">Calendar year in which the first year begins.</param>
    public PlanByYear(Tariff plan, IReadOnlyList<ExportChange> changes, TimeAxis axis, int firstYear)
    {
        (_plan, _changes, _firstYear) = (plan, changes, firstYear);
        (_from, _to) = (axis.LocalDateOf(0), axis.LocalDateOf(axis.Count - 1));
        foreach (LocalDate date in plan.Versions.Select(v => v.Effective).Concat(changes.Select(c => c.From)).Distinct().Order())
        {
            TariffVersion standing = plan.Versions.LastOrDefault(v => v.Effective <= date) ?? plan.Versions[0];
            int change = LastOf(changes, date);
            // The first version also holds before its date, and then so does what stands before a change.
            if (_dated.Count == 0 && change >= 0) _dated.Add((standing with { Effective = LocalDate.MinIsoValue }, -1));
            _dated.Add((standing with { Effective = date, Export = change >= 0 ? changes[change].Terms : standing.Export }, change));
        }
    }

    /// <summary>First day of a year, counted from 1.</summary>
    public LocalDate FirstDayOf(int year) => _from.PlusYears(ShiftOf(year));

    /// <summary>Years between the data and a year.</summary>
    public int ShiftOf(int year) => _firstYear - _from.Year + year - 1;

    /// <summary>The plan of a year, counted from 1.</summary>
    public YearPlan Of(int year)
    {
        int shift = ShiftOf(year);
        LocalDate from = _from.PlusYears(shift), to = _to.PlusYears(shift);
        int first = Math.Max(0, _dated.FindLastIndex(d => d.Version.Effective <= from)), last = Math.Max(first, _dated.FindLastIndex(d => d.Version.Effective <= to));
        var versions = new List<TariffVersion>();
        var key = new List<string>();
        for (int i = first; i <= last; i++)
        {
            // What was in force on the first day holds from the data's beginning.
            LocalDate effective = i == first ? _from : _dated[i].Version.Effective.PlusYears(-shift);
            versions.Add(_dated[i].Version with { Effective = effective });
            key.Add($"{i}@{effective:uuuu-MM-dd}");
        }
        int known = FirstYearSince(_plan.Versions[^1].Effective);
        int exportKnown = _dated[last].Change >= 0 ? FirstYearSince(_changes[_dated[last].Change].From) : known;
        return new YearPlan(_plan with { Versions = versions }, string.Join(' ', key), Math.Max(0, year - known), Math.Max(0, year - exportKnown));
    }

    private int FirstYearSince(LocalDate effective)
    {
        int year = 1;
        while (effective > _to.PlusYears(ShiftOf(year))) year++;
        return year;
    }

    private static int LastOf(IReadOnlyList<ExportChange> changes, LocalDate date)
    {
        int last = -1;
        for (int i = 0; i < changes.Count; i++)
            if (changes[i].From <= date) last = i;
        return last;
    }
}
