using EnergySim.Equipment;
using EnergySim.Studies.Outages;
using NodaTime;

namespace EnergySim.Studies.Tests.Outages;

/// <summary>Verdicts and what one change would carry; worked by hand, common practice.</summary>
public class CarryTests
{
    private static readonly OutageTerms s_terms = new() { HorizonHours = 48, NamedHours = 24, StartCharge = StartCharge.Full, NamedStart = new LocalDateTime(2025, 1, 8, 0, 0) };

    private static OfferOutages Of(Home home, OutageTerms terms) => OutageStudy.Of(home, terms).Offers[0];

    [Theory]
    [InlineData(60, 4.0, Answer.Unknown)]
    [InlineData(15, 4.0, Answer.Yes)]
    [InlineData(1, 4.0, Answer.Yes)]
    [InlineData(60, 6.0, Answer.No)]
    public void Power_FromHours_CanOnlyBeDenied(int stepMinutes, double peakKw, Answer expected)
    {
        // TRADE §3.4: hourly data cannot answer whether the kW are enough, unless even their means are too high.
        int perHour = 60 / stepMinutes;
        PowerVerdict power = Of(SmallHome.Of(SmallHome.Axis(4, stepMinutes), i => i / perHour % 24 == 19 ? peakKw : 0.3), s_terms).Verdicts.Power;
        Assert.Equal(expected, power.Carries);
        Assert.Equal((peakKw, 5.0, stepMinutes >= 15), (power.PeakKw, power.ContinuousKw, power.IsCoarse));
        Assert.Equal(peakKw > 5 ? 4 : 0, power.HoursAbove, 9);
        Assert.Equal(new LocalDateTime(2025, 1, 6, 19, 0), power.PeakAt);
    }

    [Fact]
    public void Legs_FourKwOnOneAndNoneOnTheOther_FailThoughTheTotalFits()
    {
        // TRADE §6.2 case 37: 4 kW on one 120-V leg, 5 kW unit, 2.5 a leg.
        CarryVerdicts verdicts = Of(SmallHome.Of(SmallHome.Axis(4, 15), _ => 4), s_terms with { Legs = new LegShares(1, 0) }).Verdicts;
        Assert.Equal(Answer.Yes, verdicts.Power.Carries);
        Assert.Equal(new LegVerdict(Answer.No, 4, 0, 2.5), verdicts.Legs);
        // The same between the legs: 2 kW each.
        Assert.Equal(Answer.Yes, Of(SmallHome.Of(SmallHome.Axis(4, 15), _ => 4), s_terms with { Legs = new LegShares(0, 0) }).Verdicts.Legs!.Carries);
    }

    [Fact]
    public void Legs_AreTheSplitPhaseArithmetic()
    {
        // 2,400 W and 1,200 W at 120 V: 20 A and 10 A (REFERENCE §4.7); here 3.6 kW, two thirds and one third of it.
        LegVerdict legs = Of(SmallHome.Of(SmallHome.Axis(4, 15), _ => 3.6), s_terms with { Legs = new LegShares(2 / 3.0, 1 / 3.0) }).Verdicts.Legs!;
        Assert.Equal(20, legs.FirstKw * 1000 / 120, 9);
        Assert.Equal(10, legs.SecondKw * 1000 / 120, 9);
    }

    [Fact]
    public void Starting_OfAThreeTonUnit_NeedsItsLockedRotorAmpsOnTopOfWhatRuns()
    {
        // 79 A across the line, 31.6 A with a soft starter (REFERENCE §4.6); 6 kW at 240 V are 25 A, of them the unit's own 18.6.
        StartingVerdict At(double? surge, bool soft = false)
        {
            Home home = SmallHome.Of(SmallHome.Axis(4, 15), i => i == 70 ? 6 : 0.5, battery: SmallHome.Ten with { SurgeAmps = surge });
            return Of(home, s_terms with { Motors = [new Motor { Name = "fan", NameplateLockedRotorAmps = 10, NameplateRunningAmps = 2 }, new Motor { Name = "cooling", CoolingTons = 3, HasSoftStarter = soft }] }).Verdicts.Starting!;
        }
        StartingVerdict verdict = At(60);
        Assert.Equal(("cooling", 79.0), (verdict.Starts[0].Motor.Name, verdict.Starts[0].LockedRotorAmps!.Value));
        Assert.Equal(25 - 18.6, verdict.Starts[0].OthersAmps, 9);
        Assert.Equal((Answer.No, Answer.Yes), (verdict.Across, verdict.Soft));
        Assert.Equal(Answer.Yes, At(86).Across);
        Assert.Equal((Answer.Unknown, Answer.Unknown), (At(null).Across, At(null).Soft));
        Assert.Equal(Answer.Yes, At(60, soft: true).Across);
    }

