using System.Globalization;
using EnergySim.Batches;
using EnergySim.Economics;
using EnergySim.Engine;
using EnergySim.Tariffs;

namespace EnergySim.Studies.Lifetime;

/// <summary>
/// Simulates each year again, as it is and with each offer: the data's days with that year's load, sun, prices in force and capacity. A year
/// begins with the energy that the one before ended with, cut to what the cells still hold. Courses and offers go side by side in lanes, year by
/// year; each comes out as it would alone.
/// </summary>
internal sealed class LifetimeRuns
{
    private readonly Home _home;
    private readonly PlanByYear _plans;
    private readonly CourseRuns[] _courses;
    private readonly Dictionary<double, YearLoad> _loads = [];
    private readonly Dictionary<(HomeSolar?, double), YearSun> _suns = [];
    private readonly Dictionary<string, Batch> _batches = [];
    private readonly Dictionary<(HomeSolar?, string), IReadOnlyList<Installation>> _laid = [];

    private LifetimeRuns(Home home, MoneyTerms terms, IReadOnlyList<LifetimeCourse> courses)
    {
        (_home, _plans) = (home, PlanOf(home, terms));
        foreach (LifetimeCourse course in courses)
        {
            // What courses have in common is worked out once.
            _loads.TryAdd(course.LoadFactor, new YearLoad(home, terms, _plans, course.LoadFactor));
            _suns.TryAdd((course.Solar, course.SolarFactor), new YearSun(course.Solar, terms, course.SolarFactor));
        }
        _courses = [.. courses.Select(c => new CourseRuns(home with { Solar = c.Solar }, terms, _loads[c.LoadFactor], _suns[(c.Solar, c.SolarFactor)]))];
    }

    /// <summary>Simulates all years as assumed.</summary>
    /// <param name="home">The home.</param>
    /// <param name="terms">What is assumed.</param>
    /// <inheritdoc cref="Of(Home, MoneyTerms, IReadOnlyList{LifetimeCourse})"/>
    public static LifetimeFlows Of(Home home, MoneyTerms terms) => Of(home, terms, [new LifetimeCourse(home.Solar)])[0];

    /// <summary>Simulates all years, once a course.</summary>
    /// <param name="home">The home; its solar is the courses'.</param>
    /// <param name="terms">What is assumed.</param>
    /// <param name="courses">The courses.</param>
    /// <exception cref="ArgumentException">The data are not of one year, or an offer cannot be run.</exception>
    public static IReadOnlyList<LifetimeFlows> Of(Home home, MoneyTerms terms, IReadOnlyList<LifetimeCourse> courses)
    {
        int days = home.Load.Axis.LocalDayOf(home.Load.Axis.Count - 1) - home.Load.Axis.LocalDayOf(0) + 1;
        if (days is not (365 or 366))
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The data span {days} days; years to come are simulated from a whole year of data."), nameof(home));
        if (terms.HorizonYears is < 1 or > 50) throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The horizon is {terms.HorizonYears} years; it lies between 1 and 50."), nameof(terms));
        var runs = new LifetimeRuns(home, terms, courses);
        for (int year = 1; year <= terms.HorizonYears; year++) runs.Simulate(year);
        return [.. runs._courses.Select(c => c.Flows())];
    }

    /// <summary>Which prices hold in which year.</summary>
    public static PlanByYear PlanOf(Home home, MoneyTerms terms) =>
        new(home.Tariff, terms.ExportChanges, home.Load.Axis, terms.FirstYear ?? home.Load.Axis.LocalDateOf(0).Year + 1);

    private void Simulate(int year)
    {
        YearPlan plan = _plans.Of(year);
        if (!_batches.TryGetValue(plan.Key, out Batch? batch))
            _batches.Add(plan.Key, batch = new Batch(_home.Load.Axis, [new TariffCalendar(plan.Tariff, _home.Load.Axis, _home.Account, _home.Load.Kw)], BatchKeeps.GivenEnergy, LaneWidth.Ahead));
        foreach (YearLoad load in _loads.Values) load.Move(year);
        foreach (YearSun sun in _suns.Values) sun.Move(year);
        Variant[] variants = [.. _courses.SelectMany(c => c.Begin(year, Laid(c.Solar, plan.Key, batch.Calendars[0])))];
        VariantSums[] sums = [.. variants.Select(_ => batch.NewSums())];
        batch.Run(variants, sums, Environment.ProcessorCount);
        int each = variants.Length / _courses.Length;
        for (int c = 0; c < _courses.Length; c++) _courses[c].End(year, plan, batch.Calendars[0], sums.AsSpan(c * each, each));
    }

    private IReadOnlyList<Installation> Laid(HomeSolar? solar, string planKey, TariffCalendar calendar)
    {
        if (_laid.TryGetValue((solar, planKey), out IReadOnlyList<Installation>? laid)) return laid;
        return _laid[(solar, planKey)] = Installation.Of(_home with { Solar = solar }, calendar);
    }
}
