using EnergySim.Studies.Sweeps;

namespace EnergySim.Studies.Tests.Sweeps;

public class MattersTests
{
    private static readonly InputValues.Uniform s_turn = new(-Math.PI, Math.PI);

    private static SweepTable Table(SweepPlan plan, Func<double[], double> model, double own = double.NaN)
    {
        plan = plan with { Homes = ["home"], Tariffs = [] };
        var column = new SweepColumn("offer.annualSaving", "offer", plan.Outputs[0].Measure);
        string? Own(PlannedVariant v, int i) => double.IsNaN(own) ? null : own.ToString(System.Globalization.CultureInfo.InvariantCulture);
        var table = new SweepTable(plan, [column], Own);
        for (int i = 0; i < table.Variants.Count; i++)
            table.Take(i, [model([.. Enumerable.Range(0, plan.Inputs.Count).Select(n => table.Input(n, 0, i))])]);
        return table;
    }

    // Ishigami's function with a = 7, b = 0.1; indices in closed form: V = a²/8 + bπ⁴/5 + b²π⁸/18 + 1/2, V1 = (1 + bπ⁴/5)²/2, V2 = a²/8, V13 = 8b²π⁸/225
    // (Ishigami and Homma 1990; Saltelli and others, Global Sensitivity Analysis, 2008: 0.3139, 0.4424, 0; totals 0.5576, 0.4424, 0.2437).
    [Fact]
    public void SobolIndices_Ishigami_AreTheKnownOnes()
    {
        SweepTable table = Table(SweepVariantsTests.Plan(SweepDesign.SobolIndices, 8192, s_turn, s_turn, s_turn),
            x => Math.Sin(x[0]) + (7 * Math.Pow(Math.Sin(x[1]), 2)) + (0.1 * Math.Pow(x[2], 4) * Math.Sin(x[0])));
        SobolIndices indices = SobolIndices.Of(table, 0, 0)!;
        Assert.Equal(3.5, indices.Mean, 0.01);
        Assert.Equal(13.8446, indices.Variance, 0.05);
        (string, double, double)[] known = [("i0", 0.3139, 0.5576), ("i1", 0.4424, 0.4424), ("i2", 0, 0.2437)];
        Assert.Equal(["i0", "i1", "i2"], indices.Inputs.Select(i => i.Input));
        foreach ((string name, double first, double total) in known)
        {
            SobolIndex index = indices.Inputs.Single(i => i.Input == name);
            Assert.Equal(first, index.First, 0.01);
            Assert.Equal(total, index.Total, 0.01);
            Assert.InRange(first, index.FirstBand.Low, index.FirstBand.High);
            Assert.InRange(total, index.TotalBand.Low, index.TotalBand.High);
        }
    }

    // A sum of independent inputs: each stands for its own share of the variance, 9 and 1 parts of 10, and for nothing beside it.
    [Fact]
    public void SobolIndices_ASum_HasNoInteraction()
    {
        var one = new InputValues.Uniform(0, 1);
        SobolIndices indices = SobolIndices.Of(Table(SweepVariantsTests.Plan(SweepDesign.SobolIndices, 4096, one, one), x => (3 * x[0]) + x[1]), 0, 0)!;
        foreach ((string name, double share) in ((string, double)[])[("i0", 0.9), ("i1", 0.1)])
        {
            SobolIndex index = indices.Inputs.Single(i => i.Input == name);
            Assert.Equal(share, index.First, 0.005);
            Assert.Equal(share, index.Total, 0.005);
        }
    }

    [Fact]
    public void SobolIndices_AConstant_HasNone() =>
        Assert.Null(SobolIndices.Of(Table(SweepVariantsTests.Plan(SweepDesign.SobolIndices, 64, s_turn, s_turn), _ => 5), 0, 0));

