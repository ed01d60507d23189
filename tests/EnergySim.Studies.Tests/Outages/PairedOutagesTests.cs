using EnergySim.Studies.Outages;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Tests.Outages;

/// <summary>A later offer against the first, counted by hand: 1 kW from full lasts 10 h a battery (common practice).</summary>
public class PairedOutagesTests
{
    private static IReadOnlyList<PairedOutages> Of(int[] units, bool twoYears = false, TimeAxis? axis = null)
    {
        Home home = SmallHome.Of(axis ?? SmallHome.Axis(4, 15), _ => 1, _ => 0);
        home = home with { Offers = [.. units.Select(n => home.Offers[0] with { Name = $"{n}", Units = n })] };
        OutageTerms terms = new() { HorizonHours = 48, NamedHours = 12, StartCharge = StartCharge.Full };
        if (twoYears) terms = terms with { WeatherYears = [new WeatherYear("same", home.Solar!.Profile)] };
        return OutageStudy.Of(home, terms).Pairs;
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Night_IsCarried_WhenSixOClockLiesBetweenTheTwo(bool twoYears)
    {
        IReadOnlyList<PairedOutages> pairs = Of([1, 2, 3], twoYears);
        Assert.Equal([("1", "2"), ("1", "3")], pairs.Select(p => (p.First, p.Second)));
        Assert.All(pairs, p => Assert.Equal((0.0, 1.0, 0.0), (p.AddsNothingFraction, p.AddsHoursFraction, p.TakesHoursFraction)));
        // First 06:00 after the start more than 10 h away and at most 20 h: 40 of 96 quarter hours.
        // At most 30 h: 56, those at 06:00 itself among them.
        Assert.Equal([40 / 96.0, 56 / 96.0], pairs.Select(p => p.CarriesNightFraction));
    }

    [Fact]
    public void Night_EndsAtSix()
    {
        // Starts from midnight to noon: 06:00 is more than 10 h and at most 20 h away from 10:00 on, 8 of 48 quarter hours.
        var axis = new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2025, 1, 6, 0, 0), 15, 48);
        Assert.Equal(8 / 48.0, Assert.Single(Of([1, 2], axis: axis)).CarriesNightFraction);
    }

    [Fact]
    public void Smaller_TakesHoursFromAllStarts()
    {
        PairedOutages pair = Assert.Single(Of([2, 1]));
        Assert.Equal((0.0, 0.0, 1.0, 0.0), (pair.AddsNothingFraction, pair.AddsHoursFraction, pair.TakesHoursFraction, pair.CarriesNightFraction));
    }

    [Fact]
    public void Home_WithoutOffer_IsRefused() =>
        Assert.Contains("no offer", Assert.Throws<ArgumentException>(() => Of([])).Message, StringComparison.Ordinal);
}
