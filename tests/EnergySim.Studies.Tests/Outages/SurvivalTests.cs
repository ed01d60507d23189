using EnergySim.Studies.Outages;

namespace EnergySim.Studies.Tests.Outages;

public class SurvivalTests
{
    [Fact]
    public void AllOutlastingTheHorizon_AreAtLeastItAndUnknownBeyond()
    {
        // T > 72 h in all starts: report "≥ 72 h" (TRADE §6.2 case 31, common practice).
        var survival = new Survival(Enumerable.Repeat(72, 100), 72, 1);
        Assert.Equal(1, survival.CensoredFraction);
        Assert.Equal(72, survival.HoursLastedBy(0.9));
        Assert.Equal(72, survival.HorizonHours);
        Assert.Equal(1, survival.AtLeast(72));
        Assert.Null(survival.AtLeast(73));
    }

    [Fact]
    public void Quantiles_OfOneToTen_AreTheLargestHoursThatSoManyLast()
    {
        // Ten starts lasting 1…10 h: nine of them last at least 2 h, five at least 6 h, one 10 h (counted by hand).
        var survival = new Survival([3, 1, 10, 7, 2, 9, 4, 6, 5, 8], 336, 1);
        Assert.Equal([1, 2, 6, 10], new[] { 1, 0.9, 0.5, 0.1 }.Select(survival.HoursLastedBy));
        Assert.Equal([1.0, 0.9, 0.1, 0.0], new double[] { 1, 2, 10, 11 }.Select(h => survival.AtLeast(h)!.Value));
    }

    [Fact]
    public void QuarterHours_CountInHours()
    {
        var survival = new Survival([3, 4, 5, 8], 96, 0.25);
        Assert.Equal(0.75, survival.AtLeast(1));
        Assert.Equal(0.5, survival.AtLeast(1.1));
        Assert.Equal(1.25, survival.HoursLastedBy(0.5));
        Assert.Equal((24.0, 0.0), (survival.HorizonHours, survival.CensoredFraction));
        Assert.Equal(0, survival.AtLeast(24));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-0.1)]
    [InlineData(1.01)]
    [InlineData(double.NaN)]
    public void Share_OutOfRange_IsRefused(double share) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new Survival([1], 336, 1).HoursLastedBy(share));

    [Fact]
    public void ExponentialDurations_FollowTheirSurvival()
    {
        // Outages with mean 4 h: P(> 4 h) = e⁻¹ = 0.367879, P(> 8 h) = 0.135335 (REFERENCE §6.2). Quantiles of the law, not a random draw.
        int[] minutes = [.. Enumerable.Range(0, 10000).Select(i => (int)(-4 * 60 * Math.Log(1 - ((i + 0.5) / 10000))))];
        var survival = new Survival(minutes.Select(m => Math.Min(m, 336 * 60)), 336 * 60, 1 / 60.0);
        Assert.Equal(0.367879, survival.AtLeast(4)!.Value, 3);
        Assert.Equal(0.135335, survival.AtLeast(8)!.Value, 3);
    }

    [Fact]
    public void NoStart_IsRefused() => Assert.Throws<ArgumentException>(() => new Survival([], 336, 1));
}
