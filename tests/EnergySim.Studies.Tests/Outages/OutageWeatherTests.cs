using EnergySim.Engine;
using EnergySim.Profiles;
using EnergySim.Studies.Outages;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Tests.Outages;

public class OutageWeatherTests
{
    private static readonly TimeAxis s_axis = SmallHome.Axis(20);
    private static readonly Home s_home = SmallHome.Of(s_axis, _ => 0.8, Sun);
    private static readonly OutageTerms s_terms = new() { HorizonHours = 120, NamedHours = 72 };

    private static double Sun(int i) => i % 24 is >= 9 and < 15 ? 4 : 0;

    [Fact]
    public void WeatherYears_AreAskedAsHomesOfTheirOwn()
    {
        var dull = new WeatherYear("dull", s_home.Solar!.Profile.Map(kw => kw * 0.3));
        OfferOutages both = OutageStudy.Of(s_home, s_terms with { WeatherYears = [dull] }).Offers[0];
        OfferOutages own = OutageStudy.Of(s_home, s_terms).Offers[0];
        OfferOutages other = OutageStudy.Of(s_home with { Solar = s_home.Solar with { Profile = dull.Solar } }, s_terms).Offers[0];
        Assert.Equal(["", "dull"], both.ByWeather.Select(y => y.Weather));
        Assert.Equal(own.Outcomes.LastingIntervals, both.ByWeather[0].Outcomes.LastingIntervals);
        Assert.Equal(other.Outcomes.LastingIntervals, both.ByWeather[1].Outcomes.LastingIntervals);
        Assert.Equal((own.Any.AtLeast(24) + other.Any.AtLeast(24)) / 2, both.Any.AtLeast(24));
        // The worst dates carry the name of their year, and the one told in detail is among them.
        Assert.All(both.Worst, w => Assert.Equal("dull", w.Weather));
        Assert.Equal(("dull", both.Worst[0].At), (both.Named.Weather, both.Named.At));
    }

    [Fact]
    public void SunInTheOutage_TakesThePlaceOfTheRecordedThereOnly()
    {
        OutageTerms at = s_terms with { NamedStart = new LocalDateTime(2025, 1, 10, 18, 0) };
        OfferOutages plain = OutageStudy.Of(s_home, at).Offers[0], none = OutageStudy.Of(s_home, at with { SolarInOutage = Profile.Zero(s_axis) }).Offers[0];
        Assert.Equal(plain.Named.StartKwh, none.Named.StartKwh);
        Assert.Equal(0, none.Named.Ledger.Sums.Kwh(LedgerColumn.SolarDcKw));
        Assert.Equal(none.Any.HoursLastedBy(0.5), OutageStudy.Of(s_home, at with { CloudFactor = 0 }).Offers[0].Any.HoursLastedBy(0.5));
        var axis = new TimeAxis(DateTimeZone.Utc, s_axis.Start, 60, 24);
        Assert.Contains("not on the axis", Assert.Throws<ArgumentException>(() => OutageStudy.Of(s_home, at with { SolarInOutage = Profile.Zero(axis) })).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void CloudByDay_IsOfTheOutageToldInDetail()
    {
        OutageTerms at = s_terms with { NamedStart = new LocalDateTime(2025, 1, 10, 18, 0), CloudFactorByDay = [0.5, 0] };
        ReadOnlySpan<double> sun = OutageStudy.Of(s_home, at).Offers[0].Named.Ledger[LedgerColumn.SolarDcKw];
        // Six hours of 4 kW at half on the first day, nothing on the second and third.
        double[] days = [Sum(sun[..24]), Sum(sun[24..48]), Sum(sun[48..])];
        Assert.Equal([12.0, 0.0, 0.0], days);

        static double Sum(ReadOnlySpan<double> kw)
        {
            double sum = 0;
            foreach (double one in kw) sum += one;
            return sum;
        }
    }

    [Fact]
    public void Storm_SeenComingLongEnough_StartsFullFromTheGrid()
    {
        OutageTerms at = s_terms with { NamedStart = new LocalDateTime(2025, 1, 10, 6, 0) };
        double Start(StartCharge charge, double lead) => OutageStudy.Of(s_home, at with { StartCharge = charge, StormLeadHours = lead }).Offers[0].Named.StartKwh;
        double everyday = Start(StartCharge.Everyday, 0);
        Assert.InRange(everyday, 1.9, 5);
        Assert.Equal(everyday, Start(StartCharge.Storm, 0), 12);
        Assert.Equal(10, Start(StartCharge.Storm, 12), 9);
        // The everyday run has been at its reserve since before five; one hour ahead the grid adds what the inverter passes, 5 kWh.
        Assert.Equal(everyday + 5, Start(StartCharge.Storm, 1), 9);
        Assert.Contains(OutageStudy.Of(s_home, at with { StartCharge = StartCharge.Storm }).Notes, n => n.Contains("12 h", StringComparison.Ordinal) && n.Contains("optimistic", StringComparison.Ordinal));
    }

    [Fact]
    public void TypicalYear_IsSaidToUnderstateSpells()
    {
        // TRADE §6.2 case 33 (common practice).
        Assert.Contains(OutageStudy.Of(s_home, s_terms with { IsTypicalYear = true }).Notes, n => n.Contains("cloudy spells may be understated", StringComparison.Ordinal));
        Assert.DoesNotContain(OutageStudy.Of(s_home, s_terms with { WeatherYears = [new WeatherYear("2", s_home.Solar!.Profile)], IsTypicalYear = false }).Notes, n => n.Contains("understated", StringComparison.Ordinal));
    }

    [Fact]
    public void MonthAndHour_OfTheStarts_AreTheirMedians()
    {
        OfferOutages offer = OutageStudy.Of(s_home, s_terms).Offers[0];
        int[] six = [.. Enumerable.Range(0, s_axis.Count).Where(i => i % 24 == 6).Select(i => offer.Outcomes.LastingIntervals[i])];
        Assert.Equal(new Survival(six, 120, 1).HoursLastedBy(0.5), offer.HalfLastByMonthAndHour[0][6]);
        Assert.All(offer.HalfLastByMonthAndHour.Skip(1), m => Assert.All(m, Assert.Null));
    }

    [Fact]
    public void Cautions_AreToldWithEveryResult()
    {
        OutageTerms generator = s_terms with { Rules = new OutageRules { Generator = new Generator { Kw = 5 } } };
        foreach ((OutageTerms terms, string words) in new[] { (s_terms, "A generator belongs outdoors"), (generator, "exhaust kills") })
        {
            string notes = string.Join('\n', OutageStudy.Of(s_home, terms).Notes);
            foreach (string said in (string[])["medical equipment", "interlock or transfer switch", "licensed electrician", "local codes", words])
                Assert.Contains(said, notes, StringComparison.Ordinal);
        }
    }
}
