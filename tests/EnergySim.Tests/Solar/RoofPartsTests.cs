using EnergySim.Profiles;
using EnergySim.Solar;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Solar;

/// <summary>Glass, heat, inverter and age against published values.</summary>
public class RoofPartsTests
{
    // De Soto, Klein and Beckman, Solar Energy 80 (2006), the physical model with n 1.526, K 4 per metre, 2 mm, computed from the published formula; tolerance 1e-5.
    [Theory]
    [InlineData(0, 1)]
    [InlineData(20, 0.99950)]
    [InlineData(30, 0.99789)]
    [InlineData(40, 0.99301)]
    [InlineData(50, 0.97984)]
    [InlineData(60, 0.94600)]
    [InlineData(70, 0.85972)]
    [InlineData(80, 0.63412)]
    [InlineData(85, 0.40088)]
    public void IncidenceLoss_OfAnAngle_IsTheModels(double degrees, double share) =>
        Assert.Equal(share, IncidenceLoss.Of(Math.Cos(degrees * Math.PI / 180)), 1e-5);

    [Fact]
    public void IncidenceLoss_BehindThePlane_IsAll() => Assert.Equal(0, IncidenceLoss.Of(-0.1));

    // Faiman, Progress in Photovoltaics 16 (2008) with u0 25 and u1 6.84; tolerance 1e-3.
    [Theory]
    [InlineData(25, 1000, 0, 65.000)]
    [InlineData(25, 1000, 1, 56.4070)]
    [InlineData(25, 1000, 2, 50.8532)]
    [InlineData(25, 1000, 5, 41.8919)]
    [InlineData(20, 800, 1, 45.1256)]
    public void CellCelsius_OfAnOpenMounting_IsThePapers(double air, double irradiance, double wind, double cells) =>
        Assert.Equal(cells, Mounting.Open.CellCelsius(air, irradiance, wind), 1e-3);

    // The nominal-temperature rule, air + (nominal − 20) × irradiance / 800, at the 1 m/s for which it is stated (IEC 61215).
    [Theory]
    [InlineData(25, 1000, 45, 56.25)]
    [InlineData(20, 800, 45, 45.0)]
    [InlineData(30, 600, 47, 50.25)]
    public void CellCelsius_OfANominalTemperature_IsTheRules(double air, double irradiance, double nominal, double cells) =>
        Assert.Equal(cells, Mounting.OfNominalTemperature(nominal).CellCelsius(air, irradiance, 1), 1e-9);

    // King, Boyson and Kratochvil, SAND2004-3535 (2004): close mount, rise = 1000 × exp(−2.98 − 0.0471 v) + 1 K at 1,000 W/m² (constants from memory). Our straight line stays within 1.5 K.
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(5)]
    [InlineData(8)]
    public void CellCelsius_CloseToTheRoof_FollowsTheCloseMountCurve(double wind) =>
        Assert.Equal((1000 * Math.Exp(-2.98 - (0.0471 * wind))) + 1, Mounting.CloseToRoof.CellCelsius(0, 1000, wind), 1.5);

    // P = Pstc × G/1000 × (1 + γ (Tc − 25)): worked values.
    [Theory]
    [InlineData(5, -0.004, 800, 45, 3.680)]
    [InlineData(5, -0.0035, 1000, 56.25, 4.453125)]
    [InlineData(5, -0.004, 400, 10, 2.120)]
    public void PowerKw_OfIrradianceAndTemperature_IsTheFormulas(double rated, double coefficient, double irradiance, double cells, double kw) =>
        Assert.Equal(kw, PlaneModel.PowerKw(rated, coefficient, irradiance, cells), 1e-12);

    // Weights of the California Energy Commission and of the European efficiency, as printed in public test reports: with these seven points 0.96494 and 0.95960.
    [Fact]
    public void EfficiencyAt_SevenPoints_GivesTheWeightedEfficiencies()
    {
        var inverter = new SolarInverter(10, [(0.05, 0.88), (0.1, 0.92), (0.2, 0.95), (0.3, 0.965), (0.5, 0.97), (0.75, 0.968), (1, 0.962)]);
        double At(double share) => inverter.EfficiencyAt(10 * share);
        Assert.Equal(0.96494, (0.04 * At(0.1)) + (0.05 * At(0.2)) + (0.12 * At(0.3)) + (0.21 * At(0.5)) + (0.53 * At(0.75)) + (0.05 * At(1)), 1e-9);
        Assert.Equal(0.95960, (0.03 * At(0.05)) + (0.06 * At(0.1)) + (0.13 * At(0.2)) + (0.1 * At(0.3)) + (0.48 * At(0.5)) + (0.2 * At(1)), 1e-9);
        Assert.Equal(0.9675, At(0.4), 1e-12);
        Assert.Equal(0.88, At(0.01), 1e-12);
        Assert.Equal(0.962, At(1.3), 1e-12);
    }

    // Clipping: 9.6 kW DC at 0.96 on a rating of 7.6 kW gives 7.6 kW and clips 1.616 kW AC.
    [Fact]
    public void Convert_AboveTheRating_ClipsAndCounts()
    {
        var axis = new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2025, 6, 1, 12, 0), 60, 2);
        Profile ac = new SolarInverter(7.6, 0.96).Convert(new Profile(axis, [9.6, 5]), out double clippedAc, out double clippedDc);
        Assert.Equal(7.6, ac.Kw[0]);
        Assert.Equal(4.8, ac.Kw[1], 1e-12);
        Assert.Equal(1.616, clippedAc, 1e-9);
        Assert.Equal(1.616 / 0.96, clippedDc, 1e-9);
    }

    // Jordan and Kurtz, NREL/JA-5200-51664 (2012): median 0.5 % a year; compounded, the 25th year has 0.995^24 = 0.886654.
    [Fact]
    public void KeptFraction_OfTheTwentyFifthYear_IsTheCompoundFactor()
    {
        Roof roof = new() { Place = default, Planes = [new RoofPlane { Name = "a", TiltDegrees = 20, AzimuthDegrees = 180, RatedKw = 1 }], Losses = [], AgeYears = 24 };
        Assert.Equal(0.886654, roof.KeptFraction, 1e-6);
        Assert.Equal(0.886654 * 0.9, (roof with { Losses = [new NamedLoss("soiling", 0.1, "the case")] }).KeptFraction, 1e-6);
    }

    // An even horizon of height e hides sin²e of an even sky's light on the flat (the integral of sin × cos).
    [Theory]
    [InlineData(10)]
    [InlineData(30)]
    [InlineData(60)]
    public void SkyFraction_OfAnEvenHorizonOnTheFlat_IsTheIntegrals(double height) =>
        Assert.Equal(1 - Math.Pow(Math.Sin(height * Math.PI / 180), 2), new HorizonLine([(0, height)]).SkyFraction(0, 180), 2e-2);

    [Theory]
    [InlineData(90, 10)]
    [InlineData(135, 20)]
    [InlineData(0, 12.5)]
    [InlineData(-90, 15)]
    public void ElevationAt_BetweenPointsAndAround_IsLinear(double azimuth, double elevation) =>
        Assert.Equal(elevation, new HorizonLine([(90, 10), (180, 30), (270, 15)]).ElevationDegreesAt(azimuth), 1e-12);
}
