using CsCheck;
using EnergySim.Solar;
using EnergySim.TestData;
using NodaTime;

namespace EnergySim.Tests.Solar.Clouds;

public class DarkSpellsTests
{
    private static readonly LocalDate s_newYear = new(2025, 1, 1);

    [Fact]
    public void Of_HandCase_FindsRunAndWindows()
    {
        DarkSpells spells = DarkSpells.Of(DailyClearness.Of(Skies.Of(s_newYear, 0.6, 0.2, 0.25, 0.29, 0.5, 0.1, 0.3, 0.2)));
        Assert.Equal((8, 5), (spells.Days, spells.DarkDays));
        Assert.Equal((new LocalDate(2025, 1, 2), 3), (spells.LongestRun!.Value.First, spells.LongestRun.Value.Days));
        Assert.Equal(new LocalDate(2025, 1, 4), spells.LongestRun.Value.Last);
        Assert.Equal((0.2 + 0.25 + 0.29) / 3, spells.LongestRun.Value.MeanClearness, 9);
        Assert.Equal([(6, 1), (6, 2), (6, 3), (2, 5), (2, 7)], spells.LeastClear.Select(w => (w.First.Day, w.Days)));
        Assert.Equal(0.2, spells.LeastClear[1].MeanClearness, 9);
        Assert.Null(spells.Notice);
    }

    [Fact]
    public void Of_NoDarkDay_HasNoRun() => Assert.Null(DarkSpells.Of(DailyClearness.Of(Skies.Of(s_newYear, 0.6, 0.3))).LongestRun);

    [Fact]
    public void Of_TypicalYear_SaysThatSpellsMayBeUnderstated()
    {
        WeatherSeries weather = Skies.Of(s_newYear, 0.6, 0.2);
        Assert.Contains("cloudy spells may be understated", DarkSpells.Of(DailyClearness.Of(weather with { IsTypicalYear = true })).Notice, StringComparison.Ordinal);
        Assert.Null(DarkSpells.Of(DailyClearness.Of(weather with { IsTypicalYear = true }, Skies.Of(s_newYear.PlusDays(2), 0.5))).Notice);
    }

    // The slow obvious reading: every window of every length looked at by itself.
    [Fact]
    public void Of_RandomSkies_AgreesWithLookingAtEachWindow()
    {
        Gen<(double[], bool[])> cases =
            from clearness in Gen.Double[0.02, 0.8].Array[1, 40]
            from breaks in Gen.Int[0, 9].Select(n => n == 0).Array[clearness.Length]
            select (clearness, breaks);
        FixedSeed.Check(cases, 300, c =>
        {
            (double[] clearness, bool[] breaks) = c;
            var stretches = new List<WeatherSeries>();
            LocalDate first = s_newYear;
            for (int from = 0, to; from < clearness.Length; from = to)
            {
                for (to = from + 1; to < clearness.Length && !breaks[to]; to++) { }
                stretches.Add(Skies.Of(first, clearness[from..to]));
                first = first.PlusDays(to - from + 1);
            }
            DailyClearness sky = DailyClearness.Of(stretches);
            DarkSpells spells = DarkSpells.Of(sky);
            // Rounding moves a clearness of exactly 0.3 to either side.
            clearness = [.. sky.Days.Select(d => d.Clearness!.Value)];
            var windows = new List<(int From, int Days)>();
            for (int from = 0; from < clearness.Length; from++)
                for (int to = from + 1; to <= clearness.Length && (to == from + 1 || !breaks[to - 1]); to++)
                    windows.Add((from, to - from));
            foreach (int days in (int[])[1, 2, 3, 5, 7, 14])
            {
                double[] means = [.. windows.Where(w => w.Days == days).Select(w => clearness[w.From..(w.From + days)].Average())];
                Assert.Equal(means.Length > 0, spells.LeastClear.Any(w => w.Days == days));
                if (means.Length > 0) Assert.Equal(means.Min(), spells.LeastClear.Single(w => w.Days == days).MeanClearness, 9);
            }
            int longest = windows.Where(w => clearness[w.From..(w.From + w.Days)].All(k => k < 0.3)).Select(w => w.Days).DefaultIfEmpty(0).Max();
            Assert.Equal(longest, spells.LongestRun?.Days ?? 0);
        });
    }
}
