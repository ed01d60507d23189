using EnergySim.Studies.Outages;
using EnergySim.Studies.Sweeps;

namespace EnergySim.Studies.Tests.Sweeps;

public class SweepStudyTests
{
    private static readonly SweepMeasure[] s_measures =
        [.. SweepMeasure.All.Where(m => m.Source is MeasureSource.Bills or MeasureSource.Flows)];

    private static readonly Home s_home = Demo.Home with
    {
        Load = Demo.Home.Load.Resampled(60),
        Solar = Demo.Home.Solar! with { Profile = Demo.Home.Solar.Profile.Resampled(60) },
    };

    private static SweepStudy Study(IReadOnlyList<SweepMeasure> measures, int points = 24)
    {
        var plan = new SweepPlan
        {
            Name = "test",
            Homes = ["demo"],
            Inputs = [new SweepInput { Name = "reserve", Path = "-", Values = new InputValues.Uniform(-0.2, 1) }],
            Design = SweepDesign.Sobol,
            Points = points,
            Outputs = [.. measures.Select(m => new SweepOutput(null, m))],
        };
        return new SweepStudy(plan, [.. s_home.Offers.Select(o => o.Name)], HomeOf);
    }

    private static SweptHome HomeOf(PlannedVariant variant) => SweptHome.Of(WithReserve(variant.Values[0]!.Value.Number!.Value), new OutageTerms());

    private static Home WithReserve(double reserve) =>
        s_home with { Offers = [.. s_home.Offers.Select(o => o with { Strategy = o.Strategy with { ReserveFraction = reserve } })] };

    [Fact]
    public void Rows_EveryFigure_IsTheComparisons()
    {
        SweepStudy study = Study(s_measures);
        IReadOnlyList<SweepRow> rows = study.Rows(0, study.Variants.Count, 2, TestContext.Current.CancellationToken);
        foreach (SweepRow row in rows.Where(r => r.Error is null).Take(4))
        {
            Comparison comparison = ComparisonStudy.Of(WithReserve(row.Variant.Values[0]!.Value.Number!.Value));
            foreach (ComparisonColumn column in comparison.Columns)
            {
                double? Of(string measure) => row.Outputs[study.Columns.ToList().FindIndex(c => c.Offer == column.Name && c.Measure.Name == measure)];
                Assert.Equal((double)column.AnnualBill, Of("annualBill"));
                Assert.Equal(column.OwnSupplyFraction, Of("ownSupplyFraction"));
                Assert.Equal(column.CurtailedKwh, Of("curtailedKwh"));
                if (column.BatteryUnits == 0) continue;
                Assert.Equal((double)column.AnnualSaving, Of("annualSaving"));
                Assert.Equal((double)column.AddedSaving, Of("addedSaving"));
                Assert.Equal(column.EquivalentFullCycles, Of("equivalentFullCycles"));
                Assert.Equal((double?)column.Price, Of("price"));
            }
        }
    }

    [Fact]
    public void Rows_AVariantThatCanNotBeRun_IsAnErrorInItsPlace()
    {
        SweepStudy study = Study([s_measures[0]]);
        IReadOnlyList<SweepRow> rows = study.Rows(0, study.Variants.Count, 2, TestContext.Current.CancellationToken);
        Assert.Equal(Enumerable.Range(0, rows.Count), rows.Select(r => r.Variant.Index));
        foreach (SweepRow row in rows)
        {
            bool fits = row.Variant.Values[0]!.Value.Number >= 0;
            Assert.Equal(fits, row.Error is null);
            Assert.Equal(fits, row.Outputs.All(o => o is not null));
            if (!fits) Assert.StartsWith("One battery: ", row.Error, StringComparison.Ordinal);
        }
        Assert.Contains(rows, r => r.Error is not null);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(5)]
    public void Rows_AnyCoresAndStretches_AreTheSame(int cores)
    {
        SweepStudy whole = Study([s_measures[0], s_measures[8]], 40), cut = Study([s_measures[0], s_measures[8]], 40);
        string[] one = [.. whole.Rows(0, 40, 1, TestContext.Current.CancellationToken).Select(Text)];
        string[] pieces = [.. cut.Rows(33, 7, cores, TestContext.Current.CancellationToken).Select(Text), .. cut.Rows(0, 33, cores, TestContext.Current.CancellationToken).Select(Text)];
        Assert.Equal(one, (string[])[.. pieces[7..], .. pieces[..7]]);
    }

    [Fact]
    public void Rows_YearsToComeAndOutages_AreTheirStudies()
    {
        SweepStudy study = Study([.. SweepMeasure.All.Where(m => m.Name is "netPresentValue" or "nineInTenLastHours")], 1);
        SweepRow row = Assert.Single(study.Rows(0, 1, 1, TestContext.Current.CancellationToken));
        Home home = WithReserve(row.Variant.Values[0]!.Value.Number!.Value);
        if (row.Error is not null) return;
        var lifetime = Studies.Lifetime.LifetimeStudy.Of(home);
        var outages = OutageStudy.Of(home, new OutageTerms());
        Assert.Equal([.. lifetime.Offers.Select(o => (double?)o.Indicators!.NetPresentValue), .. outages.Offers.Select(o => (double?)o.Any.HoursLastedBy(0.9))], row.Outputs);
    }

    private static string Text(SweepRow row) => $"{row.Variant.Index} {string.Join(' ', row.Outputs.Select(o => o is double v ? BitConverter.DoubleToInt64Bits(v) : 0))} {row.Error}";
}
