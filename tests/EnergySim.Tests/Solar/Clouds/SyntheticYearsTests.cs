using EnergySim.Solar;
using NodaTime;

namespace EnergySim.Tests.Solar.Clouds;

public class SyntheticYearsTests
{
    private const double Persistence = 0.35;

    // Three years of a known autoregression around a known season.
    private static readonly DailyClearness s_sky = DailyClearness.Of(Skies.Of(new LocalDate(2021, 1, 1), Known(3 * 365)));

    [Fact]
    public void Persistence_OfAKnownSequence_IsFoundAgain() => Assert.Equal(Persistence, ClearnessModel.Of(s_sky).Persistence, 0.06);

    [Fact]
    public void Clearness_ManyYears_HasTheSequencesMeanSpreadAndPersistence()
    {
        var years = new SyntheticYears(ClearnessModel.Of(s_sky), 42, 2025);
        double[] all = [.. Enumerable.Range(0, 100).SelectMany(years.Clearness)], from = [.. s_sky.Days.Select(d => d.Clearness!.Value)];
        Assert.Equal(from.Average(), all.Average(), 0.01);
        Assert.Equal(Spread(from), Spread(all), 0.01);
        Assert.Equal(Lag(from), Lag(all), 0.05);
    }

    [Fact]
    public void Years_SameSeed_AreTheSame_InAnyOrder()
    {
        ClearnessModel model = ClearnessModel.Of(s_sky);
        SyntheticYears one = new(model, 9, 2025), other = new(model, 9, 2025);
        double[] third = other.Year(3).GlobalWPerM2;
        Assert.Equal(one.Year(0).GlobalWPerM2, other.Year(0).GlobalWPerM2);
        Assert.Equal(third, one.Year(3).GlobalWPerM2);
        Assert.NotEqual(third, one.Year(4).GlobalWPerM2);
        Assert.NotEqual(third, new SyntheticYears(model, 10, 2025).Year(3).GlobalWPerM2);
    }

    [Theory]
    [InlineData(2025, 365)]
    [InlineData(2028, 366)]
    public void Year_HasTheClearnessItWasGiven_AndSunOnlyByDay(int calendarYear, int days)
    {
        var years = new SyntheticYears(ClearnessModel.Of(s_sky), 5, calendarYear);
        WeatherSeries year = years.Year(2);
        DailyClearness sky = DailyClearness.Of(year);
        Assert.Equal(days, sky.Days.Count);
        Assert.Equal(new LocalDate(calendarYear, 1, 1), sky.Days[0].Date);
        double[] clearness = years.Clearness(2);
        for (int d = 0; d < days; d++) Assert.Equal(clearness[d], sky.Days[d].Clearness!.Value, 9);
        var track = new SunTrack(year.Place, year.Start, year.Step, year.Count);
        for (int i = 0; i < year.Count; i++)
        {
            Assert.True(year.GlobalWPerM2[i] >= 0 && year.DiffuseWPerM2[i] <= year.GlobalWPerM2[i] + 1e-9);
            if (track.UpFraction[i] == 0) Assert.Equal(0, year.GlobalWPerM2[i]);
        }
        Assert.Equal("synthetic year 2 of seed 5, fitted to made up", year.Source);
    }

    [Fact]
    public void Clearness_NeverLeavesTheRecordedRangeOfItsMonth()
    {
        var years = new SyntheticYears(ClearnessModel.Of(s_sky), 1, 2025);
        for (int y = 0; y < 20; y++)
        {
            double[] clearness = years.Clearness(y);
            for (int d = 0; d < clearness.Length; d++)
            {
                double[] near = [.. s_sky.Days.Where(s => Math.Abs(((s.Date.DayOfYear - 1 - d + 547) % 365) - 182) <= 15).Select(s => s.Clearness!.Value)];
                Assert.InRange(clearness[d], near.Min() - 1e-12, near.Max() + 1e-12);
            }
        }
    }

    [Fact]
    public void Of_LessThanAYear_Throws() =>
        Assert.Contains("Weather of a whole year is needed", Assert.Throws<ArgumentException>(() => ClearnessModel.Of(DailyClearness.Of(Skies.Of(new LocalDate(2025, 1, 1), Known(200))))).Message, StringComparison.Ordinal);

    [Fact]
    public void Year_NegativeIndex_Throws() => Assert.Throws<ArgumentOutOfRangeException>(() => new SyntheticYears(ClearnessModel.Of(s_sky), 1, 2025).Year(-1));

    private static double[] Known(int days)
    {
        var noise = new SeededNoise(3);
        double score = 0;
        var clearness = new double[days];
        for (int d = 0; d < days; d++)
        {
            score = (Persistence * score) + (Math.Sqrt(1 - (Persistence * Persistence)) * noise.Normal());
            clearness[d] = Math.Clamp(0.5 - (0.1 * Math.Cos(2 * Math.PI * d / 365)) + (0.12 * score), 0.04, 0.8);
        }
        return clearness;
    }

    private static double Spread(double[] values)
    {
        double mean = values.Average();
        return Math.Sqrt(values.Average(v => (v - mean) * (v - mean)));
    }

    private static double Lag(double[] values)
    {
        double mean = values.Average();
        return Enumerable.Range(1, values.Length - 1).Sum(i => (values[i] - mean) * (values[i - 1] - mean)) / values.Sum(v => (v - mean) * (v - mean));
    }
}
