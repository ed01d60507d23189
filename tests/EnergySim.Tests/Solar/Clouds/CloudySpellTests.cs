using CsCheck;
using EnergySim.Solar;
using EnergySim.TestData;
using NodaTime;

namespace EnergySim.Tests.Solar.Clouds;

public class CloudySpellTests
{
    private static readonly LocalDate s_newYear = new(2025, 1, 1);

    // Quartile of 1 … 5 is 2 by type 7 (shared/reference/REFERENCE.md §11); here tenths.
    [Fact]
    public void AtQuantile_QuartileOfFiveDays_IsTheSecond()
    {
        CloudySpell spell = CloudySpell.AtQuantile(DailyClearness.Of(Skies.Of(s_newYear, 0.5, 0.3, 0.1, 0.4, 0.2)), Season.DecemberToFebruary, 1, 0.25);
        Assert.Equal(0.2, spell.WantedClearness!.Value, 9);
        Assert.Equal(new LocalDate(2025, 1, 5), Assert.Single(spell.Days).Date);
        Assert.Equal("day at the 25% quantile of December–February, clearness 0.20: 2025-01-05 on, recorded", spell.Name);
    }

    [Fact]
    public void AtQuantile_RunWithThatMean_IsTakenAsItWas()
    {
        CloudySpell spell = CloudySpell.AtQuantile(DailyClearness.Of(Skies.Of(s_newYear, 0.7, 0.1, 0.3, 0.7, 0.7, 0.2)), Season.DecemberToFebruary, 2, 0.2);
        Assert.True(spell.IsConsecutive);
        Assert.Equal([2, 3], spell.Days.Select(d => d.Date.Day));
        Assert.Equal(0.2, spell.MeanClearness, 9);
    }

    [Fact]
    public void AtQuantile_NoSuchRun_GathersTheNearestDays()
    {
        CloudySpell spell = CloudySpell.AtQuantile(DailyClearness.Of(Skies.Of(s_newYear, 0.1, 0.7, 0.11, 0.7, 0.12, 0.7)), Season.DecemberToFebruary, 3, 0);
        Assert.False(spell.IsConsecutive);
        Assert.Equal([1, 3, 5], spell.Days.Select(d => d.Date.Day));
        Assert.EndsWith("gathered from single days", spell.Name, StringComparison.Ordinal);
    }

    [Fact]
    public void Darkest_OfASeason_LooksNowhereElse()
    {
        DailyClearness sky = DailyClearness.Of(Skies.Of(new LocalDate(2025, 2, 26), 0.5, 0.4, 0.3, 0.05, 0.1, 0.6));
        CloudySpell any = CloudySpell.Darkest(sky, 2), winter = CloudySpell.Darkest(sky, 2, Season.DecemberToFebruary);
        Assert.Equal(new LocalDate(2025, 3, 1), any.Days[0].Date);
        Assert.Equal(new LocalDate(2025, 2, 27), winter.Days[0].Date);
        Assert.Equal("the darkest 2 days in a row of December–February: 2025-02-27 on, clearness 0.35", winter.Name);
    }

    [Fact]
    public void Spells_BadArguments_Throw()
    {
        DailyClearness sky = DailyClearness.Of(Skies.Of(s_newYear, 0.5, 0.4));
        Assert.Throws<ArgumentException>(() => CloudySpell.Darkest(sky, 3));
        Assert.Throws<ArgumentException>(() => CloudySpell.AtQuantile(sky, Season.JuneToAugust, 1, 0.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => CloudySpell.AtQuantile(sky, Season.DecemberToFebruary, 0, 0.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => CloudySpell.AtQuantile(sky, Season.DecemberToFebruary, 1, 1.1));
    }

    [Fact]
    public void AtQuantile_RandomSkies_IsRealAndNearAndOrderedByQuantile()
    {
        FixedSeed.Check(Gen.Select(Gen.Double[0.02, 0.8].Array[20, 59], Gen.Int[1, 5], Gen.Double[0, 0.5]), 200, c =>
        {
            (double[] clearness, int days, double low) = c;
            DailyClearness sky = DailyClearness.Of(Skies.Of(s_newYear, clearness));
            CloudySpell dark = CloudySpell.AtQuantile(sky, Season.DecemberToFebruary, days, low), light = CloudySpell.AtQuantile(sky, Season.DecemberToFebruary, days, low + 0.5);
            Assert.Equal(days, dark.Days.Distinct().Count());
            Assert.All(dark.Days, d => Assert.Contains(d, sky.Days));
            Assert.True(dark.WantedClearness <= light.WantedClearness);
            if (!dark.IsConsecutive) return;
            Assert.True(Math.Abs(dark.MeanClearness - dark.WantedClearness!.Value) <= 0.02 || days == 1);
            for (int i = 1; i < days; i++) Assert.Equal(dark.Days[i - 1].Date.PlusDays(1), dark.Days[i].Date);
        });
    }
}
