namespace EnergySim.Bound;

/// <summary>
/// The least bill where a programme has choices: solved without them first. If the flows found are billed at what the programme says, nothing was
/// gained by breaking a choice. Else the choice most broken is tried both ways, the lowest of what is left first.
/// </summary>
internal sealed class Search(Programme programme, PlantProgramme plant, Func<double[], double> billOf, double tolerance)
{
    /// <summary>Programmes solved at most; beyond it the bound is the lowest that is left.</summary>
    public const int MostSolved = 24;

    /// <summary>What no operation is below.</summary>
    public double Bound { get; private set; } = double.NegativeInfinity;

    /// <summary>The solution whose flows are billed least.</summary>
    public double[] Best { get; private set; } = [];

    /// <summary>What the plan really bills for them.</summary>
    public double BestBill { get; private set; } = double.PositiveInfinity;

    /// <summary>What keeps the bound below what is reached; empty = it is exact.</summary>
    public IReadOnlyList<string> LeftOpen { get; private set; } = [];

    public void Run()
    {
        var open = new PriorityQueue<Branch, double>();
        Branch lowest = Solve([]) ?? throw new InvalidOperationException("The programme has no solution.");
        for (int solved = 1; lowest.Bound < BestBill - tolerance && solved < MostSolved && Worst(lowest.Values) is Choice choice; solved += 2)
        {
            foreach (int side in (int[])[choice.One, choice.Other])
                if (Solve([.. lowest.Held, side]) is Branch branch) open.Enqueue(branch, branch.Bound);
            if (!open.TryDequeue(out Branch? next, out _)) throw new InvalidOperationException("The programme has no solution that keeps to its choices.");
            lowest = next;
        }
        Bound = lowest.Bound;
        if (BestBill - Bound > tolerance) LeftOpen = [.. programme.BrokenIn(lowest.Values).DefaultIfEmpty("credits pay in the order of the plan").Distinct()];
    }

    private Choice? Worst(double[] values)
    {
        Choice? worst = programme.Choices.MaxBy(c => c.MissedIn(values));
        return worst?.MissedIn(values) > 0 ? worst : null;
    }

    private Branch? Solve(IReadOnlyList<int> held)
    {
        double[] lows = [.. held.Select(c => programme.Columns[c].Low)];
        foreach (int column in held) programme.SetLow(column, 0);
        double[]? values = Solver.Solve(programme);
        while (values is not null && plant.HoldDirections(values) > 0) values = Solver.Solve(programme);
        for (int i = 0; i < lows.Length; i++) programme.SetLow(held[i], lows[i]);
        if (values is null) return null;
        double bill = billOf(values);
        if (bill < BestBill) (BestBill, Best) = (bill, values);
        return new Branch(values, programme.Objective.ValueIn(values), held);
    }

    /// <summary>A solution and the sides of choices that it was held to.</summary>
    private sealed record Branch(double[] Values, double Bound, IReadOnlyList<int> Held);
}
