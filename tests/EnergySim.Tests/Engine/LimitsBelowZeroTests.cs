using EnergySim.Batches;
using EnergySim.Engine;
using EnergySim.TestData;

namespace EnergySim.Tests.Engine;

/// <summary>A site's limit below zero lets through nothing, as one of zero does, alone and in lanes.</summary>
public class LimitsBelowZeroTests
{
    [Theory]
    [InlineData(-1, double.PositiveInfinity)]
    [InlineData(double.PositiveInfinity, -1)]
    [InlineData(-3, -3)]
    public void Run_WithALimitBelowZero_IsThatOfZero(double exportKw, double breakerKw) => FixedSeed.Check(RandomCase.Any, 40, any =>
    {
        RandomCase below = any with { Site = any.Site with { ExportKw = exportKw, InverterBreakerKw = breakerKw } };
        RandomCase zero = any with { Site = any.Site with { ExportKw = Math.Max(0, exportKw), InverterBreakerKw = Math.Max(0, breakerKw) } };
        Ledger one = below.Run().Ledger(), two = zero.Run().Ledger();
        foreach (LedgerColumn column in Enum.GetValues<LedgerColumn>()) Assert.Equal(two[column].ToArray(), one[column].ToArray());
        var batch = new Batch(any.Load.Axis, [], BatchKeeps.Meters);
        VariantSums[] sums = [batch.NewSums(), batch.NewSums()];
        batch.Run([Variant.Of(below.Run()), Variant.Of(zero.Run())], sums);
        Assert.Equal((one.Sums.EndKwh, one.Sums.EndKwh), (sums[0].EndKwh, sums[1].EndKwh));
    });
}
