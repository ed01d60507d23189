using EnergySim.Engine;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.TestData;

namespace EnergySim.Tests.Engine;

public class StormStartsTests
{
    [Fact]
    public void Of_RandomCases_IsTheEverydayRunWithTheStormRowsBeforeTheStart() => FixedSeed.Check(RandomCase.Any, 60, random =>
    {
        Run everyday = random.Run();
        int count = random.Load.Axis.Count, lead = Math.Min(count, 1 + (count % 29));
        double full = random.Plant.HighestKwh;
        SetPoints storm = SetPoints.Always(new SetPointRow(full, full, full, double.PositiveInfinity, double.PositiveInfinity), count);
        double[] starts = StormStarts.Of(everyday, storm, lead);
        Ledger ledger = everyday.Ledger();
        for (int start = lead; start < count; start += 7)
        {
            // The slow way: the lead as a run of its own, from what the everyday run held at its beginning.
            var axis = new EnergySim.Time.TimeAxis(random.Load.Axis.Zone, random.Load.Axis.StartOf(start - lead), random.Load.Axis.StepMinutes, lead);
            int first = start - lead;
            Profile Part(Profile whole) => new(axis, whole.Kw.Slice(first, lead));
            double held = first == 0 ? ledger.Sums.StartKwh : ledger[LedgerColumn.StoredKwh][first - 1];
            double expected = new Run(Part(random.Load), Part(random.SolarDc), Part(random.SolarAc), random.Plant, random.Site, SetPoints.Always(storm[0], lead), held).Sums().EndKwh;
            Assert.Equal(expected, starts[start], 12);
        }
    });

    [Fact]
    public void Of_NoLead_IsWhatTheEverydayRunHeld() => FixedSeed.Check(RandomCase.Any, 5, random =>
    {
        Run everyday = random.Run();
        Ledger ledger = everyday.Ledger();
        Assert.Equal([ledger.Sums.StartKwh, .. ledger[LedgerColumn.StoredKwh][..^1]], StormStarts.Of(everyday, random.SetPoints, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => StormStarts.Of(everyday, random.SetPoints, -1));
        Assert.Throws<ArgumentException>(() => StormStarts.Of(random.Run(offGrid: true), random.SetPoints, 1));
    });
}
