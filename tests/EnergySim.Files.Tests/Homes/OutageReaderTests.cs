using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Studies.Outages;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Files.Tests.Homes;

public sealed class OutageReaderTests : IDisposable
{
    private readonly TempFolder _folder = new();
    private readonly string _sound = Sample.Text("every-outage-key.yaml");

    public OutageReaderTests()
    {
        foreach (string file in (string[])["two-days.csv", "evening-peak.yaml"]) _folder.Write(file, Sample.Text(file));
    }

    public void Dispose() => _folder.Dispose();

    private OutageTerms Read(string text) => HomeFile.Read(_folder.Write("h.yaml", text)).Outage;

    [Fact]
    public void Read_EveryKey_IsWhatTheFileSays()
    {
        OutageTerms terms = Read(_sound);
        Assert.Equal(new LocalDateTime(2025, 6, 30, 18, 0), terms.NamedStart);
        Assert.Equal((24, 48, 0.8), (terms.NamedHours, terms.HorizonHours, terms.CloudFactor));
        Assert.Equal([0.3, 0.5, 1], terms.CloudFactorByDay);
        Assert.Equal(48, terms.SolarInOutage!.Axis.Count);
        Assert.True(terms.IsTypicalYear);
        Assert.Equal("dull", Assert.Single(terms.WeatherYears).Name);
        Assert.Equal((StartCharge.Storm, 6.0, false), (terms.StartCharge, terms.StormLeadHours, terms.ManagesLoad));
        Assert.Equal([90.0, 200.0], terms.Kept.Base.Appliances.Select(a => a.Watts));
        Assert.Equal((new ClockWindow(18 * 60, 23 * 60), ApplianceDays.Weekdays), (terms.Kept.Base.Appliances[1].Window, terms.Kept.Base.Appliances[1].Days));
        Assert.Equal([0.6, 0.0, 1.0], terms.Kept.Parts.Select(p => p.KeptFraction));
        Assert.Equal(0.3, terms.Kept.Parts[0].Source.HouseFraction);
        Assert.NotNull(terms.Kept.Parts[1].Source.Profile);
        Assert.Equal((0.4, 0.7), (terms.Kept.Parts[2].OffBelowFraction, terms.Kept.Parts[2].OnAboveFraction));
        OutageRules rules = terms.Rules;
        Assert.Equal((false, true, 2.0, 0.05, true), (rules.RestartsAfterTrip, rules.RestartsAfterEmpty, rules.ByHandAfterHours, rules.HeldBackFraction, rules.TriesWithSun));
        Assert.Equal(new Generator { Kw = 5, StartBelowFraction = 0.15, StopAboveFraction = 0.9, FuelKwh = 60, RunsBesideSeparateSolar = true }, rules.Generator);
        Assert.Equal(79 * 0.35, terms.Motors[0].SoftStartAmps!.Value, 9);
        Assert.Equal(new Motor { Name = "well pump", Horsepower = 1.5, CodeLetter = 'J', NameplateRunningAmps = 10 }, terms.Motors[1]);
        Assert.Equal((115.0, 40.0), (terms.Motors[2].Volts, terms.Motors[2].LockedRotorAmps));
        Assert.Equal(new LegShares(0.4, 0.3), terms.Legs);
        Assert.Equal(new OutageWish(12, 0.8), terms.Wish);
        Assert.Equal(2, terms.Durations!.Kinds.Count);
        Assert.Equal(60, HomeFile.Read(_folder.Write("h.yaml", _sound)).Home.Offers[0].Battery.SurgeAmps);
        terms.Validate();
    }

    [Fact]
    public void Read_NoSection_HasTheDefaults()
    {
        OutageTerms terms = Read(_sound[.._sound.IndexOf("outage:", StringComparison.Ordinal)]), defaults = new();
        Assert.Equal((defaults.HorizonHours, defaults.NamedHours, defaults.CloudFactor, defaults.StartCharge), (terms.HorizonHours, terms.NamedHours, terms.CloudFactor, terms.StartCharge));
        Assert.Equal(1, terms.Kept.Base.HouseFraction);
        Assert.True(terms.Rules.IsNone);
    }

