using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Studies.Outages;
using NodaTime;

namespace EnergySim.Studies.Tests.Outages;

/// <summary>Which step of each change carries, worked by hand by the quarter of an hour (common practice).</summary>
public class CarryingChangesTests
{
    private static readonly OutageTerms s_terms = new()
    {
        HorizonHours = 48,
        NamedHours = 24,
        StartCharge = StartCharge.Full,
        NamedStart = new LocalDateTime(2025, 1, 8, 0, 0),
    };

    private static (string Change, bool Carries, double? Hours)[] Of(Home home, OutageTerms terms) =>
        [.. OutageStudy.Of(home, terms).Offers[0].Changes.Select(c => (c.Change, c.Carries, c.FirstUnservedHours))];

    private static Home HomeOf(Func<int, double> load, double reserve = 0.2, Battery? battery = null, int units = 1, double? breakerAmps = null)
    {
        Home home = SmallHome.Of(SmallHome.Axis(6, 15), i => load(i % 96), battery: battery, reserve: reserve);
        return home with { Offers = [home.Offers[0] with { Units = units, BreakerAmps = breakerAmps }] };
    }

    [Theory]
    [InlineData(0.2, 0.11, "a reserve of 30 %")]
    [InlineData(0.25, 0.11, "a reserve of 30 %")]
    [InlineData(0.3, 0.13, "a reserve of 40 %")]
    [InlineData(0, 0.04, "a reserve of 10 %")]
    [InlineData(0.95, 0.405, "a reserve of 100 %")]
    public void Reserve_IsTheNextTenthThatCarries(double reserve, double kw, string change) =>
        Assert.Equal((change, true, null), Of(HomeOf(_ => kw, reserve), s_terms with { StartCharge = StartCharge.Reserve })[0]);

    [Fact]
    public void Reserve_IsNotTriedForWantOfPower()
    {
        // A quarter hour half a kW above the inverter; of energy there is enough.
        Assert.Equal(
            ["90 % of the house kept in place of 100 %", "inverters of 5.5 kW with the same cells", "one battery more"],
            Of(HomeOf(i => i == 8 ? 5.5 : 0.1, 0.9), s_terms with { StartCharge = StartCharge.Reserve }).Select(c => c.Change));
    }

    [Fact]
    public void NothingInTheCells_IsUnservedAtOnceWithOneMoreToo() =>
        Assert.Equal(("one battery more", false, 0.0), Of(HomeOf(_ => 0.5, 0), s_terms with { StartCharge = StartCharge.Reserve })[^1]);

    [Theory]
    [InlineData(1.0, 0.5, "80 % of the house kept in place of 100 %")]
    [InlineData(1.0, 0.522, "70 % of the house kept in place of 100 %")]
    [InlineData(0.75, 0.58, "70 % of the house kept in place of 75 %")]
    [InlineData(0.9, 0.5, "80 % of the house kept in place of 90 %")]
    public void Less_IsTheNextTenthThatCarries(double share, double kw, string change) =>
        Assert.Equal((change, true, null), Of(HomeOf(_ => kw), s_terms with { Kept = KeptLoad.Share(share) })[0]);

    [Fact]
    public void Less_ThatFailsInTheFirstInterval_DoesNotCarry()
    {
        // 7 kW in the first quarter hour: 80 % are 5.6, 70 % 4.9. With a lamp told apart the rest is less.
        Home home = HomeOf(i => i == 0 ? 7 : 0.1);
        Assert.Equal(("70 % of the house kept in place of 100 %", true, null), Of(home, s_terms)[0]);
        var lamp = new LoadPart { Name = "lamp", Source = LoadSource.Share(0.1) };
        Assert.Equal(
            [("lamp switched off", false, 0.0), ("60 % of the rest of the house kept in place of 100 %", true, null)],
            Of(home, s_terms with { Kept = new KeptLoad { Parts = [lamp] } }).Take(2));
    }