    [Fact]
    public void Starting_OfAMotorNobodyKnows_IsUnknown()
    {
        Home home = SmallHome.Of(SmallHome.Axis(4, 15), _ => 1, battery: SmallHome.Ten with { SurgeAmps = 100 });
        Assert.Equal(Answer.Unknown, Of(home, s_terms with { Motors = [new Motor { Name = "saw" }] }).Verdicts.Starting!.Across);
    }

    [Fact]
    public void Changes_AreTriedFromTheCheapestOn()
    {
        // 0.5 kW for 24 h are 12 kWh. The reserve of 20 % holds 2; even 100 % hold but 10, 80 % of the house 9.6, two batteries with 20 % 4.
        OfferOutages offer = Of(SmallHome.Of(SmallHome.Axis(10), _ => 0.5), s_terms with { StartCharge = StartCharge.Reserve });
        Assert.Equal(Answer.No, offer.Verdicts.Energy);
        Assert.Equal(
            [("a reserve of 100 %", false, (double?)20), ("10 % of the house kept in place of 100 %", true, null), ("one battery more", false, 8)],
            offer.Changes.Select(c => (c.Change, c.Carries, c.FirstUnservedHours)));
        // With 0.4 kW a full reserve carries 9.6 kWh.
        Assert.Equal(("a reserve of 100 %", true), (Of(SmallHome.Of(SmallHome.Axis(10), _ => 0.4), s_terms with { StartCharge = StartCharge.Reserve }).Changes[0] is var first ? (first.Change, first.Carries) : default));
    }

    [Fact]
    public void Changes_OfAnOverload_NameALargerInverter()
    {
        Home home = SmallHome.Of(SmallHome.Axis(10), i => i % 24 == 5 ? 7 : 0.1);
        OfferOutages offer = Of(home, s_terms with { Kept = new KeptLoad { Base = new LoadSource { Profile = home.Load } } });
        Assert.Equal(2, offer.Named.Ledger.Sums.UnservedKwh.Inverter + offer.Named.Ledger.Sums.UnservedKwh.DischargeRate, 9);
        Assert.Equal(["inverters of 7 kW with the same cells", "one battery more"], offer.Changes.Where(c => c.Carries).Select(c => c.Change));
        SpellEvent overload = Assert.Single(offer.Named.Events);
        Assert.Equal((SpellEventKind.Overloaded, 5.0), (overload.Kind, overload.Hour));
    }

    [Fact]
    public void Changes_OfAPart_NameItSwitchedOff()
    {
        Home home = SmallHome.Of(SmallHome.Axis(10), _ => 1);
        OutageTerms terms = s_terms with { Kept = new KeptLoad { Parts = [new LoadPart { Name = "heater", Source = LoadSource.Share(0.7) }] } };
        Assert.Equal(("heater switched off", true), (Of(home, terms).Changes[0].Change, Of(home, terms).Changes[0].Carries));
        Assert.Empty(Of(SmallHome.Of(SmallHome.Axis(10), _ => 0.1), s_terms).Changes);
    }

    [Fact]
    public void Events_OfANightAndADay_AreTheTurnsOfTheStory()
    {
        // 10 kWh, 1 kW, the sun from the tenth hour on gives 4 kW for 8 h.
        OfferOutages offer = Of(SmallHome.Of(SmallHome.Axis(10), _ => 1, i => i % 24 is >= 12 and < 20 ? 4 : 0), s_terms);
        Assert.Equal(
            [(SpellEventKind.Empty, 10.0), (SpellEventKind.ServedAgain, 12.0), (SpellEventKind.Full, 15.0)],
            offer.Named.Events.Select(e => (e.Kind, e.Hour)));
        Assert.Equal((10.0, 12.0), (offer.Named.FirstUnservedHours, offer.Named.RecoversHours));
        Assert.Equal([10.0, 9.0], offer.Named.HoursLeftWithoutSun.Take(2).Select(h => h!.Value));
    }
}
