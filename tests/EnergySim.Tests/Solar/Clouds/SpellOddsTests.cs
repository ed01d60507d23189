using EnergySim.Solar;
using NodaTime;

namespace EnergySim.Tests.Solar.Clouds;

public class SpellOddsTests
{
    // The slow obvious way: each made-up year as weather, its dark spells found as those of a file, and the years sorted.
    [Fact]
    public void Of_ThirtyYears_AreThoseOfTheirWeather()
    {
        double[] clearness = [.. Enumerable.Range(0, 365).Select(d => 0.05 + (0.7 * (d * 0.618034 % 1)))];
        ClearnessModel model = ClearnessModel.Of(DailyClearness.Of(Skies.Of(new LocalDate(2025, 1, 1), clearness)));
        SpellOdds odds = SpellOdds.Of(model, 11, 30);
        var years = new SyntheticYears(model, 11, 2025);
        DarkSpells[] each = [.. Enumerable.Range(0, 30).Select(y => DarkSpells.Of(DailyClearness.Of(years.Year(y))))];
        for (int l = 0; l < 6; l++)
        {
            double[] sorted = [.. each.Select(s => s.LeastClear[l].MeanClearness).Order()];
            Assert.Equal((sorted[14] + sorted[15]) / 2, odds.LeastClear[l].OrdinaryClearness, 9);
            Assert.Equal(sorted[2] + (0.9 * (sorted[3] - sorted[2])), odds.LeastClear[l].OneInTenClearness, 9);
        }
        double[] runs = [.. each.Select(s => (double)s.LongestRun!.Value.Days).Order()];
        Assert.Equal((runs[14] + runs[15]) / 2, odds.OrdinaryRunDays);
        Assert.Equal(runs[26] + (0.1 * (runs[27] - runs[26])), odds.OneInTenRunDays, 9);
    }

    [Fact]
    public void Of_NoYear_Throws()
    {
        double[] clearness = [.. Enumerable.Range(0, 365).Select(d => 0.5)];
        ClearnessModel model = ClearnessModel.Of(DailyClearness.Of(Skies.Of(new LocalDate(2025, 1, 1), clearness)));
        Assert.Equal(0, double.IsNaN(model.Persistence) ? 1 : 0);
        Assert.Throws<ArgumentOutOfRangeException>(() => SpellOdds.Of(model, 1, 0));
    }
}
