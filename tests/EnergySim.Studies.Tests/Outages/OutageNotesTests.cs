using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Studies.Outages;
using EnergySim.Time;

namespace EnergySim.Studies.Tests.Outages;

/// <summary>Which sentences stand under the figures, and which do not (common practice); not how they are worded.</summary>
public class OutageNotesTests
{
    private static readonly TimeAxis s_axis = SmallHome.Axis(3);
    private static readonly Home s_home = SmallHome.Of(s_axis, _ => 0.8, i => i % 24 is >= 9 and < 15 ? 4 : 0);
    private static readonly OutageTerms s_terms = new() { HorizonHours = 24, NamedHours = 24 };

    private static string Told(OutageTerms terms, Home? home = null) => string.Join('\n', OutageStudy.Of(home ?? s_home, terms).Notes);

    private static void Tells(OutageTerms terms, string[] said, string[] unsaid, Home? home = null)
    {
        string told = Told(terms, home);
        foreach (string words in said) Assert.Contains(words, told, StringComparison.Ordinal);
        foreach (string words in unsaid) Assert.DoesNotContain(words, told, StringComparison.Ordinal);
    }

    [Fact]
    public void NoteOfTheHome_ComesFirst_WhereThereIsOne()
    {
        Assert.Equal("Read from a file.", OutageStudy.Of(s_home with { Note = "Read from a file." }, s_terms).Notes[0]);
        Assert.Equal("!", OutageStudy.Of(s_home with { Note = "!" }, s_terms).Notes[0]);
        Assert.StartsWith("Each outage starts", OutageStudy.Of(s_home, s_terms).Notes[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Sun_IsToldWithWhereItComesFrom()
    {
        Tells(
            s_terms,
            ["Sun: 100 % of the recorded.", "is shed."],
            ["stated for the outage", "cloudy spell laid", "on its days", "trips the inverter", "restart"]);
        Profile dark = Profile.Zero(s_axis);
        Tells(s_terms with { CloudFactor = 0.5, SolarInOutage = dark }, ["Sun: 50 % of the solar stated for the outage"], ["recorded"]);
        Tells(s_terms with { SolarInOutage = dark, SpellName = "three days" }, ["cloudy spell laid in it (three days)"], ["stated for the outage"]);
        Tells(s_terms with { CloudFactorByDay = [0.5, 0], ManagesLoad = false },
            ["on its days 50 %, 0 % of that", "Overload trips the inverter."], ["is shed."]);
    }

    [Fact]
    public void Generator_IsToldWithItsFuelAndWhatItLocksOut()
    {
        OutageTerms With(Generator generator) => s_terms with { Rules = new OutageRules { Generator = generator } };
        Tells(With(new Generator { Kw = 5 }), ["Generator: 5 kW", "fuel for as long as it takes", "is locked out"], ["runs beside"]);
        Tells(With(new Generator { Kw = 5, FuelKwh = 30, RunsBesideSeparateSolar = true }),
            ["fuel for 30 kWh", "runs beside it"], ["as long as it takes", "locked out"]);
        Tells(s_terms, [], ["Generator:"]);
    }

    [Fact]
    public void Starts_AreToldWithTheirYearsOfWeather()
    {
        Tells(s_terms, ["Every one of the 72 intervals is a start, walked for 24 h", "One year of weather is one sample"], ["A few years"]);
        OutageTerms two = s_terms with { WeatherYears = [new WeatherYear("dull", Profile.Zero(s_axis))] };
        Tells(two, ["of each of 2 years of weather (the home's own, dull)", "A few years of weather"], ["One year of weather"]);
    }

    [Theory]
    [InlineData(60, true)]
    [InlineData(15, true)]
    [InlineData(5, false)]
    public void CoarseData_AreSaidToHidePeaks(int stepMinutes, bool told)
    {
        Home home = SmallHome.Of(SmallHome.Axis(1, stepMinutes), _ => 0.5);
        Assert.Equal(told, Told(s_terms, home).Contains($"means over {stepMinutes} minutes", StringComparison.Ordinal));
    }

    [Fact]
    public void Kept_IsToldAsItWasStated()
    {
        OutageTerms With(LoadSource source, params LoadPart[] parts) => s_terms with { Kept = new KeptLoad { Base = source, Parts = parts } };
        var lamp = new LoadSource { Appliances = [new Appliance { Name = "lamp", Watts = 60 }] };
        var pump = new LoadPart { Name = "pump", Source = LoadSource.Share(0.2), OffBelowFraction = 0.5 };
        var oven = new LoadPart { Name = "oven", Source = LoadSource.Share(0.2), KeptFraction = 0.5 };
        Tells(With(LoadSource.Share(0.5)), ["50 % of the house's load", "not made up for afterwards."], ["rest of the house", "a list", "circuits"]);
        Tells(With(LoadSource.Share(0.5), oven), ["50 % of the rest of the house; oven at 50 %"], ["shed below", "by rule"]);
        Tells(With(LoadSource.Share(0.5), oven, pump), ["pump at 100 %, shed below 50 % stored", "what is shed by rule does not count"], []);
        Tells(With(lamp), ["a list (lamp 60 W)"], ["circuits"]);
        Tells(With(new LoadSource { Profile = s_home.Load }), ["a profile of kept circuits"], ["a list"]);
    }

    [Fact]
    public void Restarts_AreToldWhereSomebodyOrSomethingMustDoThem()
    {
        OutageTerms With(OutageRules rules) => s_terms with { Rules = rules };
        Tells(With(new OutageRules { HeldBackFraction = 0.2 }), ["20 % of the energy is held back for restarts."], ["to form the grid", "Somebody"]);
        Tells(With(new OutageRules { HeldBackFraction = 0.05, TriesWithSun = true }), ["held back for restarts, also to form the grid"], []);
        Tells(With(new OutageRules { RestartsAfterTrip = false }),
            ["restart it after a trip: not within the outage."], ["running empty", "held back"]);
        Tells(With(new OutageRules { RestartsAfterEmpty = false, ByHandAfterHours = 6 }), ["restart it after running empty: after 6 h."], ["a trip"]);
        Tells(With(new OutageRules { RestartsAfterTrip = false, RestartsAfterEmpty = false }), ["restart it after a trip or running empty:"], []);
    }

    [Theory]
    [InlineData(5, 5, 1, 5.0, 4, false)]
    [InlineData(5, 5, 1, 5.1, 4, true)]
    [InlineData(6, 5, 1, 5.5, 4, true)]
    [InlineData(5, 4, 0.8, 4.9, 4, false)]
    [InlineData(5, 5, 1, 9.0, 0, false)]
    [InlineData(5, 5, 1, 9.0, 0.01, true)]
    public void SolarInverter_AboveWhatBatteryAndCellsTake_IsTold(
        double inverterKw, double chargeKw, double rectifier, double solarKw, double sunKw, bool told)
    {
        // 1:1 of solar inverter to battery inverter (TRADE §6.2 case 29, common practice): rating against the lesser of inverter and charging.
        Battery battery = SmallHome.Ten with { InverterKw = inverterKw, ChargeLimitKw = chargeKw, RectifierEfficiency = rectifier };
        Home home = SmallHome.Of(s_axis, _ => 0.5, i => i == 12 ? sunKw : 0, battery);
        home = home with { Solar = home.Solar! with { IsDc = false, InverterKw = solarKw } };
        home = home with { Offers = [home.Offers[0] with { ReplacesSolarInverter = false }] };
        Assert.Equal(told, Told(s_terms, home).Contains("One: the solar inverter's", StringComparison.Ordinal));
    }
}
