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
}
