using CsCheck;
using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Tariffs;
using EnergySim.TestData;
using EnergySim.Tests.Engine;
using EnergySim.Time;

namespace EnergySim.Tests.Billing;

/// <summary>Bills from buckets against bills by brute force from the ledger, to the cent, on random plans of every mechanic. 100 plans; ENERGYSIM_LONG=100 asks it of 10⁴.</summary>
public class BruteForceTests
{
    private static readonly Gen<(RandomPlan Plan, RandomCase Case)> s_cases =
        from plan in RandomPlan.Any
        from step in Gen.Bool.Select(halves => halves ? 30 : 60)
        from home in RandomCase.On(Gen.Const(TimeAxis.OfDates(Worked.Denver, RandomPlan.From, RandomPlan.Until, step)))
        select (plan, home);

    [Fact]
    public void Bills_OfBuckets_AreThoseOfTheLedger() => FixedSeed.Check(s_cases, 100, c =>
    {
        Ledger ledger = c.Case.Run().Ledger();
        BillSet bills = Biller.Bill(MeterSums.Of(new TariffCalendar(c.Plan.Tariff, ledger.Axis, c.Plan.Account), c.Case.Run().Sums().Meter));
        // Nothing of the engine's sums is asked: import and export are the ledger's, load and solar made of its columns.
        double[] load = new double[ledger.Axis.Count], solar = new double[ledger.Axis.Count];
        for (int i = 0; i < load.Length; i++)
        {
            load[i] = ledger[LedgerColumn.LoadKw][i] + ledger[LedgerColumn.StandbyKw][i];
            solar[i] = ledger[LedgerColumn.SolarAcKw][i] - ledger[LedgerColumn.CurtailedAcKw][i]
                + (c.Case.Plant.InverterEfficiency * (ledger[LedgerColumn.SolarDcKw][i] - ledger[LedgerColumn.ClippedInputKw][i] - ledger[LedgerColumn.CurtailedDcKw][i]));
        }
        Assert.Equal(bills.Total, Biller.Total(MeterSums.Of(new TariffCalendar(c.Plan.Tariff, ledger.Axis, c.Plan.Account), c.Case.Run().Sums().Meter)));
        List<decimal> expected = ObviousBiller.Totals(c.Plan, ledger.Axis, ledger[LedgerColumn.ImportKw], ledger[LedgerColumn.ExportKw], load, solar);
        if (!expected.SequenceEqual(bills.Bills.Select(b => b.Total)))
            Assert.Fail($"{string.Join(' ', bills.Bills.Select(b => b.Total))} for {string.Join(' ', expected)}: {string.Join(" | ", c.Plan.Tariff.Versions.Select(v => $"{v.Effective} {v.Export}"))}\n{string.Join('\n', bills.Bills.SelectMany(b => b.Lines))}");
    });
}
