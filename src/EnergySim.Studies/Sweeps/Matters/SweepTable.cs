namespace EnergySim.Studies.Sweeps;

/// <summary>
/// The rows of a sweep in memory, as columns of numbers: what the questions of what matters are asked of. Inputs are known from the plan;
/// outputs are taken row by row.
/// </summary>
public sealed class SweepTable
{
    private readonly Func<PlannedVariant, int, string?> _own;
    private readonly double[][] _outputs;
    private readonly bool[] _isTaken;

    /// <param name="plan">The plan.</param>
    /// <param name="columns">The columns of outputs.</param>
    /// <param name="own">What the home file has for an input, for variants that leave it.</param>
    public SweepTable(SweepPlan plan, IReadOnlyList<SweepColumn> columns, Func<PlannedVariant, int, string?> own)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(columns);
        ArgumentNullException.ThrowIfNull(own);
        (Plan, Columns, _own) = (plan, columns, own);
        Variants = new SweepVariants(plan);
        _outputs = [.. columns.Select(_ => new double[Variants.Count])];
        _isTaken = new bool[Variants.Count];
    }

    /// <summary>The plan.</summary>
    public SweepPlan Plan { get; }

    /// <summary>The variants.</summary>
    public SweepVariants Variants { get; }

    /// <summary>The columns of outputs.</summary>
    public IReadOnlyList<SweepColumn> Columns { get; }

    /// <summary>The money of a variant's plan, an ISO 4217 code.</summary>
    public Func<PlannedVariant, string> CurrencyOf { get; init; } = static _ => "money";

    /// <summary>How many homes times tariffs there are; the variants of each stand together.</summary>
    public int Places => Variants.Count / Variants.PerHome;

    /// <summary>Takes a row.</summary>
    /// <param name="variant">Index of the variant.</param>
    /// <param name="outputs">A value a column; null = no figure.</param>
    public void Take(int variant, ReadOnlySpan<double?> outputs)
    {
        for (int c = 0; c < _outputs.Length; c++) _outputs[c][variant] = outputs[c] ?? double.NaN;
        _isTaken[variant] = true;
    }

    /// <summary>Runs a sweep into memory.</summary>
    /// <param name="study">The sweep.</param>
    /// <param name="plan">Its plan.</param>
    /// <param name="own">What the home file has for an input.</param>
    /// <param name="cores">How many cores.</param>
    public static SweepTable Of(SweepStudy study, SweepPlan plan, Func<PlannedVariant, int, string?> own, int cores)
    {
        ArgumentNullException.ThrowIfNull(study);
        const int stretch = 4096;
        var table = new SweepTable(plan, study.Columns, own);
        for (int from = 0; from < study.Variants.Count; from += stretch)
            foreach (SweepRow row in study.Rows(from, Math.Min(stretch, study.Variants.Count - from), cores)) table.Take(row.Variant.Index, [.. row.Outputs]);
        return table;
    }

    /// <summary>Home and tariff of a place, in words.</summary>
    public string PlaceName(int place)
    {
        PlannedVariant first = Variants[place * Variants.PerHome];
        return Plan.Tariffs.Count > 0 ? $"{Plan.Homes[first.Home]}, {Plan.Tariffs[first.Tariff]}" : Plan.Homes[first.Home];
    }

    /// <summary>The unit of an output at a place; empty = none that needs to be said.</summary>
    public string UnitOf(int column, int place) => Columns[column].Measure.Unit switch
    {
        SweepMeasure.Money => CurrencyOf(Variants[place * Variants.PerHome]),
        "share" or "cycles" => "",
        string unit => unit,
    };

    /// <summary>An output of the variants of a place; NaN where there is no figure.</summary>
    /// <exception cref="InvalidOperationException">A row is missing.</exception>
    public ReadOnlySpan<double> Output(int column, int place)
    {
        int from = place * Variants.PerHome;
        if (_isTaken.AsSpan(from, Variants.PerHome).Contains(false)) throw new InvalidOperationException("Not all rows are there.");
        return _outputs[column].AsSpan(from, Variants.PerHome);
    }

    /// <summary>The number that an input has in a variant, the home's own where the variant leaves it; NaN = a word.</summary>
    /// <param name="input">Index of the input.</param>
    /// <param name="place">The place.</param>
    /// <param name="at">Index of the variant within the place.</param>
    public double Input(int input, int place, int at)
    {
        PlannedVariant variant = Variants[(place * Variants.PerHome) + at];
        SweepValue? value = variant.Values[input] ?? (_own(variant, input) is string own ? SweepValue.Written(own) : null);
        return value?.Number ?? double.NaN;
    }

    /// <summary>The text of an input in a variant.</summary>
    /// <inheritdoc cref="Input"/>
    public string InputText(int input, int place, int at)
    {
        PlannedVariant variant = Variants[(place * Variants.PerHome) + at];
        return variant.Values[input]?.Text ?? _own(variant, input) ?? "";
    }
}
