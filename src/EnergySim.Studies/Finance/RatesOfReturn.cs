using EnergySim.Economics;

namespace EnergySim.Studies.Finance;

/// <summary>
/// The internal rates of return of some flows: the rates at which their present value is 0. There may be none, or several; then no single
/// one of them means anything, and none is told as "the" rate.
/// </summary>
public sealed record RatesOfReturn
{
    private const double LeastLogRate = -4.6, MostLogRate = 4.6;
    private const int Steps = 4600;

    private readonly bool _telling;

    private RatesOfReturn(IReadOnlyList<double> fractions, MoneyBasis basis, bool telling) => (Fractions, Basis, _telling) = (fractions, basis, telling);

    /// <summary>The rates, rising, between −99 % and 9,900 % a year.</summary>
    public IReadOnlyList<double> Fractions { get; }

    /// <summary>Whether inflation is in them.</summary>
    public MoneyBasis Basis { get; }

    /// <summary>
    /// The rate where there is just one and it means something: the flows, or their running sum, change sign once. Flows that turn again
    /// (a late replacement) can leave a single rate far from any yield. Else null.
    /// </summary>
    public AnnualRate? Only => Fractions.Count == 1 && _telling ? new AnnualRate(Fractions[0], Basis) : null;

    /// <summary>Finds the rates: changes of sign on a fine grid of ln(1 + r), each then halved down.</summary>
    public static RatesOfReturn Of(CashFlows flows)
    {
        ArgumentNullException.ThrowIfNull(flows);
        var roots = new List<double>();
        double lowX = LeastLogRate, low = ValueAt(flows, lowX);
        for (int i = 1; i <= Steps; i++)
        {
            double highX = LeastLogRate + ((MostLogRate - LeastLogRate) * i / Steps), high = ValueAt(flows, highX);
            // A root that lies on the grid belongs to the stretch that ends with it.
            if ((low < 0 && high >= 0) || (low > 0 && high <= 0)) roots.Add(Math.Exp(Root(flows, lowX, highX, low)) - 1);
            if (high != 0) low = high;
            lowX = highX;
        }
        return new RatesOfReturn(roots, flows.Basis, SignChanges([flows.Upfront, .. flows.Yearly]) == 1 || SignChanges(flows.Cumulative()) == 1);
    }

    private static int SignChanges(IReadOnlyList<double> amounts)
    {
        double[] all = [.. amounts.Where(a => a != 0)];
        return all.Zip(all.Skip(1)).Count(pair => pair.First < 0 != pair.Second < 0);
    }

    private static double Root(CashFlows flows, double lowX, double highX, double low)
    {
        for (int i = 0; i < 200 && highX - lowX > 1e-15; i++)
        {
            double middleX = (lowX + highX) / 2, middle = ValueAt(flows, middleX);
            if (middle == 0) return middleX;
            if (middle < 0 == low < 0) lowX = middleX;
            else highX = middleX;
        }
        return (lowX + highX) / 2;
    }

    // Horner's rule in v = 1 / (1 + r).
    private static double ValueAt(CashFlows flows, double x)
    {
        double v = Math.Exp(-x), value = 0;
        for (int t = flows.Yearly.Count - 1; t >= 0; t--) value = (value + flows.Yearly[t]) * v;
        return value + flows.Upfront;
    }
}
