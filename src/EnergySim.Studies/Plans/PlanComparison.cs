namespace EnergySim.Studies.Plans;

/// <summary>One home on several rate plans: a comparison each, and the cheapest plan for each installation.</summary>
public sealed record PlanComparison
{
    /// <summary>The home.</summary>
    public required string Home { get; init; }

    /// <summary>A comparison a plan, in the order given; the first is what the others are held against.</summary>
    public required IReadOnlyList<Comparison> Plans { get; init; }

    /// <summary>The cheapest plan of each installation, as it is first.</summary>
    public required IReadOnlyList<CheapestPlan> Cheapest { get; init; }

    /// <summary>Compares a home's plans.</summary>
    /// <param name="homes">The same home on each plan: they differ in their tariff only.</param>
    /// <exception cref="ArgumentException">No home is given, a plan's money differs from the first one's, or a plan does not fit.</exception>
    public static PlanComparison Of(IReadOnlyList<Home> homes)
    {
        ArgumentNullException.ThrowIfNull(homes);
        if (homes.Count == 0) throw new ArgumentException("A comparison of plans needs a plan.", nameof(homes));
        if (homes.FirstOrDefault(h => h.Tariff.Currency != homes[0].Tariff.Currency) is Home other)
            throw new ArgumentException($"{other.Tariff.Name} is in {other.Tariff.Currency}, {homes[0].Tariff.Name} in {homes[0].Tariff.Currency}: bills of two moneys are not compared.");
        Comparison[] plans = [.. homes.Select(ComparisonStudy.Of)];
        var cheapest = new List<CheapestPlan>();
        for (int c = 0; c < plans[0].Columns.Count; c++)
        {
            // Of plans that cost the same the one listed first.
            Comparison best = plans.MinBy(p => p.Columns[c].AnnualBill)!;
            cheapest.Add(new CheapestPlan(plans[0].Columns[c].Name, best.Tariff, best.Columns[c].AnnualBill, plans[0].Columns[c].AnnualBill - best.Columns[c].AnnualBill));
        }
        return new PlanComparison { Home = homes[0].Name, Plans = plans, Cheapest = cheapest };
    }
}

/// <summary>The plan under which an installation's bill is least.</summary>
/// <param name="Column">The installation.</param>
/// <param name="Plan">The plan.</param>
/// <param name="Bill">The bill under it.</param>
/// <param name="BelowFirst">What it saves against the same installation on the first plan.</param>
public sealed record CheapestPlan(string Column, string Plan, decimal Bill, decimal BelowFirst);
