using CsCheck;
using EnergySim.Batches;
using EnergySim.Engine;
using EnergySim.TestData;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Engine;

/// <summary>
/// Random plants of a thousand intervals, eight at a time: every invariant on the grid and off it, sums without a ledger = sums of the ledger, and
/// eight lanes = each alone to the last bit. 160 plants; ENERGYSIM_LONG=6250 asks it of a million.
/// </summary>
public class ManyPlantsTests
{
    private static readonly LedgerColumn[] s_flows = [.. Enum.GetValues<LedgerColumn>().Except([LedgerColumn.StoredKwh, LedgerColumn.Dark])];
    private static readonly LimitSite[] s_sites = Enum.GetValues<LimitSite>();

    private static readonly Gen<RandomCase[]> s_eight =
        from step in Gen.Int[0, 2].Select(n => 15 << n)
        let axis = new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2025, 3, 8, 0, 0), step, 1000)
        from cases in RandomCase.On(Gen.Const(axis)).Array[8]
        select cases;

    [Fact]
    public void Plants_OfAThousandIntervals_KeepEveryInvariantAndLanesAreEachAlone() => FixedSeed.Check(s_eight, 20, cases =>
    {
        var batch = new Batch(cases[0].Load.Axis, [], BatchKeeps.Flows, width: 8);
        Variant[] variants = [.. cases.Select(c => new Variant { Load = c.Load, SolarDc = c.SolarDc, SolarAc = c.SolarAc, Plant = c.Plant, Site = c.Site, SetPoints = c.SetPoints, StartKwh = c.StartKwh })];
        VariantSums[] together = [.. variants.Select(_ => batch.NewSums())];
        batch.Run(variants, together);
        for (int i = 0; i < cases.Length; i++)
        {
            Run run = cases[i].Run();
            Ledger ledger = run.Ledger();
            StepInvariants.Check(cases[i], ledger);
            RunSums alone = run.Sums();
            CheckSums(ledger, alone);
            CheckLane(alone, together[i]);
            Run dark = cases[i].Run(offGrid: true);
            Ledger offGrid = dark.Ledger();
            StepInvariants.Check(cases[i], offGrid, offGrid: true);
            CheckSums(offGrid, dark.Sums());
        }
    });

    private static void CheckSums(Ledger ledger, RunSums sums)
    {
        foreach (LedgerColumn flow in s_flows)
        {
            double kwh = 0;
            foreach (double kw in ledger[flow]) kwh += kw;
            kwh *= ledger.Axis.StepHours;
            if (!(Math.Abs(kwh - sums.Kwh(flow)) <= 1e-9 * Math.Max(1, kwh)) || sums.Kwh(flow) != ledger.Sums.Kwh(flow)) Assert.Fail($"{flow}: {kwh:R} {sums.Kwh(flow):R} {ledger.Sums.Kwh(flow):R}");
        }
        if (sums.EndKwh != ledger[LedgerColumn.StoredKwh][^1]) Assert.Fail($"end {sums.EndKwh:R} {ledger[LedgerColumn.StoredKwh][^1]:R}");
    }

    private static void CheckLane(RunSums alone, VariantSums lane)
    {
        if (alone.EndKwh != lane.EndKwh) Assert.Fail($"end {alone.EndKwh:R} {lane.EndKwh:R}");
        foreach (LedgerColumn flow in s_flows)
            if (alone.Kwh(flow) != lane.Flows.Kwh(flow)) Assert.Fail($"{flow} {alone.Kwh(flow):R} {lane.Flows.Kwh(flow):R}");
        foreach (LimitSite site in s_sites)
            if (alone.WithheldKwh(site) != lane.Flows.WithheldKwh(site)) Assert.Fail($"{site} {alone.WithheldKwh(site):R} {lane.Flows.WithheldKwh(site):R}");
    }
}
