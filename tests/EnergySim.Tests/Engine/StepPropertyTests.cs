using System.Globalization;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.TestData;
using EnergySim.Time;
using EnergySim.Wiring;

namespace EnergySim.Tests.Engine;

/// <summary>What must hold in every interval of any run (ENGINE §5), on random plants, wiring, series and rows with a fixed seed.</summary>
public class StepPropertyTests
{
    private const int Cases = 1500;

    [Fact]
    public void Ledger_OnRandomCases_AgreesWithTheObviousStep() => FixedSeed.Check(RandomCase.Any, Cases, random =>
    {
        Ledger ledger = random.Run().Ledger();
        double stored = random.StartKwh;
        for (int i = 0; i < ledger.Axis.Count; i++)
        {
            Dictionary<string, double> expected = ObviousStep.OnGrid(
                random.Plant, random.Site, random.SetPoints[i], random.Load.Kw[i], random.SolarDc.Kw[i], random.SolarAc.Kw[i], ref stored, ledger.Axis.StepHours);
            foreach (LedgerColumn column in Enum.GetValues<LedgerColumn>())
                if (expected.TryGetValue(Ledger.NameOf(column), out double value) && !(Math.Abs(value - ledger[column][i]) <= 1e-8))
                    Assert.Fail(string.Create(CultureInfo.InvariantCulture, $"interval {i}, {column}: {ledger[column][i]} for {value}; {ledger.LimitsOf(i)}; {random.SetPoints[i]}; load {random.Load.Kw[i]:R} dc {random.SolarDc.Kw[i]:R} ac {random.SolarAc.Kw[i]:R} stored {stored:R}"));
            // The next interval starts from the engine's energy: a steep taper would blow a last-bit difference up, interval by interval.
            stored = ledger[LedgerColumn.StoredKwh][i];
        }
    });

    [Fact]
    public void Ledger_OnGrid_KeepsEveryBalanceAndBound() => FixedSeed.Check(RandomCase.Any, Cases, random => StepInvariants.Check(random, random.Run().Ledger()));

    [Fact]
    public void Ledger_OffGrid_KeepsEveryBalanceAndBound() => FixedSeed.Check(RandomCase.Any, Cases, random => StepInvariants.Check(random, random.Run(offGrid: true).Ledger(), offGrid: true));

    [Fact]
    public void Sums_OfARun_EqualTheSumsOfItsLedger() => FixedSeed.Check(RandomCase.Any, 300, random =>
    {
        foreach (bool offGrid in new[] { false, true })
        {
            Run run = random.Run(offGrid);
            RunSums sums = run.Sums();
            Ledger ledger = run.Ledger();
            foreach (LedgerColumn column in Enum.GetValues<LedgerColumn>().Where(c => c is not (LedgerColumn.StoredKwh or LedgerColumn.Dark)))
            {
                double sum = 0;
                foreach (double kw in ledger[column]) sum += kw;
                Assert.Equal(sum * ledger.Axis.StepHours, sums.Kwh(column), 9);
                Assert.Equal(sums.Kwh(column), ledger.Sums.Kwh(column));
            }
            Assert.Equal(ledger[LedgerColumn.StoredKwh][^1], sums.EndKwh);
            foreach (Limit limit in Enum.GetValues<Limit>())
            {
                int bound = 0;
                for (int i = 0; i < ledger.Axis.Count; i++)
                    if (ledger.LimitsOf(i).Split(';').Contains(Limits.NameOf(limit))) bound++;
                Assert.Equal(bound * ledger.Axis.StepHours, sums.BoundHours(limit));
            }
            double causes = sums.UnservedKwh.Energy + sums.UnservedKwh.Power + sums.UnservedKwh.Trip;
            Assert.Equal(sums.Kwh(LedgerColumn.UnservedKw), causes, 7);
        }
    });

    [Fact]
    public void Ledger_WhenTheFutureIsAltered_IsUnchangedUntilThen() => FixedSeed.Check(RandomCase.Any, 200, random =>
    {
        Ledger before = random.Run().Ledger();
        int half = before.Axis.Count / 2;
        double[] load = random.Load.Kw.ToArray();
        for (int i = half; i < load.Length; i++) load[i] = 9 - Math.Min(9, load[i]);
        Ledger after = (random with { Load = new Profile(before.Axis, load) }).Run().Ledger();
        foreach (LedgerColumn column in Enum.GetValues<LedgerColumn>())
            Assert.True(before[column][..half].SequenceEqual(after[column][..half]), $"{column} foresaw");
    });

    [Fact]
    public void Ledger_FourEqualQuarters_EqualOneHour() => FixedSeed.Check(RandomCase.Any, 300, random =>
    {
        // Without caps and tapers, with rows that neither buy nor sell from the battery, and with solar on one side only (on two, DC
        // charges first, and how much room it leaves depends on the step), an hour may be cut anywhere.
        var plant = random.Plant with { ChargeTaper = Taper.None, DischargeTaper = Taper.None, ChargeLimitKw = 99, DischargeLimitKw = 99, InverterKw = 99 };
        var site = new SiteLimits();
        SetPointRow[] rows = [.. random.SetPoints.Rows.ToArray().Select(r => r with { GridCeilingKwh = 0, SellDownKwh = double.PositiveInfinity })];
        var hourAxis = new TimeAxis(NodaTime.DateTimeZone.Utc, random.Load.Axis.Start, 60, random.Load.Axis.Count);
        Profile On(Profile p) => new(hourAxis, p.Kw);
        var hours = new Run(On(random.Load), On(random.SolarDc), null, plant, site, new SetPoints(rows, random.SetPoints.Picks), random.StartKwh);
        int[] picks = new int[hourAxis.Count * 4];
        for (int i = 0; i < picks.Length; i++) picks[i] = random.SetPoints.Picks[i / 4];
        var quarters = new Run(On(random.Load).Resampled(15), On(random.SolarDc).Resampled(15), null, plant, site, new SetPoints(rows, picks), random.StartKwh);
        RunSums one = hours.Sums(), four = quarters.Sums();
        foreach (LedgerColumn column in new[] { LedgerColumn.ImportKw, LedgerColumn.ExportKw, LedgerColumn.LoadKw, LedgerColumn.CurtailedDcKw, LedgerColumn.CellsToLoadKw, LedgerColumn.SolarDcToCellsKw, LedgerColumn.SolarToGridKw })
            Assert.Equal(one.Kwh(column), four.Kwh(column), 7);
        Assert.Equal(one.EndKwh, four.EndKwh, 7);
    });

    [Fact]
    public void Ledger_WithoutCells_BuysAndSellsTheDifference() => FixedSeed.Check(RandomCase.Any, 200, random =>
    {
        var bare = new RandomCase(Plant.Nothing, SiteLimits.None, random.Load, Profile.Zero(random.Load.Axis), random.SolarAc,
            SetPoints.Always(new SetPointRow(0, 0, 0, double.PositiveInfinity, double.PositiveInfinity), random.Load.Axis.Count), 0);
        Ledger ledger = bare.Run().Ledger();
        for (int i = 0; i < ledger.Axis.Count; i++)
        {
            double net = random.Load.Kw[i] - random.SolarAc.Kw[i];
            Assert.Equal(Math.Max(0, net), ledger[LedgerColumn.ImportKw][i], 10);
            Assert.Equal(Math.Max(0, -net), ledger[LedgerColumn.ExportKw][i], 10);
        }
    });
}