    [Fact]
    public void Less_WhenNotEvenATenthCarries_TellsHowLongTheTenthLasts() =>
        Assert.Equal(("10 % of the house kept in place of 100 %", false, 20.0), Of(HomeOf(_ => 5), s_terms)[0]);

    [Fact]
    public void Parts_ThatRun_AreEachToldOffWhetherTheyCarryOrNot()
    {
        LoadPart Part(string name, double share, double kept) => new() { Name = name, Source = LoadSource.Share(share), KeptFraction = kept };
        OutageTerms terms = s_terms with { Kept = new KeptLoad { Parts = [Part("heater", 0.7, 1), Part("lamp", 0.1, 1), Part("vehicle", 0.1, 0)] } };
        // 1 kW less the vehicle are 0.9: 0.2 without the heater, 0.8 without the lamp, 12.5 h. Then 90 % … of the last tenth: no.
        Assert.Equal(
            [
                ("heater switched off", true, null), ("lamp switched off", false, 12.5),
                ("10 % of the rest of the house kept in place of 100 %", false, 12.25),
            ],
            Of(HomeOf(_ => 1), terms).Take(3));
    }

    [Fact]
    public void LargerInverter_IsThePeakInHalvesOfAKw_WhateverTheLossesUnitsAndBreaker()
    {
        // 12.3 kW on two units of 5.
        Battery battery = SmallHome.Ten with { InverterEfficiency = 0.9, StandbyKw = 0.05 };
        (string, bool, double?)[] changes = Of(HomeOf(i => i == 8 ? 12.3 : 0.1, battery: battery, units: 2, breakerAmps: 40), s_terms);
        Assert.Contains(("inverters of 12.5 kW with the same cells", true, null), changes);
        Assert.Equal(("one battery more", true, null), Of(HomeOf(i => i == 8 ? 7 : 0.1, breakerAmps: 20), s_terms)[^1]);
        // Three breakers of 20 A at 240 V are 14.4 kW.
        Assert.Equal(("one battery more", false, 2.0), Of(HomeOf(i => i == 8 ? 14.8 : 0.1, units: 2, breakerAmps: 40), s_terms)[^1]);
    }

    [Fact]
    public void LargerInverter_OfASmallPeak_IsSmall() =>
        Assert.Contains(("inverters of 0.5 kW with the same cells", true, null),
            Of(HomeOf(_ => 0.4, battery: SmallHome.Ten with { InverterKw = 0.3 }), s_terms));

    [Fact]
    public void LargerInverter_HelpsAgainstTripsToo() =>
        Assert.Contains(("inverters of 7 kW with the same cells", true, null),
            Of(HomeOf(i => i == 8 ? 7 : 0.1), s_terms with { ManagesLoad = false }));

    [Fact]
    public void OneMore_LastsTwiceAsLong_ToTheEndOfTheOutageAndNoFurther()
    {
        // 0.625 kW: 16 h a battery.
        Assert.Equal(("one battery more", true, null), Of(HomeOf(_ => 0.625), s_terms with { NamedHours = 32 })[^1]);
        Assert.Equal(("one battery more", false, 32.0), Of(HomeOf(_ => 0.625), s_terms with { NamedHours = 33 })[^1]);
    }

    [Fact]
    public void OneMore_IsAskedInTheWeatherOfTheOutage()
    {
        // The home's own sun would carry it, that of the worst year gives nothing.
        Home home = SmallHome.Of(SmallHome.Axis(6), _ => 1, i => i % 24 is >= 8 and < 16 ? 5 : 0);
        WeatherYear[] years = [new("fair", home.Solar!.Profile), new("dark", Profile.Zero(home.Load.Axis))];
        OutageTerms terms = s_terms with { NamedStart = null, WeatherYears = years };
        Assert.Equal(("one battery more", false, 20.0), Of(home, terms)[^1]);
    }
}
