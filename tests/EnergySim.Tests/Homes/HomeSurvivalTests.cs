using System.Text.Json;
using EnergySim.Engine;
using EnergySim.Profiles;

namespace EnergySim.Tests.Homes;

/// <summary>Hours lasted from every start, against the independent answers of shared/data/homes ("survival").</summary>
public class HomeSurvivalTests
{
    [Fact]
    public void EveryStart_OfTheHomesWithSurvivals_LastsAsTheIndependentAnswerSays()
    {
        int homes = 0;
        for (int number = 1; number <= HomeCase.Count; number++)
        {
            HomeCase home = HomeCase.Read(number);
            if (!home.Definition.TryGetProperty("survival", out JsonElement asked) || asked.ValueKind != JsonValueKind.Object) continue;
            homes++;
            // "cloud" is the share of the sun that is left: 0 = none.
            double cloud = asked.GetProperty("cloud").GetDouble(), kept = asked.GetProperty("kept").GetDouble();
            int horizon = (int)(asked.GetProperty("horizon_h").GetDouble() * 60 / home.Axis.StepMinutes);
            Profile Sun(Profile whole) => whole.Map(kw => kw * cloud);
            var offGrid = new Run(home.Load.Map(kw => kw * kept), Sun(home.SolarDc), Sun(home.SolarAc), home.Plant, home.Site, null, null, offGrid: true);
            Ledger everyday = home.Run.Ledger();
            double[] starts = [everyday.Sums.StartKwh, .. everyday[LedgerColumn.StoredKwh][..^1]];
            StartOutcomes outcomes = new EveryStart(offGrid, horizon).Walk(starts);
            double[] expected = [.. home.Expected.GetProperty("survival").GetProperty("lasting_h").EnumerateArray().Select(h => h.ValueKind == JsonValueKind.Null ? 48 : h.GetDouble())];
            double[] actual = [.. outcomes.LastingIntervals.Select(n => n * outcomes.StepHours)];
            Assert.True(expected.SequenceEqual(actual), $"Home {number}, cloud {cloud}:\n{string.Join(' ', expected)}\n{string.Join(' ', actual)}");
        }
        Assert.Equal(9, homes);
    }
}