    [Theory]
    [InlineData("start: 2025-06-30T18:00", "start: tonight", "line 15 column 10, outage.start: \"tonight\" is no local date and time; write 2025-01-15T18:00")]
    [InlineData("hours: 24", "hours: 0", "line 16 column 10, outage.hours: \"0\" is below 1")]
    [InlineData("horizonHours: 48", "horizonHours: 9000", "line 17 column 17, outage.horizonHours: \"9000\" is above 8760")]
    [InlineData("sun: 80 %", "sun: 300 %", "line 18 column 8, outage.sun: \"300 %\" is above 200 %; the share of the sun that is left lies between 0 and 2, or 0 % and 200 %")]
    [InlineData("sunByDay: [0.3, 50 %, 1]", "sunByDay: [-1]", "line 19 column 14, outage.sunByDay[1]: \"-1\" is below 0; the share of the sun that is left lies between 0 and 2, or 0 % and 200 %")]
    [InlineData("name: dull, file: two-days.csv, column: load_kw, unit: kW, stamp: start", "name: dull, file: two-days.csv, column: load_kw, unit: kW, stamp: end", "line 22 column 7, outage.weatherYears[1]: it has 48 intervals of 60 minutes from 2025-06-30 23:00 -04 (America/New_York), the load has 48 intervals of 60 minutes from 2025-07-01 00:00 -04 (America/New_York); but for the year they must be the same")]
    [InlineData("charge: storm", "charge: full", "line 24 column 3, outage.stormLeadHours: only charge: storm has a lead")]
    [InlineData("charge: storm", "charge: empty", "line 23 column 11, outage.charge: \"empty\" is not one of everyday, full, reserve, storm.\nh.yaml line 24 column 3, outage.stormLeadHours: only charge: storm has a lead")]
    [InlineData("overload: trip", "overload: burn", "line 25 column 13, outage.overload: \"burn\" is not one of shed, trip")]
    [InlineData("overload: trip", "overload: trip\n  kept: 0.5", "line 15 column 3, outage: kept, keptProfile and keptAppliances exclude each other")]
    [InlineData("watts: 90", "watts: -90", "line 27 column 41, outage.keptAppliances[1].watts: \"-90\" is below 0")]
    [InlineData("days: weekdays", "days: sundays", "line 28 column 70, outage.keptAppliances[2].days: \"sundays\" is not one of every, weekdays, weekends")]
    [InlineData("share: 30 %, kept", "share: 30 %, profile: { file: two-days.csv, column: load_kw, unit: kW, stamp: start }, kept", "line 30 column 7, outage.parts[1]: one of share, profile and appliances says how much it uses")]
    [InlineData("onAbove: 0.7", "onAbove: 0.3", "line 35 column 16, outage.parts[3].onAbove: \"0.3\" is below offBelow")]
    [InlineData("      offBelow: 40 %\n", "", "line 34 column 7, outage.parts[3].onAbove: it comes on again only where offBelow says when it goes off")]
    [InlineData("afterTrip: by-hand", "afterTrip: itself", "line 36 column 53, outage.restart.byHandAfterHours: nothing is restarted by hand here; say so with afterTrip or afterEmpty")]
    [InlineData("heldBack: 5 %, ", "", "line 36 column 75, outage.restart.triesWithSun: to form the grid again some energy must be held back; state heldBack")]
    [InlineData("startBelow: 15 %", "startBelow: 95 %", "line 37 column 14, outage.generator: stopAbove is not above startBelow")]
    [InlineData("generator: { kw: 5,", "generator: {", "line 37 column 14, outage.generator: kw is missing")]
    [InlineData("lockedRotorAmps: 40", "runningAmps: 40", "line 41 column 7, outage.motors[3]: lockedRotorAmps (from the nameplate), tons or horsepower says how it starts")]
    [InlineData("horsepower: 1.5, code: J", "tons: 2, code: J", "line 40 column 48, outage.motors[2].code: a code letter needs the horsepower")]
    [InlineData("code: J", "code: V", "line 40 column 62, outage.motors[2].code: \"V\" is no code letter with a bound; they are A to U without I, O and Q; else state lockedRotorAmps")]
    [InlineData("tons: 3,", "tons: 8,", "line 39 column 7, outage.motors[1]: it is larger than the tables go; state lockedRotorAmps from the nameplate")]
    [InlineData("softStarter: true, ", "", "line 39 column 34, outage.motors[1].softStarterCut: state softStarter: true with it")]
    [InlineData("legs: [40 %, 0.3]", "legs: [40 %]", "line 42 column 3, outage.legs: two shares are wanted, one a leg; what is left of them lies between the legs")]
    [InlineData("legs: [40 %, 0.3]", "legs: [70 %, 0.4]", "line 42 column 3, outage.legs: the two shares are together above 1")]
    [InlineData("wish: { hours: 12", "wish: { hours: 60", "line 43 column 18, outage.wish.hours: \"60\" is above 48; a wish lies within the horizon")]
    [InlineData("saifi: 1.4", "saifi: 0", "line 44 column 68, outage.durations.saifi: \"0\" is not above 0")]
    [InlineData("saidiMinutes: 300", "saidiMinutes: 100", "line 44 column 95, outage.durations.ordinarySaidiMinutes: \"120\" is above saidiMinutes, which counts all events")]
    [InlineData(", ordinarySaifi: 1 }", " }", "line 44 column 14, outage.durations: ordinarySaidiMinutes and ordinarySaifi come together")]
    [InlineData("solar_dc_kw, unit: kW, stamp: start }\n", "solar_dc_kw, unit: kW, stamp: end }\n", "line 45 column 18, outage.solarInOutage: it has 48 intervals of 60 minutes from 2025-06-30 23:00 -04 (America/New_York), the load has 48 intervals of 60 minutes from 2025-07-01 00:00 -04 (America/New_York); they must be the same")]
    [InlineData("wish: {", "whish: {", "line 43 column 3, outage: \"whish\" is not a key here; the nearest is wish")]
    public void Read_OneThingWrong_SaysIt(string sound, string bad, string sentence)
    {
        Assert.Contains(sound, _sound, StringComparison.Ordinal);
        string text = _sound.Replace(sound, bad, StringComparison.Ordinal);
        Assert.Equal($"h.yaml {sentence}.", _folder.ProblemsOf(() => HomeFile.Read(_folder.Write("h.yaml", text))));
    }
}
