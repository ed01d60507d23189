using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Strategies;
using EnergySim.Wiring;

namespace EnergySim.Benchmarks;

/// <summary>The benchmark year, an outage of 336 h from each of its intervals, with one battery and with two.</summary>
internal sealed class YearOfOutages
{
    private readonly (EveryStart Starts, double[] StartKwh)[] _offers;

    /// <param name="stepMinutes">60 or 15.</param>
    /// <param name="neverMeet">True for batteries so large that they are neither full nor empty: no walk comes into the one before, and every hour is computed.</param>
    public YearOfOutages(bool neverMeet, int stepMinutes = 60)
    {
        var year = new YearOfQuarters(allRules: false);
        double cells = neverMeet ? 1000 : 1;
        _offers = [Offer(year, 1, cells, stepMinutes), Offer(year, 2, cells, stepMinutes)];
    }

    /// <summary>Walks all; returns the whole hours lasted, added up, so that nothing is optimised away.</summary>
    public int Walk()
    {
        int lasted = 0;
        foreach ((EveryStart starts, double[] startKwh) in _offers)
            foreach (int hours in starts.Walk(startKwh).LastingIntervals) lasted += hours;
        return lasted;
    }

    private static (EveryStart, double[]) Offer(YearOfQuarters year, int units, double cells, int stepMinutes)
    {
        Plant plant = year.Plant with { HighestKwh = 13.5 * cells * units, ChargeLimitKw = 5 * units, DischargeLimitKw = 5 * units, InverterKw = 5 * units };
        EnergySim.Profiles.Profile load = year.Load.Resampled(stepMinutes), solar = year.Solar.Resampled(stepMinutes);
        var everyday = new Run(load, solar, null, plant, SiteLimits.None, SetPoints.Always(new SetPointRow(0.2 * plant.HighestKwh, plant.HighestKwh, 0, 0, double.PositiveInfinity), load.Axis.Count));
        Ledger ledger = everyday.Ledger();
        var offGrid = new Run(load, solar, null, plant, SiteLimits.None, null, null, offGrid: true);
        double[] startKwh = [ledger.Sums.StartKwh, .. ledger[LedgerColumn.StoredKwh][..^1]];
        if (cells > 1)
            for (int i = 0; i < startKwh.Length; i++) startKwh[i] = plant.HighestKwh * (0.5 + (i % 101 * 1e-4));
        return (new EveryStart(offGrid, 336 * 60 / stepMinutes), startKwh);
    }
}
