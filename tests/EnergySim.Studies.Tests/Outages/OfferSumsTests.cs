using EnergySim.Studies.Outages;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Tests.Outages;

/// <summary>Sums over starts, counted again from what became of each start (common practice).</summary>
public class OfferSumsTests
{
    // Four days by the quarter of an hour, two in winter and two in spring.
    private static readonly TimeAxis s_axis = new(DateTimeZone.Utc, Instant.FromUtc(2025, 2, 27, 0, 0), 15, 4 * 96);
    private static readonly Home s_home = SmallHome.Of(s_axis, i => i < 200 ? 0.8 : 1.6, i => i % 96 is >= 36 and < 60 ? 3 : 0);
    private static readonly OutageTerms s_terms = new()
    {
        HorizonHours = 24,
        NamedHours = 24,
        WeatherYears = [new WeatherYear("dull", s_home.Solar!.Profile.Map(kw => kw * 0.2))],
        Durations = new OutageDurations { Source = "made up", Kinds = [new OutageKind("all", 1, 4)] },
    };

    private readonly OfferOutages _offer = OutageStudy.Of(s_home, s_terms).Offers[0];

    private IEnumerable<int> LastingOf(Func<int, bool> start) =>
        _offer.ByWeather.SelectMany(y => y.Outcomes.LastingIntervals.Where((_, i) => start(i)));

    private double HalfLast(Func<int, bool> start) => new Survival(LastingOf(start), 96, 0.25).HoursLastedBy(0.5);

    [Fact]
    public void Means_OverStartsAndYears_AreCountedAgain()
    {
        Assert.All(_offer.ByWeather, y => Assert.Equal((96, 0.25), (y.Outcomes.Horizon, y.Outcomes.StepHours)));
        double[] unserved = [.. _offer.ByWeather.SelectMany(y => y.Outcomes.UnservedKwh)];
        Assert.Equal(2 * 384, unserved.Length);
        Assert.Equal(unserved.Average(), _offer.MeanUnservedKwh, 9);
        Assert.Equal(_offer.ByWeather.SelectMany(y => y.Outcomes.DarkIntervals).Average() * 0.25, _offer.MeanDarkHours, 9);
        // 50 h of 0.8 kW and 46 h of 1.6 kW, asked 96 times in each of two years.
        Assert.Equal(1 - (unserved.Sum() / ((40 + 73.6) * 96 * 2)), _offer.Availability!.Value, 9);
        Assert.Equal(LastingOf(_ => true).Average(n => 1 - Math.Exp(-n * 0.25 / 4)), Assert.Single(_offer.Carried).CarriedFraction, 9);
    }

    [Fact]
    public void Availability_WhenNothingIsDemanded_IsUnknown()
    {
        OutageTerms terms = new() { HorizonHours = 24, NamedHours = 24 };
        Assert.Null(OutageStudy.Of(SmallHome.Of(SmallHome.Axis(2), _ => 0), terms).Offers[0].Availability);
        // A single watt is served throughout.
        Assert.Equal(1, OutageStudy.Of(SmallHome.Of(SmallHome.Axis(1), _ => 0.001), terms).Offers[0].Availability);
    }

    [Fact]
    public void December_IsOfTheWinterOfJanuary()
    {
        var axis = new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2024, 12, 31, 0, 0), 60, 48);
        OfferOutages offer = OutageStudy.Of(SmallHome.Of(axis, _ => 1), new OutageTerms { HorizonHours = 24, NamedHours = 24 }).Offers[0];
        Assert.Equal(("December–February", 48), (Assert.Single(offer.BySeason).Season, offer.BySeason[0].Survival.Starts));
    }

    [Fact]
    public void Groups_BySeasonMonthAndHour_HoldTheirOwnStarts()
    {
        Assert.Equal(["December–February", "March–May"], _offer.BySeason.Select(s => s.Season));
        Assert.All(_offer.BySeason, s => Assert.Equal(2 * 192, s.Survival.Starts));
        Assert.Equal([HalfLast(i => i < 192), HalfLast(i => i >= 192)], _offer.BySeason.Select(s => s.Survival.HoursLastedBy(0.5)));
        Assert.Equal([.. Enumerable.Range(0, 24).Select(h => (double?)HalfLast(i => i % 96 / 4 == h))], _offer.HalfLastByHour);
        Assert.Equal(12, _offer.HalfLastByMonthAndHour.Count);
        for (int m = 0; m < 12; m++)
        {
            double? At(int hour) => m is 1 or 2 ? HalfLast(i => i % 96 / 4 == hour && i < 192 == (m == 1)) : null;
            Assert.Equal([.. Enumerable.Range(0, 24).Select(At)], _offer.HalfLastByMonthAndHour[m]);
        }
    }

    [Fact]
    public void Worst_AreOneADayAndYear_TheShortestLastingFirst()
    {
        Assert.Equal(5, _offer.Worst.Count);
        Assert.Equal(5, _offer.Worst.Select(w => (w.At.Date, w.Weather)).Distinct().Count());
        Assert.Equal(LastingOf(_ => true).Min() * 0.25, _offer.Worst[0].LastingHours);
        foreach (WorstStart worst in _offer.Worst)
        {
            StartPoint at = new(_offer, worst, (int)(worst.At.InUtc().ToInstant() - s_axis.Start).TotalMinutes / 15);
            Assert.Equal((at.Lasting * 0.25, at.Unserved), (worst.LastingHours, worst.UnservedKwh));
        }
        for (int i = 1; i < 5; i++) Assert.True(_offer.Worst[i].LastingHours >= _offer.Worst[i - 1].LastingHours);
    }

    [Fact]
    public void Worst_OfEqualStarts_IsTheEarliestOfTheFirstYear()
    {
        Home home = SmallHome.Of(SmallHome.Axis(3), _ => 1, _ => 0);
        var same = new WeatherYear("same", home.Solar!.Profile);
        OutageTerms terms = new() { HorizonHours = 24, NamedHours = 24, StartCharge = StartCharge.Full, WeatherYears = [same] };
        IReadOnlyList<WorstStart> worst = OutageStudy.Of(home, terms).Offers[0].Worst;
        Assert.Equal(
            [(6, 0, ""), (7, 0, ""), (8, 0, ""), (6, 0, "same"), (7, 0, "same")],
            worst.Select(w => (w.At.Day, w.At.Hour, w.Weather)));
    }

    private sealed record StartPoint(OfferOutages Offer, WorstStart Worst, int Index)
    {
        private Engine.StartOutcomes Outcomes => Offer.ByWeather.Single(y => y.Weather == Worst.Weather).Outcomes;

        public int Lasting => Outcomes.LastingIntervals[Index];

        public double Unserved => Outcomes.UnservedKwh[Index];
    }
}
