using System.Runtime.InteropServices;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;

namespace EnergySim.Batches;

/// <summary>As many variants as there are lanes, side by side: their constants, rows, series, and where they are.</summary>
internal sealed class LaneGroup<T> where T : struct, ILane<T>
{
    private readonly Variant[] _variants = new Variant[T.Count];
    private readonly StepConstants<Scalar>[] _cases = new StepConstants<Scalar>[T.Count];
    private readonly Taper[] _tapers = new Taper[T.Count];
    private readonly TaperRoom _chargeRoom = new(), _dischargeRoom = new();

    /// <summary>What does not change during a run.</summary>
    public StepConstants<T> Constants;

    /// <summary>Energy in the cells, kWh.</summary>
    public T StoredKwh;

    /// <summary>The series, where all lanes share theirs.</summary>
    public SharedInput<T> Shared;

    /// <summary>The series, where they do not, of one block.</summary>
    public OwnInput<T> Own;

    /// <param name="longestBlock">Number of intervals of the longest block.</param>
    public LaneGroup(int longestBlock)
    {
        Columns = new LaneColumns<T>(longestBlock);
        Own = new OwnInput<T> { Load = new T[longestBlock], SolarDc = new T[longestBlock], SolarAc = new T[longestBlock] };
    }

    /// <summary>What is wanted.</summary>
    public LaneRows<T> Rows { get; } = new();

    /// <summary>What the meters saw in a block.</summary>
    public LaneColumns<T> Columns { get; }

    /// <summary>True when all lanes share their series.</summary>
    public bool SharesSeries { get; private set; }

    /// <summary>Takes other variants; the last stands in the lanes that are left over.</summary>
    public void Take(ReadOnlySpan<Variant> variants, double stepHours)
    {
        for (int lane = 0; lane < T.Count; lane++)
        {
            Variant variant = _variants[lane] = variants[Math.Min(lane, variants.Length - 1)];
            _cases[lane] = new StepConstants<Scalar>(variant.Plant, variant.Site, stepHours, offGrid: false);
        }
        for (int lane = 0; lane < T.Count; lane++) _tapers[lane] = _variants[lane].Plant.ChargeTaper;
        var charge = new TaperLine<T>(_tapers, _chargeRoom);
        for (int lane = 0; lane < T.Count; lane++) _tapers[lane] = _variants[lane].Plant.DischargeTaper;
        Constants = new StepConstants<T>(_cases, charge, new TaperLine<T>(_tapers, _dischargeRoom));
        Rows.Take(_variants);
        TakeSeries();
    }

    /// <summary>Stands at the floors of the rows that hold.</summary>
    public void StartAtFloor() => StoredKwh = Rows.Current.FloorKwh;

    /// <summary>Goes to the stated start energies, where one is stated.</summary>
    public void StartAsStated()
    {
        Span<double> stored = Lanes(ref StoredKwh);
        for (int lane = 0; lane < T.Count; lane++)
            if (_variants[lane].StartKwh is double start) stored[lane] = Math.Clamp(start, _variants[lane].Plant.LowestKwh, _variants[lane].Plant.HighestKwh);
    }

    /// <summary>True when a lane has no stated start energy.</summary>
    public bool WarmsUp => Array.Exists(_variants, static v => v.StartKwh is null);

    /// <summary>Lays the series of a block side by side.</summary>
    public void LayOwn(int from, int until)
    {
        Own.From = from;
        for (int lane = 0; lane < T.Count; lane++)
        {
            Variant variant = _variants[lane];
            Lay(variant.Load, variant.LoadFactor, Own.Load, lane, from, until);
            Lay(variant.SolarDc, variant.SolarDcFactor, Own.SolarDc, lane, from, until);
            Lay(variant.SolarAc, variant.SolarAcFactor, Own.SolarAc, lane, from, until);
        }
    }

    /// <summary>The numbers of a value, one a lane.</summary>
    public static Span<double> Lanes(ref T value) => MemoryMarshal.Cast<T, double>(new Span<T>(ref value));

    private static void Lay(Profile? profile, double factor, T[] into, int lane, int from, int until)
    {
        Span<double> column = MemoryMarshal.Cast<T, double>(into.AsSpan());
        for (int i = from; i < until; i++) column[((i - from) * T.Count) + lane] = profile is null ? 0 : profile.Kw[i] * factor;
    }

    private void TakeSeries()
    {
        Profile load = _variants[0].Load, dc = load, ac = load;
        foreach (Variant variant in _variants)
        {
            if (variant.SolarDc is not null) dc = variant.SolarDc;
            if (variant.SolarAc is not null) ac = variant.SolarAc;
        }
        SharesSeries = true;
        for (int lane = 0; lane < T.Count; lane++)
        {
            Variant variant = _variants[lane];
            SharesSeries &= ReferenceEquals(variant.Load, load) && ReferenceEquals(variant.SolarDc ?? dc, dc) && ReferenceEquals(variant.SolarAc ?? ac, ac);
            Lanes(ref Shared.LoadFactor)[lane] = variant.LoadFactor;
            Lanes(ref Shared.SolarDcFactor)[lane] = variant.SolarDc is null ? 0 : variant.SolarDcFactor;
            Lanes(ref Shared.SolarAcFactor)[lane] = variant.SolarAc is null ? 0 : variant.SolarAcFactor;
        }
        (Shared.Load, Shared.SolarDc, Shared.SolarAc) = (load.Array, dc.Array, ac.Array);
    }
}
