using CsCheck;
using EnergySim.Billing;
using EnergySim.Tariffs;
using EnergySim.TestData;

namespace EnergySim.Tests.Billing;

/// <summary>Rounding, half away from zero (common practice): where and to what the plan says.</summary>
public class RoundingTests
{
    // 100 kWh of three parts: 0.334, 0.334 and 0.344, together 1.012.
    private static readonly TariffVersion s_plan = Worked.Flat(new PricePart("a", 0.00334m), new PricePart("b", 0.00334m), new PricePart("c", 0.00344m));

    [Theory]
    [InlineData(false, "0.01", "0.33 0.33 0.34", "1.00")]
    [InlineData(true, "0.01", "0.33 0.33 0.34 0.01", "1.01")]
    [InlineData(true, "0.05", "0.33 0.33 0.34", "1.00")]
    [InlineData(true, "1", "0.33 0.33 0.34", "1.00")]
    [InlineData(false, "0.05", "0.35 0.35 0.35", "1.05")]
    [InlineData(false, "0.001", "0.334 0.334 0.344", "1.012")]
    public void Bill_RoundedWhereThePlanSays_SumsToItsTotal(bool ofTotal, string to, string lines, string total)
    {
        decimal step = decimal.Parse(to, System.Globalization.CultureInfo.InvariantCulture);
        Bill bill = Worked.BillOf(Worked.June(), Worked.Even(Worked.June(), 100), s_plan with { Rounding = new BillRounding(ofTotal, step) });
        Assert.Equal(lines.Split(' ').Select(l => decimal.Parse(l, System.Globalization.CultureInfo.InvariantCulture)), bill.Lines.Select(l => l.Amount));
        Assert.Equal(decimal.Parse(total, System.Globalization.CultureInfo.InvariantCulture), bill.Total);
        Assert.Equal(1.012m, bill.Unrounded);
    }

    [Fact]
    public void Of_HalfAStep_GoesAwayFromZero()
    {
        var rounding = new BillRounding(true, 0.05m);
        Assert.Equal((0.05m, -0.05m, 0.00m), (rounding.Of(0.025m), rounding.Of(-0.025m), rounding.Of(0.0249m)));
        // Nothing of the step it was made from is left in a changed one.
        Assert.Equal((0.05m, 0.03m), ((BillRounding.LinesToTheCent with { To = 0.05m }).Of(0.026m), (rounding with { To = 0.01m }).Of(0.026m)));
    }

    // The quick way of the usual amount against the general one: every scale, halves and their neighbours, and what is too long for it.
    [Fact]
    public void ToTheCent_OnAnyAmount_IsTheGeneralRounding()
    {
        static void Check(decimal amount)
        {
            decimal expected = Math.Round(amount, 2, MidpointRounding.AwayFromZero) + 0.00m, cents = BillRounding.ToTheCent(amount);
            Assert.Equal(expected, cents);
            Assert.Equal(expected.ToString(System.Globalization.CultureInfo.InvariantCulture), cents.ToString(System.Globalization.CultureInfo.InvariantCulture));
        }
        Gen<decimal> any = from low in Gen.Int
                           from middle in Gen.Int[0, 5].Select(n => ((int[])[0, 0, 1, int.MaxValue, int.MinValue, -1])[n])
                           from high in Gen.Frequency((5, Gen.Const(0)), (1, Gen.Int[0, 9]))
                           from isNegative in Gen.Bool
                           from scale in Gen.Byte[0, 28]
                           select new decimal(low, middle, high, isNegative, scale);
        FixedSeed.Check(any, 20_000, Check);
        for (byte scale = 0; scale <= 28; scale++)
            foreach (long millions in (long[])[0, 1, 4, 5, 6, 49, 50, 51, 4_999_999, 5_000_000, 5_000_001, 1_004_999, 1_005_000, long.MaxValue, long.MaxValue - 5])
                foreach (bool isNegative in (bool[])[false, true])
                    Check(new decimal((int)millions, (int)(millions >> 32), 0, isNegative, scale));
        foreach (decimal amount in (decimal[])[decimal.MaxValue, decimal.MinValue, 0, 0.005m, -0.005m, 0.0049999m, 1e-28m]) Check(amount);
    }

    [Fact]
    public void Percentage_WhereOnlyTheTotalIsRounded_IsOfUnroundedLines()
    {
        TariffVersion plan = s_plan with { Rounding = new BillRounding(true, 0.01m), Percentages = [new Percentage("tax", 1m, ["a", "b"])] };
        Bill bill = Worked.BillOf(Worked.June(), Worked.Even(Worked.June(), 100), plan);
        // 1.012 + 0.668.
        Assert.Equal((0.668m, 1.68m), (Worked.Line(bill, "tax").Quantity, bill.Total));
    }

    [Fact]
    public void Exact_OnAnySum_IsTheDecimalRoundedToSixPlaces()
    {
        static void Check(double sum)
        {
            // Value and number of places: the slow way, as the library converts and rounds.
            Assert.Equal(decimal.GetBits(Math.Round((decimal)sum, 6, MidpointRounding.AwayFromZero)), decimal.GetBits(BillDraft.Exact(sum)));
        }

        FixedSeed.Check(Gen.Select(Gen.Double[-1, 1], Gen.Int[-7, 10]), 20_000, c => Check(c.Item1 * Math.Pow(10, c.Item2)));
        FixedSeed.Check(Gen.Select(Gen.Int[-3_000_000, 3_000_000], Gen.Int[0, 8]), 20_000, c => Check(c.Item1 / Math.Pow(10, c.Item2)));
        // At, and just beside, the middle between two millionths.
        FixedSeed.Check(Gen.Select(Gen.Int[0, 3_000_000], Gen.Int[-9, 9]), 20_000, c => Check((c.Item1 + 0.5 + (c.Item2 * 1e-3)) / 1e6));
    }

    [Fact]
    public void Of_ToTheCent_IsTheGeneralRule() => FixedSeed.Check(Gen.Select(Gen.Int[-3_000_000, 3_000_000], Gen.Int[0, 5]), 20_000, c =>
    {
        decimal amount = c.Item1 / (decimal)Math.Pow(10, c.Item2);
        Assert.Equal(decimal.GetBits(Math.Round(amount / 0.01m, MidpointRounding.AwayFromZero) * 0.01m), decimal.GetBits(BillRounding.LinesToTheCent.Of(amount)));
    });
}
