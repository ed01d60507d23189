using EnergySim.Engine;
using EnergySim.Equipment;

namespace EnergySim.Tests.Equipment;

/// <summary>What a plant may be, and what several units come to: ENGINE, the plant. Sums by hand.</summary>
public class PlantTests
{
    private static readonly Battery s_unit = new()
    {
        Name = "unit",
        CapacityKwh = 10,
        LowestKwh = 1,
        ChargeLimitKw = 3,
        DischargeLimitKw = 4,
        InverterKw = 5,
        SolarInputKw = 6,
        StandbyKw = 0.02,
        RestartFraction = 0.2,
        ChargeEfficiency = 0.96,
        DischargeEfficiency = 0.97,
        InverterEfficiency = 0.98,
        RectifierEfficiency = 0.95,
        WakesBySolar = false,
        ChargeTaper = new Taper([(0.5, 1), (1, 0.2)]),
        DischargeTaper = new Taper([(0, 0.3), (0.5, 1)]),
    };

    // Energies and powers add; shares and efficiencies stay. Restart: 0.2 × (10 − 1) × 3 = 5.4 kWh.
    [Fact]
    public void OfBatteries_ThreeUnits_AddUp()
    {
        Plant plant = Plant.OfBatteries(s_unit, 3, new SeparateSolarInverter(7.6, FollowsLoad: false));
        Assert.Equal([30, 3, 27], new[] { plant.HighestKwh, plant.LowestKwh, plant.UsableKwh });
        Assert.Equal([9, 12, 15, 18], new[] { plant.ChargeLimitKw, plant.DischargeLimitKw, plant.InverterKw, plant.SolarInputKw });
        Assert.Equal(0.06, plant.StandbyKw, 12);
        Assert.Equal(5.4, plant.RestartKwh!.Value, 12);
        Assert.Equal([0.96, 0.97, 0.98, 0.95], new[] { plant.ChargeEfficiency, plant.DischargeEfficiency, plant.InverterEfficiency,
            plant.RectifierEfficiency });
        Assert.False(plant.WakesBySolar);
        Assert.Same(s_unit.ChargeTaper, plant.ChargeTaper);
        Assert.Same(s_unit.DischargeTaper, plant.DischargeTaper);
        Assert.Equal(new SeparateSolarInverter(7.6, FollowsLoad: false), plant.SeparateSolar);
        Assert.Null(Plant.OfBatteries(s_unit, 1).SeparateSolar.AcRatingKw);
        Assert.Throws<ArgumentOutOfRangeException>(() => Plant.OfBatteries(s_unit, 0));
    }

    // Nothing is left out of the checks; the fault names what it is of, and the rule. Not a number is no number of at least 0.
    [Theory]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    public void Validate_NegativeOrNoNumber_IsRefused(double value)
    {
        Plant good = Plant.OfBatteries(s_unit, 1);
        good.Validate();
        Plant[] bad =
        [
            good with { LowestKwh = value }, good with { HighestKwh = value }, good with { ChargeLimitKw = value }, good with { DischargeLimitKw = value },
            good with { InverterKw = value }, good with { SolarInputKw = value }, good with { StandbyKw = value }, good with { RestartKwh = value },
        ];
        Assert.Equal(
            ["LowestKwh", "HighestKwh", "ChargeLimitKw", "DischargeLimitKw", "InverterKw", "SolarInputKw", "StandbyKw", "RestartKwh"],
            bad.Select(p => Assert.Throws<ArgumentException>(p.Validate).ParamName));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1.01)]
    [InlineData(-0.5)]
    [InlineData(double.NaN)]
    public void Validate_EfficiencyBeyondOneOrNone_IsRefused(double value)
    {
        Plant good = Plant.OfBatteries(s_unit, 1);
        Plant[] bad =
        [
            good with { ChargeEfficiency = value }, good with { DischargeEfficiency = value }, good with { InverterEfficiency = value },
            good with { RectifierEfficiency = value },
        ];
        Assert.Equal(
            ["ChargeEfficiency", "DischargeEfficiency", "InverterEfficiency", "RectifierEfficiency"],
            bad.Select(p => Assert.Throws<ArgumentException>(p.Validate).ParamName));
    }

    [Fact]
    public void Validate_TheEdges_AreAllowed()
    {
        Plant.Nothing.Validate();
        Plant good = Plant.OfBatteries(s_unit, 1) with { ChargeEfficiency = 1, RestartKwh = null };
        good.Validate();
        (good with { HighestKwh = good.LowestKwh, StandbyKw = 0, InverterKw = double.PositiveInfinity }).Validate();
        Assert.Throws<ArgumentException>((good with { HighestKwh = 0.9 }).Validate);
        Assert.Throws<ArgumentException>((good with { HighestKwh = double.PositiveInfinity }).Validate);
    }

    // A billionth of a kWh is rounding; a millionth is not.
    [Fact]
    public void CheckLevel_OutsideTheCells_IsRefused()
    {
        Plant plant = Plant.OfBatteries(s_unit, 1);
        foreach (double level in new[] { 1, 5, 10, 1 - 5e-10, 10 + 5e-10 }) plant.CheckLevel(level);
        foreach (double level in new[] { 1 - 1e-6, 10 + 1e-6, double.NaN }) Assert.Throws<ArgumentOutOfRangeException>(() => plant.CheckLevel(level));
    }

    // Between its points a straight line, beyond them level: 0.4 is half of the way from 0.5 to 1, 0.9 half of the way down.
    [Theory]
    [InlineData(0, 0.5)]
    [InlineData(0.2, 0.5)]
    [InlineData(0.4, 0.75)]
    [InlineData(0.6, 1)]
    [InlineData(0.7, 1)]
    [InlineData(0.9, 0.5)]
    [InlineData(1, 0)]
    public void Taper_BetweenItsPoints_IsALine(double share, double limit)
    {
        var line = new TaperLine<Scalar>(new Taper([(0.2, 0.5), (0.6, 1), (0.8, 1), (1, 0)]));
        Assert.Equal(limit, line.At(new Scalar(share)).Value, 12);
        Assert.Equal(0.5, new TaperLine<Scalar>(new Taper([(0.3, 0.5)])).At(new Scalar(share)).Value, 12);
        Assert.Equal(1, new TaperLine<Scalar>(Taper.None).At(new Scalar(share)).Value, 12);
    }

    [Fact]
    public void Taper_SharesOutOfRangeOrFalling_AreRefused()
    {
        foreach ((double, double)[] points in (IEnumerable<(double, double)[]>)[[(-0.1, 0.5)], [(1.1, 0.5)], [(0.5, -0.1)], [(0.5, 1.1)], [(double.NaN, 1)],
            [(0.5, 1), (0.5, 0)], [(0.5, 1), (0.4, 1)]])
            Assert.Throws<ArgumentException>(() => new Taper(points));
        Assert.Equal(2, new Taper([(0, 0), (1, 1)]).Points.Count);
        Assert.True(Taper.None.IsNone);
        Assert.False(new Taper([(0, 1)]).IsNone);
    }
}
