using System.Globalization;
using EnergySim.Solar;

namespace EnergySim.Studies.Sweeps;

/// <summary>One variant of a sweep: a home, a tariff and a value for each input.</summary>
/// <param name="Index">Its place in the sweep, from 0.</param>
/// <param name="Home">Index of the home.</param>
/// <param name="Tariff">Index of the tariff; 0 where the homes keep their own.</param>
/// <param name="Values">A value an input; null = what the home file has.</param>
public sealed record PlannedVariant(int Index, int Home, int Tariff, IReadOnlyList<SweepValue?> Values);

/// <summary>
/// All variants of a plan, any of which can be asked without making the others: the same plan and seed give the same variant wherever and in
/// whatever order it is asked.
/// </summary>
public sealed class SweepVariants
{
    /// <summary>One at a time, a distribution is moved to these shares of it.</summary>
    private const double LowShare = 0.1, HighShare = 0.9;

    private readonly SweepPlan _plan;
    private readonly SweepValue[][] _stated;
    private readonly SeededOrder[] _orders;
    private readonly ulong[] _seeds;
    private readonly SobolSequence? _sobol;

    /// <param name="plan">The plan.</param>
    /// <exception cref="ArgumentException">A grid over a distribution, no points, too many inputs or variants.</exception>
    public SweepVariants(SweepPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        if (FaultOf(plan) is string fault) throw new ArgumentException(fault, nameof(plan));
        _plan = plan;
        _stated = [.. plan.Inputs.Select(i => (i.Values.Stated ?? [i.Values.At(LowShare), i.Values.At(HighShare)]).ToArray())];
        int dimensions = plan.Design == SweepDesign.SobolIndices ? 2 * plan.Inputs.Count : plan.Inputs.Count;
        _seeds = [.. Enumerable.Range(0, dimensions).Select(d => SeededNoise.Stream(plan.Seed, d).Next())];
        _orders = plan.Design == SweepDesign.LatinHypercube ? [.. _seeds.Select(s => new SeededOrder(plan.Points, s))] : [];
        _sobol = plan.Design is SweepDesign.Sobol or SweepDesign.SobolIndices && dimensions > 0 ? new SobolSequence(dimensions) : null;
        PerHome = (int)CountOf(plan);
        Count = PerHome * plan.Homes.Count * Math.Max(1, plan.Tariffs.Count);
    }

    /// <summary>How many.</summary>
    public int Count { get; }

    /// <summary>How many under each tariff of each home.</summary>
    public int PerHome { get; }

    /// <summary>What does not fit of a plan's design, as a sentence; null = nothing.</summary>
    public static string? FaultOf(SweepPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        if (plan.Design == SweepDesign.Grid && plan.Inputs.FirstOrDefault(i => i.Values.Stated is null) is SweepInput spread)
            return $"A grid walks lists and ranges; {spread.Name} is a distribution.";
        if (plan.Design is SweepDesign.LatinHypercube or SweepDesign.Sobol or SweepDesign.SobolIndices)
        {
            if (plan.Points < 1) return "A sampled design needs its number of points.";
            if (plan.Inputs.Count == 0) return "A sampled design needs an input.";
            int dimensions = plan.Design == SweepDesign.SobolIndices ? 2 * plan.Inputs.Count : plan.Inputs.Count;
            if (plan.Design != SweepDesign.LatinHypercube && dimensions > SobolSequence.MostDimensions)
                return string.Create(CultureInfo.InvariantCulture, $"A Sobol sequence serves {(plan.Design == SweepDesign.Sobol ? SobolSequence.MostDimensions : SobolSequence.MostDimensions / 2)} inputs here; the plan has {plan.Inputs.Count}.");
        }
        double all = CountOf(plan) * plan.Homes.Count * Math.Max(1, plan.Tariffs.Count);
        return all > SweepPlan.MostVariants ? string.Create(CultureInfo.InvariantCulture, $"The plan has {all:N0} variants; at most {SweepPlan.MostVariants:N0} are run.") : null;
    }

    /// <summary>A variant.</summary>
    /// <param name="index">Its place, from 0.</param>
    public PlannedVariant this[int index]
    {
        get
        {
            if ((uint)index >= (uint)Count) throw new ArgumentOutOfRangeException(nameof(index), index, "There is no such variant.");
            (int place, int at) = Math.DivRem(index, PerHome);
            (int home, int tariff) = Math.DivRem(place, Math.Max(1, _plan.Tariffs.Count));
            return new PlannedVariant(index, home, tariff, ValuesOf(at));
        }
    }

    private SweepValue?[] ValuesOf(int at)
    {
        var values = new SweepValue?[_plan.Inputs.Count];
        switch (_plan.Design)
        {
            case SweepDesign.Grid:
                // The last input moves first.
                for (int i = values.Length - 1; i >= 0; i--)
                {
                    (at, int pick) = Math.DivRem(at, _stated[i].Length);
                    values[i] = _stated[i][pick];
                }
                break;
            case SweepDesign.OneAtATime:
                int from = at - 1;
                for (int i = 0; i < values.Length && from >= 0; from -= _stated[i++].Length)
                    if (from < _stated[i].Length) values[i] = _stated[i][from];
                break;
            default:
                for (int i = 0; i < values.Length; i++) values[i] = _plan.Inputs[i].Values.At(ShareOf(at, i));
                break;
        }
        return values;
    }

    /// <summary>The share at which an input is taken in a sampled design, between 0 and 1, both excluded.</summary>
    internal double ShareOf(int at, int input)
    {
        if (_plan.Design == SweepDesign.LatinHypercube)
        {
            SeededNoise noise = SeededNoise.Stream(_seeds[input] ^ 0x5851F42D4C957F2D, at);
            return (_orders[input].At(at) + noise.Even()) / _plan.Points;
        }
        int inputs = _plan.Inputs.Count, dimension = input;
        if (_plan.Design == SweepDesign.SobolIndices)
        {
            // The first point, the second, then the first with one input of the second after another.
            (at, int kind) = Math.DivRem(at, inputs + 2);
            if (kind == 1 || kind == input + 2) dimension = input + inputs;
        }
        uint shifted = _sobol!.At((uint)at, dimension) ^ (uint)_seeds[dimension];
        return (shifted + 0.5) * (1.0 / (1L << 32));
    }

    private static double CountOf(SweepPlan plan) => plan.Design switch
    {
        SweepDesign.Grid => plan.Inputs.Aggregate(1.0, (count, i) => count * i.Values.Stated!.Count),
        SweepDesign.OneAtATime => 1 + plan.Inputs.Sum(i => i.Values.Stated?.Count ?? 2),
        SweepDesign.SobolIndices => (double)plan.Points * (plan.Inputs.Count + 2),
        _ => plan.Points,
    };
}
