using EnergySim.Batches;
using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.TestData;
using EnergySim.Tests.Engine;

namespace EnergySim.Tests.Batches;

public class BatchTests
{
    [Theory]
    [InlineData(1, BatchKeeps.Meters)]
    [InlineData(1, BatchKeeps.GivenEnergy)]
    [InlineData(1, BatchKeeps.Flows)]
    [InlineData(4, BatchKeeps.Meters)]
    [InlineData(4, BatchKeeps.GivenEnergy)]
    [InlineData(4, BatchKeeps.Flows)]
    [InlineData(8, BatchKeeps.Meters)]
    [InlineData(8, BatchKeeps.GivenEnergy)]
    [InlineData(8, BatchKeeps.Flows)]
    public void Run_OnRandomVariants_GivesTheBitsOfEachAlone(int lanes, BatchKeeps keeps) => FixedSeed.Check(RandomBatch.Of(1, 33), 25, random => Compare(random, keeps, lanes));

    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    [InlineData(8)]
    public void Run_OnEveryNumberOfVariants_GivesTheBitsOfEachAlone(int lanes)
    {
        for (int n = 1; n <= 33; n++) FixedSeed.Check(RandomBatch.Of(n, n), 1, random => Compare(random, n % 4 == 0 ? BatchKeeps.Flows : BatchKeeps.Meters, lanes));
    }

    [Fact]
    public void Run_OnSeveralCores_GivesTheSameBits() => FixedSeed.Check(RandomBatch.Of(200, 260), 2, random =>
    {
        var batch = new Batch(random.Axis, random.Calendars);
        VariantSums[] one = Filled(batch, random.Variants), two = [.. one.Select(_ => batch.NewSums())];
        batch.Run(random.Variants, two, cores: 2);
        for (int i = 0; i < one.Length; i++) AssertSame(one[i], two[i], random);
    });

    [Theory]
    [InlineData(BatchKeeps.Meters)]
    [InlineData(BatchKeeps.GivenEnergy)]
    [InlineData(BatchKeeps.Flows)]
    public void Run_OnceItHasRun_AllocatesNothing(BatchKeeps keeps) => FixedSeed.Check(RandomBatch.Of(33, 33), 6, random =>
    {
        var batch = new Batch(random.Axis, random.Calendars, keeps);
        VariantSums[] sums = Filled(batch, random.Variants);
        long before = GC.GetAllocatedBytesForCurrentThread();
        batch.Run(random.Variants, sums);
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    });

    // Where buckets are all that is asked their sums are made while walking, and no column is written.
    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    [InlineData(8)]
    public void Run_OnAPlanThatAsksBucketsOnly_GivesTheBitsOfEachAlone(int lanes) => FixedSeed.Check(RandomBatch.Of(1, 70), 60, random =>
    {
        TariffCalendar plan = random.Calendars[^1];
        Assert.True(plan.AsksBucketsOnly);
        Assert.DoesNotContain(random.Calendars.SkipLast(1), c => c.AsksBucketsOnly);
        var batch = new Batch(random.Axis, [plan], BatchKeeps.Meters, lanes);
        VariantSums[] together = Filled(batch, random.Variants);
        for (int i = 0; i < together.Length; i++)
        {
            RunSums alone = random.Variants[i].ToRun().Sums();
            Assert.Equal(Bits(alone.EndKwh), Bits(together[i].EndKwh));
            AssertSame(MeterSums.Of(plan, alone.Meter), together[i].Meters[0]);
        }
        long before = GC.GetAllocatedBytesForCurrentThread();
        batch.Run(random.Variants, together);
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    });

    [Fact]
    public void Check_OnAFaultyVariant_NamesTheFault() => FixedSeed.Check(RandomBatch.Of(1, 1), 3, random =>
    {
        Variant good = random.Variants[0];
        good.Check(random.Axis);
        Assert.Contains("InverterEfficiency", Assert.Throws<ArgumentException>(() => (good with { Plant = good.Plant with { InverterEfficiency = 1.5 } }).Check(random.Axis)).Message, StringComparison.Ordinal);
        Assert.Contains("multiplied by -1", Assert.Throws<ArgumentException>(() => (good with { LoadFactor = -1 }).Check(random.Axis)).Message, StringComparison.Ordinal);
        Assert.Contains("axis", Assert.Throws<ArgumentException>(() => good.Check(random.Axis.WithStep(5))).Message, StringComparison.Ordinal);
        var batch = new Batch(random.Axis, random.Calendars);
        Assert.Throws<ArgumentException>(() => batch.Run([good], []));
        Assert.Throws<InvalidOperationException>(() => batch.NewSums().Flows);
    });

