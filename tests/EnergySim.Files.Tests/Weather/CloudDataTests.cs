using EnergySim.Solar;
using EnergySim.TestData;
using NodaTime;

namespace EnergySim.Files.Tests.Weather;

/// <summary>Clock, clearness and dark spells of the open weather years.</summary>
public class CloudDataTests
{
    private const string Boston = "USA_MA_Boston-Logan.Intl.AP.725090_TMY3.epw", Golden = "USA_CO_Golden-NREL.724666_TMY3.epw";
    private const string NewYork = "nsrdb-nyc-2017.csv", NewYorkEpw = "nyc-2017-from-nsrdb-missingcodes.epw";

    private static WeatherReading Read(string file) => WeatherFile.Read(SharedData.DataPath("weather", file));

    [Theory]
    [InlineData(Boston)]
    [InlineData(Golden)]
    [InlineData(NewYork)]
    [InlineData(NewYorkEpw)]
    public void ClockCheck_OpenYears_AreInTime(string file)
    {
        WeatherReading reading = Read(file);
        ClockCheck check = ClockCheck.Of(reading.Weather);
        TestContext.Current.SendDiagnosticMessage("{0}: {1:0.000} h", file, check.HoursLate);
        Assert.True(check.IsGood, $"{check.HoursLate} h");
        Assert.DoesNotContain(reading.Notes, n => n.Contains("clock seems off", StringComparison.Ordinal));
    }

    // The clearness index by the closed formula of the day's extraterrestrial irradiation (Duffie and Beckman, Solar Engineering of Thermal
    // Processes, 2013, eq. 1.10.3) with Spencer's declination (1971, shared/reference/REFERENCE.md §1.3).
    [Theory]
    [InlineData(Boston)]
    [InlineData(NewYork)]
    public void Clearness_OpenYears_AgreesWithTheClosedFormula(string file)
    {
        DailyClearness sky = DailyClearness.Of(Read(file).Weather);
        Assert.Equal(365, sky.Days.Count);
        foreach (ClearnessDay day in sky.Days)
        {
            double b = 2 * Math.PI * (day.Date.DayOfYear - 1) / 365;
            double declination = 0.006918 - (0.399912 * Math.Cos(b)) + (0.070257 * Math.Sin(b)) - (0.006758 * Math.Cos(2 * b)) + (0.000907 * Math.Sin(2 * b)) - (0.002697 * Math.Cos(3 * b)) + (0.00148 * Math.Sin(3 * b));
            double latitude = sky.Sources[0].Place.LatitudeDegrees * Math.PI / 180, sunset = Math.Acos(-Math.Tan(latitude) * Math.Tan(declination));
            double above = 24 / Math.PI * 1367 * (1 + (0.033 * Math.Cos(2 * Math.PI * day.Date.DayOfYear / 365)))
                * ((Math.Cos(latitude) * Math.Cos(declination) * Math.Sin(sunset)) + (sunset * Math.Sin(latitude) * Math.Sin(declination)));
            Assert.Equal(1, day.ExtraterrestrialWhPerM2 / above, 0.025);
        }
    }

    // The days counted by hand from the raw rows of the file: sums of its column GHI.
    [Fact]
    public void DarkSpells_RecordedYear_AreThoseOfTheRawRows()
    {
        string[][] rows = [.. File.ReadLines(SharedData.DataPath("weather", NewYork)).Skip(3).Select(line => line.Split(','))];
        double[] sums = [.. rows.Chunk(24).Select(day => day.Sum(row => double.Parse(row[6], System.Globalization.CultureInfo.InvariantCulture)))];
        DailyClearness sky = DailyClearness.Of(Read(NewYork).Weather);
        Assert.Equal(sums, sky.Days.Select(d => d.GlobalWhPerM2));
        DarkSpells spells = DarkSpells.Of(sky);
        foreach (DarkWindow window in spells.LeastSun)
        {
            double[] means = [.. Enumerable.Range(0, 366 - window.Days).Select(from => sums[from..(from + window.Days)].Average() / 1000)];
            Assert.Equal(means.Min(), window.MeanKwhPerM2, 9);
            Assert.Equal(new LocalDate(2017, 1, 1).PlusDays(Array.IndexOf(means, means.Min())), window.First);
        }
        Assert.Null(spells.Notice);
        foreach (DarkWindow window in spells.LeastClear) TestContext.Current.SendDiagnosticMessage("{0} {1} {2:0.000}", window.Days, window.First, window.MeanClearness);
        TestContext.Current.SendDiagnosticMessage("longest {0} {1}, dark {2}", spells.LongestRun!.Value.First, spells.LongestRun.Value.Days, spells.DarkDays);
    }

