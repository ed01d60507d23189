using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace EnergySim.Engine;

/// <summary>
/// As many outages as there are lanes, begun one interval after another, walked side by side for as long as nothing depends on how much any of
/// them has stored and all of the house is served: there an interval is one addition, the same for all.
/// </summary>
internal abstract class FreeWalk
{
    /// <summary>Walks from the start of the last of the outages on.</summary>
    /// <param name="from">The first interval; the energies are those at its start.</param>
    /// <param name="until">The interval before which to stop, at most so many beyond <paramref name="from"/> as the horizon is long.</param>
    /// <param name="storedKwh">An energy a lane; on return those at the start of the interval that is given.</param>
    /// <param name="lastAfter">Energy of the last lane after each interval, in the ring of the horizon.</param>
    /// <returns>The first interval that was not walked.</returns>
    public abstract int Go(int from, int until, Span<double> storedKwh, Span<double> lastAfter);

    /// <summary>The walk for this processor's lanes.</summary>
    public static FreeWalk Of(FreeIntervals free) => LaneWidth.Best switch
    {
        8 => new FreeWalk<Lanes8>(free),
        4 => new FreeWalk<Lanes4>(free),
        _ => new FreeWalk<Scalar>(free),
    };
}

/// <summary>The walk over one lane type.</summary>
internal sealed class FreeWalk<T>(FreeIntervals free) : FreeWalk where T : struct, ILane<T>
{
    [MethodImpl(MethodImplOptions.NoInlining)]
    public override int Go(int from, int until, Span<double> storedKwh, Span<double> lastAfter)
    {
        ReadOnlySpan<FreeIntervals.Band> bands = free.Bands;
        ref T stored = ref MemoryMarshal.Cast<double, T>(storedKwh)[0];
        T now = stored;
        int i = from % bands.Length, slot = from % lastAfter.Length, at = from;
        for (; at < until; at++)
        {
            ref readonly FreeIntervals.Band band = ref bands[i];
            if (T.AnyAbove(T.All(band.ServedLowestKwh), now) || T.AnyAbove(now, T.All(band.HighestKwh))) break;
            now += T.All(band.ChangeKwh);
            lastAfter[slot] = T.Last(now);
            if (++slot == lastAfter.Length) slot = 0;
            if (++i == bands.Length) i = 0;
        }
        stored = now;
        return at;
    }
}
