namespace EnergySim.Reports.Homeowner;

/// <summary>Rounding as people say figures (common practice): the step grows with the figure, and never hides more than about 2 % of it.</summary>
public class RoughTests
{
    [Theory]
    [InlineData("1278.45", "about $1,280")]
    [InlineData("753.63", "about $755")]
    [InlineData("67.22", "about $67")]
    [InlineData("-45.05", "about −$45")]
    [InlineData("0.30", "about nothing")]
    [InlineData("12589", "about $12,600")]
    public void About_Amount_IsRoundedWithItsSign(string amount, string said) =>
        Assert.Equal(said, new Rough("USD").About(decimal.Parse(amount, System.Globalization.CultureInfo.InvariantCulture)));

    [Theory]
    [InlineData(0.25, "under an hour")]
    [InlineData(1, "about 1 hour")]
    [InlineData(7.4, "about 7½ hours")]
    [InlineData(24.4, "about 24 hours")]
    [InlineData(130, "about 5½ days")]
    public void Hours_Length_IsSaidShortly(double hours, string said) => Assert.Equal(said, Rough.Hours(hours));

    [Fact]
    public void Hours_AtTheHorizon_AreAtLeastThat()
    {
        Assert.Equal("14 days or more", Rough.Hours(336, 336));
        Assert.Equal("72 hours or more", Rough.Hours(72, 72));
    }

    [Fact]
    public void Rounded_AnyAmount_HidesAtMostAFiftieth() => Assert.All(
        Enumerable.Range(0, 4000).Select(i => 25 + (i * 7.31m)), a => Assert.True(Math.Abs(Rough.Rounded(a) - a) <= 0.025m * a));
}
