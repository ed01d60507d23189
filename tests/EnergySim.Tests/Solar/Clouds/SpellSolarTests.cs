using EnergySim.Profiles;
using EnergySim.Solar;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Solar.Clouds;

public class SpellSolarTests
{
    private static readonly DateTimeZone s_denver = DateTimeZoneProviders.Tzdb["America/Denver"];

    // Clear but for three days in January.
    private static readonly DailyClearness s_sky = DailyClearness.Of(Skies.Of(new LocalDate(2025, 1, 1), Enumerable.Range(0, 365).Select(d => d is >= 10 and < 13 ? 0.07 * (d - 8) : 0.7).ToArray()));
    private static readonly CloudySpell s_spell = CloudySpell.Darkest(s_sky, 3);

    // A flat roof of 1 kW in the same weather, on the home's clock.
    private static Profile Roof(int stepMinutes, int year = 2025)
    {
        TimeAxis axis = TimeAxis.OfYear(s_denver, year, stepMinutes);
        var track = new SunTrack(Skies.Town, axis.Start, Duration.FromMinutes(stepMinutes), axis.Count);
        var kw = new double[axis.Count];
        for (int i = 0; i < kw.Length; i++) kw[i] = track.ExtraterrestrialHorizontalWPerM2(i) / 1000 * s_sky.Days[Math.Min(364, (int)((double)i * stepMinutes / 1440))].Clearness!.Value;
        return new Profile(axis, kw);
    }

    private static double DayKwh(Profile profile, LocalDate date)
    {
        int first = (int)((date.AtMidnight().WithOffset(Skies.Clock).ToInstant() - profile.Axis.Start).TotalMinutes / profile.Axis.StepMinutes), perDay = 1440 / profile.Axis.StepMinutes;
        double sum = 0;
        for (int i = first; i < first + perDay; i++) sum += profile.Kw[i % profile.Kw.Length] * profile.Axis.StepHours;
        return sum;
    }

    [Theory]
    [InlineData(15)]
    [InlineData(60)]
    public void FromItsDays_OnTheirOwnDates_ChangesNothing(int step)
    {
        Profile solar = Roof(step), laid = new SpellSolar(s_spell, s_sky).FromItsDays(solar, new LocalDate(2025, 1, 11));
        for (int i = 0; i < solar.Kw.Length; i++) Assert.Equal(solar.Kw[i], laid.Kw[i], 12);
    }

    // In June, by the daylight clock: the day's energy is its clearness times the sun above the air of the new date.
    [Theory]
    [InlineData(15, 2025)]
    [InlineData(60, 2028)]
    public void FromItsDays_InAnotherSeason_KeepsTheClearness(int step, int year)
    {
        Profile solar = Roof(step, year), laid = new SpellSolar(s_spell, s_sky).FromItsDays(solar, new LocalDate(year, 6, 20));
        for (int d = 0; d < 3; d++)
        {
            double clear = DayKwh(solar, new LocalDate(year, 6, 20 + d)) / 0.7;
            Assert.Equal(s_spell.Days[d].Clearness!.Value * clear, DayKwh(laid, new LocalDate(year, 6, 20 + d)), clear * 0.001);
        }
        Assert.Equal(DayKwh(solar, new LocalDate(year, 6, 19)), DayKwh(laid, new LocalDate(year, 6, 19)), 12);
        Assert.Equal(DayKwh(solar, new LocalDate(year, 6, 23)), DayKwh(laid, new LocalDate(year, 6, 23)), 12);
    }

    [Fact]
    public void FromItsDays_PastTheYearsEnd_GoesOnAtItsStart()
    {
        Profile solar = Roof(60), laid = new SpellSolar(s_spell, s_sky).FromItsDays(solar, new LocalDate(2025, 12, 30));
        Assert.True(DayKwh(laid, new LocalDate(2025, 12, 30)) < 0.3 * DayKwh(solar, new LocalDate(2025, 12, 30)));
        Assert.True(DayKwh(laid, new LocalDate(2025, 1, 1)) < 0.5 * DayKwh(solar, new LocalDate(2025, 1, 1)));
        Assert.Equal(DayKwh(solar, new LocalDate(2025, 1, 2)), DayKwh(laid, new LocalDate(2025, 1, 2)), 12);
    }

    // On a flat roof the approximation is exact but for the drift of the season over 15 days, under which the clearest of a month is taken.
    [Fact]
    public void FromClearDays_FlatRoof_IsNearTheSpellsClearness()
    {
        Profile solar = Roof(15), laid = new SpellSolar(s_spell, s_sky).FromClearDays(solar, new LocalDate(2025, 6, 20));
        for (int d = 0; d < 3; d++)
        {
            double wanted = s_spell.Days[d].Clearness!.Value / 0.7 * DayKwh(solar, new LocalDate(2025, 6, 20 + d));
            Assert.InRange(DayKwh(laid, new LocalDate(2025, 6, 20 + d)), wanted, wanted * 1.02);
        }
    }

    [Fact]
    public void ClearDayFactors_AreClearnessOverThatOfAClearDay() =>
        Assert.Equal([0.2, 0.3, 0.4], new SpellSolar(s_spell, s_sky).ClearDayFactors(new LocalDate(2025, 6, 20)).Select(f => Math.Round(f, 6)));

    [Fact]
    public void Weather_OnOtherDates_HasTheSpellsClearness()
    {
        WeatherSeries weather = new SpellSolar(s_spell, s_sky).Weather(new LocalDate(2026, 3, 5));
        DailyClearness laid = DailyClearness.Of(weather);
        Assert.Equal(new LocalDate(2026, 3, 5), laid.Days[0].Date);
        Assert.Equal(s_spell.Days.Select(d => Math.Round(d.Clearness!.Value, 9)), laid.Days.Select(d => Math.Round(d.Clearness!.Value, 9)));
        Assert.Equal(10, weather.AirCelsius[0]);
        Assert.Equal(s_spell.Name, weather.Source);
    }

    [Fact]
    public void FromItsDays_ProfileWithoutTheDays_Throws()
    {
        TimeAxis summer = TimeAxis.OfDates(s_denver, new LocalDate(2025, 6, 1), new LocalDate(2025, 7, 1), 60);
        Assert.Contains("does not hold 11 January", Assert.Throws<ArgumentException>(() => new SpellSolar(s_spell, s_sky).FromItsDays(Profile.Zero(summer), new LocalDate(2025, 6, 5))).Message, StringComparison.Ordinal);
    }
}
