using EnergySim.Profiles;
using NodaTime;

namespace EnergySim.Solar;

/// <summary>
/// Puts a cloudy spell into a home's solar, on dates of its own year. What comes out is a whole profile on the same axis; an outage that starts on the spell's
/// first date sees it. Days are days of standard time; past the axis's end they go on at its start.
/// </summary>
public sealed class SpellSolar
{
    private const int NearDays = 15;
    private const double ClearFraction = 0.95;
    private readonly CloudySpell _spell;
    private readonly DailyClearness _sky;

    /// <param name="spell">The spell.</param>
    /// <param name="sky">The days that it was made from.</param>
    public SpellSolar(CloudySpell spell, DailyClearness sky)
    {
        ArgumentNullException.ThrowIfNull(spell);
        ArgumentNullException.ThrowIfNull(sky);
        (_spell, _sky) = (spell, sky);
    }

    /// <summary>
    /// For solar that was worked out from the spell's weather or recorded in those days: the power of the spell's days, each scaled by the sun above the
    /// air of the new date against that of the old.
    /// </summary>
    /// <param name="solar">The home's solar.</param>
    /// <param name="on">Date of the spell's first day.</param>
    /// <exception cref="ArgumentException">The profile does not hold one of the days, by date or by month and day.</exception>
    public Profile FromItsDays(Profile solar, LocalDate on)
    {
        ArgumentNullException.ThrowIfNull(solar);
        double[] kw = solar.Kw.ToArray();
        for (int d = 0; d < _spell.Days.Count; d++)
        {
            LocalDate old = DateIn(solar, _spell.Days[d].Date);
            int from = IndexOf(solar, old), to = IndexOf(solar, on.PlusDays(d));
            double scale = AboveAir(on.PlusDays(d)) / AboveAir(old);
            for (int i = 0; i < PerDay(solar); i++) kw[Wrapped(solar, to + i)] = solar.Kw[Wrapped(solar, from + i)] * scale;
        }
        return new Profile(solar.Axis, kw);
    }

    /// <summary>
    /// For measured solar without weather of its own: a clear day of the season (each interval's most within 15 days of the date) times the spell's
    /// clearness over that of a clear day (the 95 % quantile of the season). An approximation: a tilted roof loses a little less or more than the flat.
    /// </summary>
    /// <param name="solar">The home's solar, a year or so.</param>
    /// <param name="on">Date of the spell's first day.</param>
    public Profile FromClearDays(Profile solar, LocalDate on)
    {
        ArgumentNullException.ThrowIfNull(solar);
        double[] kw = solar.Kw.ToArray();
        IReadOnlyList<double> factors = ClearDayFactors(on);
        int perDay = PerDay(solar);
        for (int d = 0; d < _spell.Days.Count; d++)
        {
            int to = IndexOf(solar, on.PlusDays(d));
            for (int i = 0; i < perDay; i++)
            {
                double most = 0;
                for (int near = -NearDays; near <= NearDays; near++) most = Math.Max(most, solar.Kw[Wrapped(solar, to + i + (near * perDay))]);
                kw[Wrapped(solar, to + i)] = most * factors[d];
            }
        }
        return new Profile(solar.Axis, kw);
    }

    /// <summary>What each day of the spell gives as a share of a clear day of its season, 0–1.</summary>
    /// <param name="on">Date of the spell's first day.</param>
    public IReadOnlyList<double> ClearDayFactors(LocalDate on)
    {
        var factors = new double[_spell.Days.Count];
        for (int d = 0; d < factors.Length; d++)
        {
            int day = DayOfYear.Of(on.PlusDays(d));
            double[] sorted = [.. _sky.Days.Where(s => s.Clearness is not null && DayOfYear.Between(DayOfYear.Of(s.Date), day) <= NearDays).Select(s => s.Clearness!.Value).Order()];
            if (sorted.Length == 0) throw new ArgumentException(FormattableString.Invariant($"The weather has no day within {NearDays} days of {on.PlusDays(d):uuuu-MM-dd}."), nameof(on));
            factors[d] = Math.Min(1, _spell.Days[d].Clearness!.Value / Quantile.Of(sorted, ClearFraction));
        }
        return factors;
    }

    /// <summary>
    /// For a roof whose planes are known, the most exact: weather of the spell on the new dates, each interval with its recorded clearness. A roof under it gives
    /// the spell's power.
    /// </summary>
    /// <param name="on">Date of the first day.</param>
    public WeatherSeries Weather(LocalDate on)
    {
        var layer = new DayLayer(_sky);
        WeatherSeries weather = layer.Empty(on, _spell.Days.Count, _spell.Name);
        var track = new SunTrack(weather.Place, weather.Start, weather.Step, weather.Count);
        for (int d = 0; d < _spell.Days.Count; d++) layer.Lay(_spell.Days[d], _spell.Days[d].Clearness!.Value, weather, d * layer.PerDay, track);
        return weather;
    }

    private Instant MidnightOf(LocalDate date) => date.AtMidnight().WithOffset(_sky.Sources[0].StandardOffset).ToInstant();

    private double AboveAir(LocalDate date) => new SunTrack(_sky.Sources[0].Place, MidnightOf(date), Duration.FromDays(1), 1).ExtraterrestrialHorizontalWPerM2(0);

    private LocalDate DateIn(Profile solar, LocalDate date)
    {
        if (Holds(solar, date)) return date;
        for (int year = solar.Axis.LocalDateOf(0).Year; year <= solar.Axis.LocalDateOf(solar.Axis.Count - 1).Year; year++)
        {
            LocalDate other = date.PlusYears(year - date.Year);
            if (Holds(solar, other)) return other;
        }
        throw new ArgumentException(FormattableString.Invariant($"The solar profile does not hold {date:d MMMM}, a day of the spell."), nameof(solar));
    }

    // A day may be cut by an hour at the ends of the axis, where the clock differs from standard time.
    private bool Holds(Profile solar, LocalDate date)
    {
        Instant noon = MidnightOf(date) + Duration.FromHours(12);
        return noon >= solar.Axis.Start && noon < solar.Axis.End;
    }

    private int IndexOf(Profile solar, LocalDate date) => (int)Math.Floor((MidnightOf(date) - solar.Axis.Start).TotalMinutes / solar.Axis.StepMinutes);

    private static int PerDay(Profile solar) => 1440 / solar.Axis.StepMinutes;

    private static int Wrapped(Profile solar, int index) => ((index % solar.Axis.Count) + solar.Axis.Count) % solar.Axis.Count;
}
