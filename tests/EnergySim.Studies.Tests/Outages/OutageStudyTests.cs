using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Files;
using EnergySim.Profiles;
using EnergySim.Studies.Outages;
using EnergySim.TestData;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Tests.Outages;

public class OutageStudyTests
{
    private static readonly Lazy<Home> s_demo = new(() => HomeFile.Read(Path.Combine(SharedData.RepositoryRoot, "profiles", "demo-home.yaml")).Home);

    // Twenty days of the demo by the hour: enough for every path, and quick.
    private static readonly Lazy<Home> s_short = new(() =>
    {
        Home demo = s_demo.Value;
        var axis = new TimeAxis(demo.Load.Axis.Zone, demo.Load.Axis.Start, 15, 96 * 20);
        Profile First(Profile p) => new Profile(axis, p.Kw[..axis.Count]).Resampled(60);
        return demo with { Load = First(demo.Load), Solar = demo.Solar! with { Profile = First(demo.Solar.Profile) } };
    });

    private static readonly OutageTerms s_terms = new() { HorizonHours = 120, NamedHours = 48 };

    [Fact]
    public void Pairs_OfTwoOffers_ShareOutAllStarts()
    {
        OutageResult result = OutageStudy.Of(s_short.Value, s_terms);
        PairedOutages pair = Assert.Single(result.Pairs);
        Assert.Equal(1, pair.AddsNothingFraction + pair.AddsHoursFraction + pair.TakesHoursFraction, 12);
        Assert.InRange(pair.CarriesNightFraction, 0.01, pair.AddsHoursFraction);
        // The same offer twice adds nothing in any start.
        Home twice = s_short.Value with { Offers = [s_short.Value.Offers[0], s_short.Value.Offers[0]] };
        Assert.Equal(1, OutageStudy.Of(twice, s_terms).Pairs[0].AddsNothingFraction);
    }

    [Fact]
    public void StartCharge_OfTheEverydayRun_LiesBetweenReserveAndFull()
    {
        // The start is the simulated value; a full start is told as optimistic (TRADE §6.2 case 12, common practice).
        OutageResult At(StartCharge charge) => OutageStudy.Of(s_short.Value, s_terms with { StartCharge = charge, NamedStart = new LocalDateTime(2025, 1, 10, 21, 0) });
        OutageResult reserve = At(StartCharge.Reserve), everyday = At(StartCharge.Everyday), full = At(StartCharge.Full);
        for (int i = 0; i < 2; i++)
        {
            Battery unit = s_short.Value.Offers[i].Battery;
            double usable = (unit.CapacityKwh - unit.LowestKwh) * (i + 1), lowest = unit.LowestKwh * (i + 1);
            Assert.Equal(lowest + (0.2 * usable), reserve.Offers[i].Named.StartKwh, 9);
            Assert.Equal(lowest + usable, full.Offers[i].Named.StartKwh, 9);
            Assert.InRange(everyday.Offers[i].Named.StartKwh, lowest, (lowest + usable) * (1 - 1e-6));
            Assert.True(full.Offers[i].Any.HoursLastedBy(0.5) > everyday.Offers[i].Any.HoursLastedBy(0.5));
        }
        Assert.Contains(full.Notes, n => n.Contains("optimistic", StringComparison.Ordinal));
    }

    [Fact]
    public void Named_HoursLeft_AgreeWithTheWalkFromThatStart()
    {
        OutageResult result = OutageStudy.Of(s_short.Value, s_terms with { NamedStart = new LocalDateTime(2025, 1, 8, 12, 0) });
        int start = ((7 * 24) + 12);
        foreach (OfferOutages offer in result.Offers)
        {
            Assert.Equal(offer.Outcomes.LastingIntervals[start], offer.Named.HoursLeftWithSun[0] ?? s_terms.HorizonHours);
            Assert.Equal(offer.Named.FirstUnservedHours, offer.Named.HoursLeftWithSun[0] is double h && h < 48 ? h : null);
            for (int i = 0; i < 48; i++)
            {
                double withSun = offer.Named.HoursLeftWithSun[i] ?? double.PositiveInfinity, without = offer.Named.HoursLeftWithoutSun[i] ?? double.PositiveInfinity;
                Assert.True(without <= withSun, $"{offer.Name}, hour {i}: {without} without sun, {withSun} with");
                if (offer.Named.Ledger[LedgerColumn.UnservedKw][i] > 0) Assert.Equal(0, withSun);
            }
        }
    }

    [Fact]
    public void SolarInverterAboveTheRatio_IsTold()
    {
        // 7.6 kW of solar inverter beside one 5 kW battery (TRADE §6.2 case 29; 1:1, common practice); two batteries are enough.
        OutageResult result = OutageStudy.Of(s_short.Value, s_terms);
        Assert.Contains(result.Notes, n => n.StartsWith("One battery: the solar inverter's 7.6 kW", StringComparison.Ordinal));
        Assert.DoesNotContain(result.Notes, n => n.StartsWith("Two batteries", StringComparison.Ordinal));
        Assert.Equal(0, result.Offers[0].Named.Ledger.Sums.Kwh(LedgerColumn.SolarAcToLoadKw));
    }

    [Fact]
    public void KeepingLess_NeverLastsLess()
    {
        OfferOutages all = OutageStudy.Of(s_short.Value, s_terms).Offers[0], half = OutageStudy.Of(s_short.Value, s_terms with { Kept = KeptLoad.Share(0.5) }).Offers[0];
        for (int i = 0; i < all.Outcomes.LastingIntervals.Length; i++)
            Assert.True(half.Outcomes.LastingIntervals[i] >= all.Outcomes.LastingIntervals[i]);
        Assert.True(half.Availability > all.Availability);
    }

    [Fact]
    public void StartOutsideTheData_AndTermsOutOfRange_AreRefused()
    {
        string Fault(OutageTerms terms) => Assert.Throws<ArgumentException>(() => OutageStudy.Of(s_short.Value, terms)).Message;
        Assert.Contains("the data go from 2025-01-01 to 2025-01-20", Fault(s_terms with { NamedStart = new LocalDateTime(2026, 1, 1, 0, 0) }), StringComparison.Ordinal);
        Assert.Contains("clock skips 2025-03-09 02:30", Fault(s_terms with { NamedStart = new LocalDateTime(2025, 3, 9, 2, 30) }), StringComparison.Ordinal);
        Assert.Contains("horizon", Fault(s_terms with { HorizonHours = 0 }), StringComparison.Ordinal);
        Assert.Contains("cloud factor", Fault(s_terms with { CloudFactor = -0.1 }), StringComparison.Ordinal);
        Assert.Contains("kept running", Fault(s_terms with { Kept = KeptLoad.Share(double.NaN) }), StringComparison.Ordinal);
    }
}
