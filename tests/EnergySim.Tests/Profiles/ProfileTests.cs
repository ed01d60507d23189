using CsCheck;
using EnergySim.Profiles;
using EnergySim.TestData;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Profiles;

public class ProfileTests
{
    private static TimeAxis Axis(int step, int count) => new(DateTimeZone.Utc, Instant.FromUtc(2025, 1, 1, 0, 0), step, count);

    [Fact]
    public void Resampled_ToAnyStep_KeepsEnergy() =>
        FixedSeed.Check(
         from step in Gen.OneOf(Gen.Const(5), Gen.Const(15), Gen.Const(30), Gen.Const(60))
         from to in Gen.OneOf(Gen.Const(1), Gen.Const(5), Gen.Const(15), Gen.Const(30), Gen.Const(60))
         from kw in Gen.Double[0, 20].Array[24 * 60 / step]
         select (step, to, kw), 500, c =>
        {
            (int step, int to, double[] kw) = c;
            var profile = new Profile(Axis(step, kw.Length), kw);
            Assert.Equal(profile.EnergyKwh, profile.Resampled(to).EnergyKwh, 9);
        });

    [Fact]
    public void Resampled_ToCoarser_IsTheMean() =>
        Assert.Equal([2.5, 6], new Profile(Axis(15, 8), [1, 2, 3, 4, 6, 6, 6, 6]).Resampled(60).Kw.ToArray());

    [Fact]
    public void Resampled_ToFiner_HoldsThePower() =>
        Assert.Equal([3, 3, 5, 5], new Profile(Axis(30, 2), [3, 5]).Resampled(15).Kw.ToArray());

    [Fact]
    public void Resampled_SpanNotWhole_Throws() =>
        Assert.Throws<ArgumentException>(() => new Profile(Axis(15, 3), [1, 2, 3]).Resampled(60));

    [Theory]
    [InlineData(-0.1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void New_ValueThatIsNoPower_Throws(double kw) => Assert.Throws<ArgumentException>(() => new Profile(Axis(60, 1), [kw]));

    [Fact]
    public void New_OtherCountThanTheAxis_Throws() => Assert.Throws<ArgumentException>(() => new Profile(Axis(60, 2), [1]));
}