    [Fact]
    public void Compile_OnASharedClock_EqualsTheOwnOne() => FixedSeed.Check(RandomCase.Any, 5, any =>
    {
        Strategy first = new() { Base = Steering.PeakWindow, PeakWindows = [new(960, 1260)], Overnight = new OvernightCharge(new(0, 300), 0.5), Sale = new BatterySale(new(1200, 1260), 0.4) };
        Strategy other = first with { ReserveFraction = 0.35, Overnight = first.Overnight! with { ToFraction = 0.8 } };
        StrategyClock clock = StrategyClock.Of(first, any.Load.Axis);
        SetPoints own = other.Compile(any.Plant, any.Load.Axis), shared = other.Compile(any.Plant, clock);
        Assert.Equal(own.Rows.ToArray(), shared.Rows.ToArray());
        Assert.Equal(own.Picks.ToArray(), shared.Picks.ToArray());
        Assert.Throws<ArgumentException>(() => (first with { Overnight = null }).Compile(any.Plant, clock));
    });

    private static VariantSums[] Filled(Batch batch, Variant[] variants)
    {
        VariantSums[] sums = [.. variants.Select(_ => batch.NewSums())];
        batch.Run(variants, sums);
        return sums;
    }

    private static void Compare(RandomBatch random, BatchKeeps keeps, int lanes)
    {
        var batch = new Batch(random.Axis, random.Calendars, keeps, lanes);
        VariantSums[] together = Filled(batch, random.Variants);
        for (int i = 0; i < together.Length; i++)
        {
            RunSums alone = random.Variants[i].ToRun().Sums();
            Assert.Equal(Bits(alone.StartKwh), Bits(together[i].StartKwh));
            Assert.Equal(Bits(alone.EndKwh), Bits(together[i].EndKwh));
            for (int c = 0; c < random.Calendars.Count; c++) AssertSame(MeterSums.Of(random.Calendars[c], alone.Meter), together[i].Meters[c]);
            if (keeps >= BatchKeeps.GivenEnergy)
                Assert.Equal(Bits(alone.Kwh(LedgerColumn.CellsToLoadKw) + alone.Kwh(LedgerColumn.CellsToGridKw)), Bits(together[i].GivenKwh));
            if (keeps != BatchKeeps.Flows) continue;
            foreach (LedgerColumn flow in Enum.GetValues<LedgerColumn>().Except([LedgerColumn.StoredKwh, LedgerColumn.Dark]))
                Assert.True(alone.Kwh(flow) == together[i].Flows.Kwh(flow), $"variant {i}: {flow} {alone.Kwh(flow):R} {together[i].Flows.Kwh(flow):R}");
            foreach (LimitSite site in Enum.GetValues<LimitSite>())
                Assert.True(alone.WithheldKwh(site) == together[i].Flows.WithheldKwh(site), $"variant {i}: {site} {alone.WithheldKwh(site):R} {together[i].Flows.WithheldKwh(site):R}");
            foreach (Limit limit in Enum.GetValues<Limit>()) Assert.Equal(alone.BoundHours(limit), together[i].Flows.BoundHours(limit));
        }
    }

    private static void AssertSame(VariantSums one, VariantSums two, RandomBatch random)
    {
        Assert.Equal(Bits(one.EndKwh), Bits(two.EndKwh));
        for (int c = 0; c < random.Calendars.Count; c++) AssertSame(one.Meters[c], two.Meters[c]);
    }

    private static void AssertSame(MeterSums one, MeterSums two)
    {
        Assert.Equal(Bits(one.ImportKwh), Bits(two.ImportKwh));
        Assert.Equal(Bits(one.ExportKwh), Bits(two.ExportKwh));
        Assert.Equal(Bits(one.LoadKwh), Bits(two.LoadKwh));
        Assert.Equal(Bits(one.SolarKwh), Bits(two.SolarKwh));
        Assert.Equal(Bits(one.DemandKw), Bits(two.DemandKw));
        Assert.Equal(Bits(one.ChargedExportKwh), Bits(two.ChargedExportKwh));
        Assert.Equal(Bits(one.RewardedExportKwh), Bits(two.RewardedExportKwh));
        Assert.Equal(Bits([.. one.EventKwh.Cast<double>()]), Bits([.. two.EventKwh.Cast<double>()]));
        Assert.Equal(Bits([.. one.ExportValue.Cast<double>()]), Bits([.. two.ExportValue.Cast<double>()]));
    }

    private static long Bits(double value) => BitConverter.DoubleToInt64Bits(value);

    private static long[] Bits(ReadOnlySpan<double> values)
    {
        var bits = new long[values.Length];
        for (int i = 0; i < bits.Length; i++) bits[i] = Bits(values[i]);
        return bits;
    }
}
