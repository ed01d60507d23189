using EnergySim.Studies.Outages;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Tests.Outages;

/// <summary>One offer and one start alone agree with the study of all (common practice).</summary>
public class OfferInOutageTests
{
    // 3 kW at seven on the fifth morning: more than a reserve of 2 kWh.
    private static readonly Home s_home = WithTen(SmallHome.Of(SmallHome.Axis(6), i => i == 103 ? 3 : 0.6, i => i % 24 is >= 9 and < 15 ? 3 : 0));
    private static readonly OutageTerms s_terms = new() { HorizonHours = 48, NamedHours = 24, NamedStart = new LocalDateTime(2025, 1, 8, 18, 0) };

    private static Home WithTen(Home home) => home with { Offers = [home.Offers[0], home.Offers[0] with { Name = "Ten", Units = 10 }] };

    private static string Fault(TimeAxis axis, LocalDateTime at) => Assert.Throws<ArgumentException>(() => StartIndex.Of(axis, at)).Message;

    private static TariffCalendar Calendar(Home home) => new(home.Tariff, home.Load.Axis, home.Account, home.Load.Kw);

    [Fact]
    public void Offer_InTheNamedOutage_IsTheFirstOfTheStudy()
    {
        OfferInOutage one = OfferInOutage.Of(s_home, Calendar(s_home), s_terms);
        OfferOutages all = OutageStudy.Of(s_home, s_terms).Offers[0];
        Assert.Equal((all.Name, all.BatteryUnits, all.Named.StartKwh), (one.Offer, one.BatteryUnits, one.Named.StartKwh));
        Assert.Equal(all.Named.Events, one.Named.Events);
        Assert.Equal(all.Verdicts, one.Verdicts);
    }

    [Fact]
    public void WorstStart_IsThatOfTheStudy()
    {
        // Ten batteries last a day from any start: of equal starts the first would be the worst.
        OutageTerms day = s_terms with { HorizonHours = 24, NamedStart = null };
        OfferOutages offer = OutageStudy.Of(s_home, day).Offers[0];
        Assert.Equal(new LocalDateTime(2025, 1, 10, 7, 0), offer.Named.At);
        Assert.Equal(offer.Named.At, OfferInOutage.WorstStart(s_home, Calendar(s_home), day));
        Assert.Equal(offer.Worst[0].At, offer.Named.At);
    }

    [Fact]
    public void TermsOutOfRange_AndAStartNotNamed_AreRefused()
    {
        OutageTerms cloudy = s_terms with { CloudFactor = 3 };
        Assert.Throws<ArgumentException>(() => OfferInOutage.Of(s_home, Calendar(s_home), cloudy));
        Assert.Throws<ArgumentException>(() => OfferInOutage.WorstStart(s_home, Calendar(s_home), cloudy));
        Assert.Throws<ArgumentException>(() => OutageStudy.Lasting(s_home, Calendar(s_home), s_home.Offers[0], cloudy));
        Assert.Throws<ArgumentException>(() => OfferInOutage.Of(s_home, Calendar(s_home), s_terms with { NamedStart = null }));
    }

    [Fact]
    public void Start_WithinAnInterval_IsThatInterval()
    {
        TimeAxis axis = SmallHome.Axis(2);
        Assert.Equal(6, StartIndex.Of(axis, new LocalDateTime(2025, 1, 6, 6, 20)));
        Assert.Equal(0, StartIndex.Of(axis, new LocalDateTime(2025, 1, 6, 0, 0)));
        Assert.Equal(47, StartIndex.Of(axis, new LocalDateTime(2025, 1, 7, 23, 59)));
        foreach (LocalDateTime outside in (LocalDateTime[])[new(2025, 1, 5, 23, 59), new(2025, 1, 8, 0, 0)])
            Assert.Contains("from 2025-01-06 to 2025-01-07", Fault(axis, outside), StringComparison.Ordinal);
    }

    [Fact]
    public void Start_OutsideTheData_IsRefusedWithTheirFirstAndLastDay()
    {
        // One hour of the fifth, one of the sixth.
        var axis = new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2025, 1, 5, 23, 0), 60, 2);
        Assert.Contains("from 2025-01-05 to 2025-01-06", Fault(axis, new LocalDateTime(2025, 1, 7, 0, 0)), StringComparison.Ordinal);
    }

    [Fact]
    public void Offers_ConnectedInWaysOfTheirOwn_AreAskedAsConnected()
    {
        Home[] connected = [.. s_home.Offers.Select(o => s_home with { Offers = [o with { Units = o.Units + 1 }] })];
        OutageResult result = OutageStudy.Of(s_home, s_terms, connected);
        Assert.Equal([2, 11], result.Offers.Select(o => o.BatteryUnits));
        Assert.Equal(OutageStudy.Of(connected[0], s_terms).Offers[0].Outcomes.LastingIntervals, result.Offers[0].Outcomes.LastingIntervals);
    }

    [Fact]
    public void Start_InAnHourThatComesTwice_IsTheFirst()
    {
        // Clocks of New York go back at 02:00 on 2 November 2025 (IANA time zone database): 01:30 is first 05:30 UTC, then 06:30.
        var axis = new TimeAxis(DateTimeZoneProviders.Tzdb["America/New_York"], Instant.FromUtc(2025, 11, 2, 4, 0), 30, 96);
        Assert.Equal(3, StartIndex.Of(axis, new LocalDateTime(2025, 11, 2, 1, 30)));
    }
}
