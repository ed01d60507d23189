using Google.OrTools.LinearSolver;

namespace EnergySim.Bound;

/// <summary>Solves a programme: by the path made for it, else by a general solver, which also checks the path.</summary>
internal static class Solver
{
    /// <summary>The general solver for whole years, and one of another kind.</summary>
    public const string InteriorPoints = "HIGHS_LP", Simplex = "GLOP";

    /// <summary>Solves a programme.</summary>
    /// <param name="programme">The programme.</param>
    /// <returns>The values of the columns; null where it has no solution.</returns>
    /// <exception cref="InvalidOperationException">It has no least one.</exception>
    public static double[]? Solve(Programme programme) => InteriorPoint.Solve(programme) ?? Solve(programme, InteriorPoints);

    /// <summary>Solves a programme with a general solver.</summary>
    /// <param name="programme">The programme.</param>
    /// <param name="with">Name of the solver.</param>
    /// <returns>The values of the columns; null where it has no solution.</returns>
    /// <exception cref="InvalidOperationException">It has no least one.</exception>
    public static double[]? Solve(Programme programme, string with)
    {
        using Google.OrTools.LinearSolver.Solver solver = Google.OrTools.LinearSolver.Solver.CreateSolver(with)
            ?? throw new InvalidOperationException($"The solver {with} is not in this build.");
        solver.SuppressOutput();
        // It answers false for options that it takes all the same.
        if (with == InteriorPoints) solver.SetSolverSpecificParametersAsString("solver=ipm\noutput_flag=false");
        var columns = new Variable[programme.ColumnCount];
        for (int c = 0; c < columns.Length; c++) columns[c] = solver.MakeNumVar(programme.Columns[c].Low, programme.Columns[c].High, "");
        foreach (Row row in programme.Rows)
        {
            Constraint constraint = solver.MakeConstraint(row.Low, row.High);
            foreach ((int column, double factor) in Merged(row.Terms)) constraint.SetCoefficient(columns[column], factor);
        }
        Objective objective = solver.Objective();
        foreach ((int column, double factor) in Merged(programme.Objective)) objective.SetCoefficient(columns[column], factor);
        objective.SetMinimization();
        Google.OrTools.LinearSolver.Solver.ResultStatus status = solver.Solve();
        if (status == Google.OrTools.LinearSolver.Solver.ResultStatus.INFEASIBLE) return null;
        if (status != Google.OrTools.LinearSolver.Solver.ResultStatus.OPTIMAL) throw new InvalidOperationException($"The programme is {status}.");
        var values = new double[columns.Length];
        for (int c = 0; c < values.Length; c++) values[c] = columns[c].SolutionValue();
        return values;
    }

    // The solver keeps the last factor a column is given, so those of one column are added here.
    private static IEnumerable<(int Column, double Factor)> Merged(Expression expression)
    {
        if (expression.Terms.Count < 2) return expression.Terms;
        var sums = new Dictionary<int, double>(expression.Terms.Count);
        foreach ((int column, double factor) in expression.Terms) sums[column] = sums.GetValueOrDefault(column) + factor;
        return sums.Select(s => (s.Key, s.Value));
    }
}
