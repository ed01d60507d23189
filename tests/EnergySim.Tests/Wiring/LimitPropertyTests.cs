using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.TestData;
using EnergySim.Tests.Engine;
using EnergySim.Wiring;

namespace EnergySim.Tests.Wiring;

/// <summary>What limits of the wiring do to any run.</summary>
public class LimitPropertyTests
{
    private const double Never = double.PositiveInfinity;

    // From the same energy, in one interval: a guard only takes output away.
    [Fact]
    public void GuardedBusbar_SameBreaker_GivesNoMoreOutput() => FixedSeed.Check(RandomCase.Any, 1000, random =>
    {
        Ledger guarded = random.Run().Ledger();
        double stored = random.StartKwh;
        for (int i = 0; i < guarded.Axis.Count; i++)
        {
            var one = new EnergySim.Time.TimeAxis(guarded.Axis.Zone, guarded.Axis.Start, guarded.Axis.StepMinutes, 1);
            Profile At(Profile p) => new(one, [p.Kw[i]]);
            var free = new Run(
                At(random.Load), At(random.SolarDc), At(random.SolarAc), random.Plant, random.Site with { BusbarKw = Never }, SetPoints.Always(random.SetPoints[i], 1),
                Math.Clamp(stored, random.Plant.LowestKwh, random.Plant.HighestKwh));
            Assert.True(guarded[LedgerColumn.InverterOutKw][i] <= free.Ledger()[LedgerColumn.InverterOutKw][0] + 1e-9, $"interval {i}");
            stored = guarded[LedgerColumn.StoredKwh][i];
        }
    });

    [Fact]
    public void Breaker_InAnyInterval_IsNeverExceeded() => FixedSeed.Check(RandomCase.Any, 1000, random =>
    {
        foreach (bool offGrid in new[] { false, true })
        {
            Ledger ledger = random.Run(offGrid).Ledger();
            for (int i = 0; i < ledger.Axis.Count; i++)
            {
                double output = ledger[LedgerColumn.InverterOutKw][i];
                Assert.True(output <= random.Site.InverterBreakerKw + 1e-9 && ledger[LedgerColumn.InverterInKw][i] <= random.Site.InverterBreakerKw + 1e-9);
                if (output > 0) Assert.True(output <= random.Site.BusbarKw + 1e-9, $"interval {i}: {output} kW on the busbar");
            }
        }
    });

    // Whatever is done under tight limits can be done under looser ones, at no greater cost: so the best that anyone could do with looser
    // limits costs no more. (A fixed strategy may do worse with more room; the bound can not.) Set-points that repeat a tight run are written
    // from its ledger and run under looser limits, without DC solar and tapers.
    [Fact]
    public void LooserLimits_CanDoAllThatTighterOnesDo_AtNoGreaterCost() => FixedSeed.Check(RandomCase.Any, 600, random =>
    {
        Plant plant = random.Plant with { ChargeTaper = Taper.None, DischargeTaper = Taper.None };
        var tight = new Run(random.Load, null, random.SolarAc, plant, random.Site with { RelievesImport = false }, random.SetPoints, random.StartKwh);
        Ledger ledger = tight.Ledger();
        var rows = new SetPointRow[ledger.Axis.Count];
        double before = random.StartKwh;
        for (int i = 0; i < rows.Length; i++)
        {
            double after = ledger[LedgerColumn.StoredKwh][i];
            bool charges = after > before + 1e-12, buysCharge = ledger[LedgerColumn.GridToCellsKw][i] > 0, sells = ledger[LedgerColumn.CellsToGridKw][i] > 0;
            rows[i] = charges
                ? new SetPointRow(plant.HighestKwh, after, buysCharge ? after : 0, Never, Never)
                : after < before - 1e-12 ? new SetPointRow(after, 0, 0, 0, sells ? after : Never) : new SetPointRow(plant.HighestKwh, 0, 0, Never, Never);
            before = after;
        }
        SiteLimits loose = tight.Site with
        {
            InverterBreakerKw = 1.5 * tight.Site.InverterBreakerKw,
            ImportKw = 1.5 * tight.Site.ImportKw,
            ExportKw = 1.5 * tight.Site.ExportKw,
            BusbarKw = 1.5 * tight.Site.BusbarKw,
        };
        Ledger again = new Run(random.Load, null, random.SolarAc, plant, loose, SetPoints.Of(rows), random.StartKwh).Ledger();
        for (int i = 0; i < rows.Length; i++)
        {
            Assert.Equal(ledger[LedgerColumn.StoredKwh][i], again[LedgerColumn.StoredKwh][i], 1e-6);
            Assert.True(Cost(again, i) <= Cost(ledger, i) + 1e-6, $"interval {i}: {Cost(again, i)} for {Cost(ledger, i)}");
        }

        // Any prices with buying dearer than selling, both above 0.
        static double Cost(Ledger ledger, int i) => (0.3 * ledger[LedgerColumn.ImportKw][i]) - (0.1 * ledger[LedgerColumn.ExportKw][i]);
    });
}
