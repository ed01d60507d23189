using System.Runtime.InteropServices;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;

namespace EnergySim.Batches;

/// <summary>As many variants as there are lanes, side by side: what the step takes of them, from the variants' own data.</summary>
internal sealed class LaneGroup<T> where T : struct, ILane<T>
{
    private readonly Variant[] _variants = new Variant[T.Count];
    private readonly StepConstants<Scalar>[] _cases = new StepConstants<Scalar>[T.Count];
    private readonly Taper[] _tapers = new Taper[T.Count];
    private readonly TaperRoom _chargeRoom = new(), _dischargeRoom = new();

    /// <summary>Takes other variants; the last stands in the lanes that are left over. Gives what does not change during a run.</summary>
    public StepConstants<T> Take(ReadOnlySpan<Variant> variants, double stepHours)
    {
        for (int lane = 0; lane < T.Count; lane++)
        {
            Variant variant = _variants[lane] = variants[Math.Min(lane, variants.Length - 1)];
            _cases[lane] = new StepConstants<Scalar>(variant.Plant, variant.Site, stepHours, offGrid: false);
        }
        for (int lane = 0; lane < T.Count; lane++) _tapers[lane] = _variants[lane].Plant.ChargeTaper;
        var charge = new TaperLine<T>(_tapers, _chargeRoom);
        for (int lane = 0; lane < T.Count; lane++) _tapers[lane] = _variants[lane].Plant.DischargeTaper;
        return new StepConstants<T>(_cases, charge, new TaperLine<T>(_tapers, _dischargeRoom));
    }

    /// <summary>Goes to the stated start energies, where one is stated.</summary>
    public void StartAsStated(ref T storedKwh)
    {
        Span<double> stored = Lanes(ref storedKwh);
        for (int lane = 0; lane < T.Count; lane++)
            if (_variants[lane].StartKwh is double start) stored[lane] = Math.Clamp(start, _variants[lane].Plant.LowestKwh, _variants[lane].Plant.HighestKwh);
    }

    /// <summary>True when a lane has no stated start energy.</summary>
    public bool WarmsUp => Array.Exists(_variants, static v => v.StartKwh is null);

    /// <summary>Lays the series of a block side by side.</summary>
    public void LayOwn(ref OwnInput<T> own, int from, int until)
    {
        own.From = from;
        for (int lane = 0; lane < T.Count; lane++)
        {
            Variant variant = _variants[lane];
            Lay(variant.Load, variant.LoadFactor, own.Load, lane, from, until);
            Lay(variant.SolarDc, variant.SolarDcFactor, own.SolarDc, lane, from, until);
            Lay(variant.SolarAc, variant.SolarAcFactor, own.SolarAc, lane, from, until);
        }
    }

    /// <summary>The series that all lanes share, times a factor a lane; false where they do not share them.</summary>
    public bool TrySharedSeries(out SharedInput<T> shared)
    {
        Profile load = _variants[0].Load, dc = load, ac = load;
        foreach (Variant variant in _variants)
        {
            if (variant.SolarDc is not null) dc = variant.SolarDc;
            if (variant.SolarAc is not null) ac = variant.SolarAc;
        }
        bool shares = true;
        shared = new SharedInput<T> { Load = load.Array, SolarDc = dc.Array, SolarAc = ac.Array };
        for (int lane = 0; lane < T.Count; lane++)
        {
            Variant variant = _variants[lane];
            shares &= ReferenceEquals(variant.Load, load) && ReferenceEquals(variant.SolarDc ?? dc, dc) && ReferenceEquals(variant.SolarAc ?? ac, ac);
            Lanes(ref shared.LoadFactor)[lane] = variant.LoadFactor;
            Lanes(ref shared.SolarDcFactor)[lane] = variant.SolarDc is null ? 0 : variant.SolarDcFactor;
            Lanes(ref shared.SolarAcFactor)[lane] = variant.SolarAc is null ? 0 : variant.SolarAcFactor;
        }
        return shares;
    }

    /// <summary>The numbers of a value, one a lane.</summary>
    public static Span<double> Lanes(ref T value) => MemoryMarshal.Cast<T, double>(new Span<T>(ref value));

    private static void Lay(Profile? profile, double factor, T[] into, int lane, int from, int until)
    {
        Span<double> column = MemoryMarshal.Cast<T, double>(into.AsSpan());
        for (int i = from; i < until; i++) column[((i - from) * T.Count) + lane] = profile is null ? 0 : profile.Kw[i] * factor;
    }
}
