using System.Runtime.CompilerServices;

namespace EnergySim.Engine;

/// <summary>At each interval of an outage: how long the house would still be served if the sun gave nothing more.</summary>
public static class BackupLeft
{
    /// <summary>Walks the outage, and from the state at the start of each of its first intervals on without any sun.</summary>
    /// <param name="offGrid">The outage with its start energy; its series go on at least <paramref name="horizon"/> past the intervals asked.</param>
    /// <param name="count">How many intervals are asked.</param>
    /// <param name="horizon">How far each walk goes, intervals.</param>
    /// <returns>Whole intervals served from each interval on; <paramref name="horizon"/> = at least that; 0 while dark.</returns>
    /// <exception cref="ArgumentException">The run is not off the grid, or its series are too short.</exception>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static int[] WithoutSun(Run offGrid, int count, int horizon)
    {
        ArgumentNullException.ThrowIfNull(offGrid);
        if (!offGrid.IsOffGrid) throw new ArgumentException("The run is not off the grid.", nameof(offGrid));
        if (count + horizon > offGrid.Axis.Count) throw new ArgumentException("The series end before the horizon.", nameof(offGrid));
        ReadOnlySpan<double> load = offGrid.Load.Kw, dc = offGrid.SolarDc.Kw, ac = offGrid.SolarAc.Kw;
        Island island = offGrid.Island ?? new Island(offGrid.Plant, offGrid.Site, OutageRules.None, offGrid.Axis.StepHours);
        var left = new int[count];
        var stored = new Scalar(Math.Clamp(offGrid.StartKwh ?? 0, offGrid.Plant.LowestKwh, offGrid.Plant.HighestKwh));
        IslandState state = island.Start;
        var pending = new CauseBook();
        var book = new NoBook();
        for (int i = 0; i < count; i++)
        {
            if (state.Dark == Darkness.None) left[i] = Lasting(island, load, i, horizon, stored, state);
            island.Interval(i, load[i], dc[i], ac[i], ref stored, ref state, ref pending, ref book, out _);
        }
        return left;
    }

    private static int Lasting(Island island, ReadOnlySpan<double> load, int from, int horizon, Scalar stored, IslandState state)
    {
        var pending = new CauseBook();
        var book = new NoBook();
        for (int n = 0; n < horizon; n++)
        {
            UnservedByCause causes = island.Interval(from + n, load[from + n], 0, 0, ref stored, ref state, ref pending, ref book, out _);
            if (causes.Energy + causes.Power + causes.Trip > 0) return n;
        }
        return horizon;
    }
}
