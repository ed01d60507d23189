using EnergySim.Equipment;
using EnergySim.Studies.Outages;
using NodaTime;

namespace EnergySim.Studies.Tests.Outages;

/// <summary>Power, motors and legs at their limits; worked by hand, common practice.</summary>
public class CarryCheckTests
{
    private static PowerVerdict Power(Func<int, double> load, Battery battery, KeptLoad? kept = null) =>
        OutageStudy.Of(SmallHome.Of(SmallHome.Axis(2, 15), load, battery: battery),
            new OutageTerms { HorizonHours = 24, NamedHours = 12, StartCharge = StartCharge.Full, Kept = kept ?? new KeptLoad() })
            .Offers[0].Verdicts.Power;

    [Theory]
    [InlineData(5, 4, 0.9, 3.6)]
    [InlineData(5, 9, 0.9, 5)]
    public void Power_IsTheLesserOfInverterAndCells(double inverterKw, double cellsKw, double efficiency, double continuousKw)
    {
        Battery battery = SmallHome.Ten with { InverterKw = inverterKw, DischargeLimitKw = cellsKw, InverterEfficiency = efficiency };
        Assert.Equal(continuousKw, Power(_ => 1, battery).ContinuousKw, 12);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(77)]
    public void Power_OfOneQuarterHourAbove_IsDeniedThere(int at)
    {
        // 4.95 kW and 0.1 of the battery's own against 5.
        PowerVerdict power = Power(i => i == at ? 4.95 : 1, SmallHome.Ten with { StandbyKw = 0.1 });
        Assert.Equal((Answer.No, 0.25), (power.Carries, power.HoursAbove));
        Assert.Equal(5.05, power.PeakKw, 12);
        Assert.Equal(new LocalDateTime(2025, 1, 6, 0, 0).PlusMinutes(15 * at), power.PeakAt);
    }

    [Fact]
    public void Power_OfJustTheRating_IsCarried() =>
        Assert.Equal((Answer.Yes, 0.0), (Power(_ => 5, SmallHome.Ten).Carries, Power(_ => 5, SmallHome.Ten).HoursAbove));

    [Fact]
    public void Power_CountsWhatMayBeShed()
    {
        var pump = new LoadPart { Name = "pump", Source = LoadSource.Share(0.5), OffBelowFraction = 0.5 };
        PowerVerdict power = Power(i => i == 0 ? 6 : 2, SmallHome.Ten, new KeptLoad { Parts = [pump] });
        Assert.Equal((Answer.No, 6.0, 0.25), (power.Carries, power.PeakKw, power.HoursAbove));
    }

    private static StartingVerdict Starting(double? surge, int units, params Motor[] motors)
    {
        Home home = SmallHome.Of(SmallHome.Axis(1), _ => 1, battery: SmallHome.Ten with { SurgeAmps = surge });
        return CarryCheck.Starting(motors, home.Offers[0] with { Units = units }, 6, 240);
    }

    [Fact]
    public void Starting_IsOrderedByTheStartOnTopOfTheRest()
    {
        // 6 kW at 240 V are 25 A. 50 + 25 against 60 + (25 − 20).
        var saw = new Motor { Name = "saw", NameplateLockedRotorAmps = 50, NameplateRunningAmps = 0 };
        var pump = new Motor { Name = "pump", NameplateLockedRotorAmps = 60, NameplateRunningAmps = 20 };
        StartingVerdict verdict = Starting(75, 1, pump, saw);
        Assert.Equal([("saw", 25.0), ("pump", 5.0)], verdict.Starts.Select(s => (s.Motor.Name, s.OthersAmps)));
        Assert.Equal(Answer.Yes, verdict.Across);
        Assert.Equal(Answer.No, Starting(74.9, 1, pump, saw).Across);
        Assert.Equal((75.0, Answer.Yes), (Starting(37.5, 2, pump, saw).SurgeAmps, Starting(37.5, 2, pump, saw).Across));
    }

    [Fact]
    public void Starting_WithOneMotorUnknown_IsUnknownUnlessAnotherFails()
    {
        var saw = new Motor { Name = "saw", NameplateLockedRotorAmps = 50, NameplateRunningAmps = 30 };
        StartingVerdict verdict = Starting(75, 1, saw, new Motor { Name = "unknown" });
        Assert.Equal((Answer.Unknown, "unknown"), (verdict.Across, verdict.Starts[0].Motor.Name));
        Assert.Equal(25, verdict.Starts[0].OthersAmps);
        // More running amps than the peak leaves nothing else.
        Assert.Equal(0, verdict.Starts[1].OthersAmps);
        Assert.Equal(Answer.No, Starting(40, 1, saw, new Motor { Name = "unknown" }).Across);
    }

    [Fact]
    public void Legs_ShareWhatLiesBetweenThem()
    {
        // 4 kW: half on the first, a fifth on the second, 0.3 between, 0.15 a leg.
        LegVerdict legs = CarryCheck.LegsOf(new LegShares(0.5, 0.2), 4, 5.2);
        Assert.Equal((2.6, 1.4, 2.6), (Math.Round(legs.FirstKw, 9), Math.Round(legs.SecondKw, 9), legs.PerLegKw));
        Assert.Equal(Answer.Yes, legs.Carries);
        Assert.Equal(Answer.No, CarryCheck.LegsOf(new LegShares(0.2, 0.5), 4, 5.1).Carries);
        Assert.Equal(Answer.Yes, CarryCheck.LegsOf(new LegShares(0.5, 0.5), 5, 5).Carries);
    }
}