    [Fact]
    public void DarkSpells_TypicalYear_GiveNotice() =>
        Assert.Equal(DarkSpells.TypicalNotice, DarkSpells.Of(DailyClearness.Of(Read(Boston).Weather)).Notice);

    // Within 0.02 of the month's own quantile and of real December days.
    [Fact]
    public void Spell_RecordedYear_IsMadeOfRealDays()
    {
        DailyClearness sky = DailyClearness.Of(Read(NewYork).Weather);
        CloudySpell spell = CloudySpell.AtQuantile(sky, Season.DecemberToFebruary, 3, 0.1);
        double[] sorted = [.. sky.Days.Where(d => d.Date.Month is 12 or 1 or 2).Select(d => d.Clearness!.Value).Order()];
        Assert.Equal(90, sorted.Length);
        Assert.Equal(sorted[8] + (0.9 * (sorted[9] - sorted[8])), spell.WantedClearness!.Value, 9);
        Assert.All(spell.Days, d => Assert.Contains(d, sky.Days));
        TestContext.Current.SendDiagnosticMessage("{0}; mean {1:0.000}", spell.Name, spell.MeanClearness);
    }

    // The generator against its file: mean, spread, lag-1 autocorrelation, share of dark days, and runs of them. One hundred made-up years scatter around
    // the one recorded; how far single years scatter is worked out from them, and the recorded one must lie among them.
    [Theory]
    [InlineData(NewYork)]
    [InlineData(Golden)]
    public void SyntheticYears_OpenYears_HaveTheirStatistics(string file)
    {
        DailyClearness sky = DailyClearness.Of(Read(file).Weather);
        var years = new SyntheticYears(ClearnessModel.Of(sky), 2017, 2017);
        double[] recorded = StatisticsOf([.. sky.Days.Select(d => d.Clearness!.Value)]);
        double[][] made = [.. Enumerable.Range(0, 100).Select(y => StatisticsOf(years.Clearness(y)))];
        string[] names = ["mean", "spread", "lag 1", "dark share", "mean dark run", "longest dark run", "least 3-day mean", "least 7-day mean"];
        for (int s = 0; s < names.Length; s++)
        {
            double mean = made.Average(m => m[s]), spread = Math.Sqrt(made.Average(m => Math.Pow(m[s] - mean, 2)));
            TestContext.Current.SendDiagnosticMessage("{0}, {1}: recorded {2:0.000}, made {3:0.000} ± {4:0.000}", file[..6], names[s], recorded[s], mean, spread);
            Assert.True(Math.Abs(recorded[s] - mean) <= 2.5 * spread, $"{names[s]}: recorded {recorded[s]}, made {mean} ± {spread}");
        }
        Assert.Equal(recorded[0], made.Average(m => m[0]), 0.01);
        Assert.Equal(recorded[1], made.Average(m => m[1]), 0.015);
    }

    private static double[] StatisticsOf(double[] clearness)
    {
        double mean = clearness.Average(), variance = clearness.Average(k => (k - mean) * (k - mean));
        double lag = Enumerable.Range(1, clearness.Length - 1).Average(i => (clearness[i] - mean) * (clearness[i - 1] - mean)) / variance;
        var runs = new List<int>();
        int run = 0;
        foreach (double k in clearness.Append(1))
        {
            if (k < 0.3) run++;
            else if (run > 0)
            {
                runs.Add(run);
                run = 0;
            }
        }
        double Least(int days) => Enumerable.Range(0, clearness.Length - days + 1).Min(i => clearness[i..(i + days)].Average());
        return [mean, Math.Sqrt(variance), lag, clearness.Count(k => k < 0.3) / (double)clearness.Length, runs.Average(), runs.Max(), Least(3), Least(7)];
    }

    // A spell of three dark days through a real roof: the same on the days it came from, and a roof under the laid weather gives what those days gave.
    [Fact]
    public void SpellWeather_UnderARoof_GivesThePowerOfItsDays()
    {
        WeatherSeries weather = Read(NewYork).Weather;
        DailyClearness sky = DailyClearness.Of(weather);
        CloudySpell spell = CloudySpell.Darkest(sky, 3);
        LocalDate on = spell.Days[0].Date;
        WeatherSeries laid = new SpellSolar(spell, sky).Weather(on);
        int first = spell.Days[0].FirstInterval;
        for (int i = 0; i < laid.Count; i++)
        {
            Assert.Equal(weather.AirCelsius[first + i], laid.AirCelsius[i]);
            Assert.Equal(weather.GlobalWPerM2[first + i], laid.GlobalWPerM2[i], 6.0);
        }
        Assert.Equal(spell.Days.Sum(d => d.GlobalWhPerM2), laid.GlobalWPerM2.Sum(), 6);
    }
}