    [Fact]
    public void SobolIndices_ErrorsInAnExchange_LeaveThePairOut()
    {
        var one = new InputValues.Uniform(0, 1);
        SobolIndices indices = SobolIndices.Of(Table(SweepVariantsTests.Plan(SweepDesign.SobolIndices, 1024, one, one), x => x[0] > 0.99 ? double.NaN : x[0]), 0, 0)!;
        Assert.InRange(indices.Points, 950, 1010);
        Assert.Equal(1, indices.Inputs[0].First, 0.01);
    }

    // A proportional model has elasticity exactly 1, an inverse one −1 by central differences of small steps (definition; reference values, section 11).
    [Fact]
    public void Tornado_ProportionalModel_HasElasticityOne()
    {
        InputValues near = new InputValues.Listed([SweepValue.Of(9), SweepValue.Of(11)]), far = new InputValues.Listed([SweepValue.Of(5), SweepValue.Of(20)]);
        Tornado tornado = Tornado.Of(Table(SweepVariantsTests.Plan(SweepDesign.OneAtATime, 0, near, far), x => 4 * x[0], own: 10), 0, 0)!;
        Assert.Equal(40, tornado.Likely);
        Assert.Equal(("i0", 36.0, 44.0, "9", "11"), (tornado.Bars[0].Input, tornado.Bars[0].Low, tornado.Bars[0].High, tornado.Bars[0].LowAt, tornado.Bars[0].HighAt));
        Assert.Equal(1, tornado.Bars[0].Elasticity!.Value, 1e-12);
        Assert.Equal(0, tornado.Bars[1].Elasticity!.Value, 1e-12);
    }

    [Fact]
    public void Tornado_Bars_StandByTheirLength()
    {
        InputValues list = new InputValues.Listed([SweepValue.Of(1), SweepValue.Of(3)]);
        Tornado tornado = Tornado.Of(Table(SweepVariantsTests.Plan(SweepDesign.OneAtATime, 0, list, list, list), x => x[0] - (10 * x[1]) + (4 * x[2]), own: 2), 0, 0)!;
        Assert.Equal(["i1", "i2", "i0"], tornado.Bars.Select(b => b.Input));
        Assert.Equal(("3", -20.0, "1", 0.0), (tornado.Bars[0].LowAt, tornado.Bars[0].Low, tornado.Bars[0].HighAt, tornado.Bars[0].High));
    }

    [Fact]
    public void BreakEvenContour_APlane_IsZeroOnItsLine()
    {
        InputValues along = new InputValues.Listed([.. new[] { 3, 1, 2, 4 }.Select(v => SweepValue.Of(v))]), up = new InputValues.Listed([.. new[] { 0, 10, 20 }.Select(v => SweepValue.Of(v))]);
        BreakEvenContour contour = BreakEvenContour.Of(Table(SweepVariantsTests.Plan(SweepDesign.Grid, 0, along, up), x => (5 * x[0]) + x[1] - 17), 0, 0)!;
        Assert.Equal([1, 2, 3, 4], contour.AlongAt);
        Assert.Equal(-12, contour.Output[0][0]);
        Assert.Equal(23, contour.Output[2][3]);
        Assert.NotEmpty(contour.Zero);
        foreach (((double along, double up) from, (double along, double up) to) in contour.Zero)
        {
            Assert.Equal(17, (5 * from.along) + from.up, 1e-9);
            Assert.Equal(17, (5 * to.along) + to.up, 1e-9);
        }
    }

    [Fact]
    public void Dependence_ASum_RisesWithEachInput()
    {
        var one = new InputValues.Uniform(0, 1);
        SweepTable table = Table(SweepVariantsTests.Plan(SweepDesign.LatinHypercube, 2000, one, one), x => (3 * x[0]) + x[1]);
        Dependence dependence = Dependence.Of(table, 0, 0, 0)!;
        Assert.Equal(20, dependence.Points.Count);
        foreach (DependencePoint point in dependence.Points)
        {
            Assert.Equal((3 * point.Input) + 0.5, point.Mean, 0.1);
            Assert.InRange(point.Low, point.Mean - 0.6, point.Mean - 0.3);
        }
    }
}
