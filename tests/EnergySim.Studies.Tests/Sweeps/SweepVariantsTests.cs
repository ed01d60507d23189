using EnergySim.Studies.Sweeps;

namespace EnergySim.Studies.Tests.Sweeps;

public class SweepVariantsTests
{
    private static readonly SweepOutput s_saving = new(null, SweepMeasure.All.First(m => m.Name == "annualSaving"));

    internal static SweepPlan Plan(SweepDesign design, int points, params InputValues[] values) => new()
    {
        Name = "test",
        Homes = ["a", "b"],
        Tariffs = ["x", "y", "z"],
        Inputs = [.. values.Select((v, i) => new SweepInput { Name = $"i{i}", Path = $"offers.1.i{i}", Values = v })],
        Design = design,
        Points = points,
        Outputs = [s_saving],
    };

    private static InputValues.Listed List(params double[] values) => new([.. values.Select(SweepValue.Of)]);

    [Fact]
    public void Grid_EveryCombination_StandsOnceInOrder()
    {
        var variants = new SweepVariants(Plan(SweepDesign.Grid, 0, List(1, 2, 3), List(10, 20)));
        Assert.Equal(36, variants.Count);
        Assert.Equal([(1, 10), (1, 20), (2, 10), (2, 20), (3, 10), (3, 20)], Enumerable.Range(0, 6).Select(i => (variants[i].Values[0]!.Value.Number!.Value, variants[i].Values[1]!.Value.Number!.Value)));
        Assert.Equal((0, 1, 6), (variants[6].Home, variants[6].Tariff, variants[6].Index));
        Assert.Equal((1, 2), (variants[35].Home, variants[35].Tariff));
    }

    [Fact]
    public void OneAtATime_FirstTheHome_ThenEachInputAlone()
    {
        var variants = new SweepVariants(Plan(SweepDesign.OneAtATime, 0, List(1, 2), new InputValues.Uniform(0, 10)));
        Assert.Equal(5, variants.PerHome);
        Assert.Equal(["/", "1/", "2/", "/1", "/9"], Enumerable.Range(0, 5).Select(i => $"{variants[i].Values[0]?.Text}/{variants[i].Values[1]?.Text}"));
    }

    // Each of n equal shares of every input holds exactly one point (the definition; reference values, section 11).
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(7)]
    [InlineData(100)]
    [InlineData(4097)]
    public void LatinHypercube_EveryShare_IsMetOnce(int points)
    {
        var variants = new SweepVariants(Plan(SweepDesign.LatinHypercube, points, new InputValues.Uniform(0, 1), new InputValues.Uniform(0, 1), new InputValues.Uniform(0, 1)));
        for (int input = 0; input < 3; input++)
            Assert.Equal(points, Enumerable.Range(0, points).Select(i => (int)(variants.ShareOf(i, input) * points)).Distinct().Count());
    }

    [Fact]
    public void SobolIndices_Exchanges_TakeOneInputOfTheSecondPoint()
    {
        var variants = new SweepVariants(Plan(SweepDesign.SobolIndices, 16, new InputValues.Uniform(0, 1), new InputValues.Uniform(0, 1), new InputValues.Uniform(0, 1)));
        Assert.Equal(16 * 5, variants.PerHome);
        for (int pair = 0; pair < 16; pair++)
            for (int exchanged = 0; exchanged < 3; exchanged++)
                for (int input = 0; input < 3; input++)
                    Assert.Equal(variants.ShareOf((pair * 5) + (input == exchanged ? 1 : 0), input), variants.ShareOf((pair * 5) + 2 + exchanged, input));
    }

    [Theory]
    [InlineData(SweepDesign.LatinHypercube)]
    [InlineData(SweepDesign.Sobol)]
    public void SampledDesign_TheSeed_DeterminesEveryVariant(SweepDesign design)
    {
        SweepPlan plan = Plan(design, 50, new InputValues.Normal(0, 1), new InputValues.Uniform(0, 1));
        string Text(SweepPlan p, int i) => string.Join(' ', new SweepVariants(p)[i].Values.Select(v => v!.Value.Text));
        for (int i = 0; i < 50; i++)
        {
            Assert.Equal(Text(plan, i), Text(plan, i));
            Assert.NotEqual(Text(plan, i), Text(plan with { Seed = 2 }, i));
        }
    }

    [Fact]
    public void SeededOrder_AnyLength_HoldsEachPlaceOnce()
    {
        foreach (int count in (int[])[1, 2, 3, 4, 5, 15, 16, 17, 63, 64, 65, 1000, 4096, 10_007])
        {
            var order = new SeededOrder(count, 7);
            int[] places = [.. Enumerable.Range(0, count).Select(order.At)];
            Assert.Equal(count, places.Distinct().Count());
            Assert.All(places, p => Assert.InRange(p, 0, count - 1));
            if (count >= 1000) Assert.InRange(Enumerable.Range(0, count).Average(i => Math.Abs(places[i] - i)) / count, 0.3, 0.37);
        }
    }

    [Fact]
    public void FaultOf_PlansThatDoNotFit_SaySo()
    {
        Assert.Equal("A grid walks lists and ranges; i0 is a distribution.", SweepVariants.FaultOf(Plan(SweepDesign.Grid, 0, new InputValues.Uniform(0, 1))));
        Assert.Equal("A sampled design needs its number of points.", SweepVariants.FaultOf(Plan(SweepDesign.Sobol, 0, new InputValues.Uniform(0, 1))));
        Assert.Equal("A Sobol sequence serves 16 inputs here; the plan has 17.", SweepVariants.FaultOf(Plan(SweepDesign.SobolIndices, 4, [.. Enumerable.Repeat(new InputValues.Uniform(0, 1), 17)])));
        Assert.StartsWith("The plan has 1,500,000,000 variants", SweepVariants.FaultOf(Plan(SweepDesign.Sobol, 250_000_000, new InputValues.Uniform(0, 1))), StringComparison.Ordinal);
    }
}
