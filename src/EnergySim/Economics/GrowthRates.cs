namespace EnergySim.Economics;

/// <summary>How prices move from year to year, by component, as fractions a year (0.02 = 2 %). Percentages of a bill stay as they are.</summary>
public sealed record GrowthRates
{
    /// <summary>Energy prices, tiers and event adders, unless their part is in <see cref="ByPart"/>.</summary>
    public double Energy { get; init; } = 0.02;

    /// <summary>Price parts (delivery, supply, …) with a growth of their own.</summary>
    public IReadOnlyDictionary<string, double> ByPart { get; init; } = new Dictionary<string, double>();

    /// <summary>Fixed charges and the minimum bill.</summary>
    public double Fixed { get; init; } = 0.02;

    /// <summary>Demand charges.</summary>
    public double Demand { get; init; } = 0.02;

    /// <summary>What exported energy earns, where it has a price of its own.</summary>
    public double Export { get; init; }

    /// <summary>Upkeep and replacements.</summary>
    public double Costs { get; init; } = 0.02;

    /// <summary>Growth of a part of the energy price.</summary>
    public double OfPart(string part) => ByPart.TryGetValue(part, out double own) ? own : Energy;

    /// <summary>The same rates with every energy price growing at one rate.</summary>
    public GrowthRates WithEnergy(double rate) => this with { Energy = rate, ByPart = new Dictionary<string, double>() };

    /// <summary>Every rate on another basis.</summary>
    /// <param name="from">The basis they are on.</param>
    /// <param name="to">The basis wanted.</param>
    /// <param name="inflationFraction">General rise of prices a year.</param>
    public GrowthRates In(MoneyBasis from, MoneyBasis to, double inflationFraction)
    {
        double Of(double rate) => new AnnualRate(rate, from).In(to, inflationFraction).Fraction;
        return new GrowthRates
        {
            Energy = Of(Energy),
            ByPart = ByPart.ToDictionary(p => p.Key, p => Of(p.Value)),
            Fixed = Of(Fixed),
            Demand = Of(Demand),
            Export = Of(Export),
            Costs = Of(Costs),
        };
    }
}
