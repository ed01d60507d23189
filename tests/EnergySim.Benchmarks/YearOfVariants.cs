using EnergySim.Batches;
using EnergySim.Billing;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.Time;

namespace EnergySim.Benchmarks;

/// <summary>The benchmark year with batteries of all sizes and reserves, in lanes.</summary>
internal sealed class YearOfVariants
{
    private readonly Batch _batch, _oneByOne;
    private readonly VariantSums[] _sums;

    /// <param name="count">How many.</param>
    /// <param name="allRules">True for a strategy that charges from the grid and sells.</param>
    /// <param name="stepMinutes">15 or 60.</param>
    public YearOfVariants(int count, bool allRules, int stepMinutes)
    {
        var year = new YearOfQuarters(allRules);
        Profile load = year.Load.Resampled(stepMinutes), solar = year.Solar.Resampled(stepMinutes);
        TimeAxis axis = load.Axis;
        Calendar = new TariffCalendar(year.Calendar.Tariff, axis);
        StrategyClock clock = StrategyClock.Of(year.Strategy, axis);
        Variants = [.. Enumerable.Range(0, count).Select(n =>
        {
            double size = 0.5 + (n % 8 * 0.25);
            Plant plant = year.Plant with
            {
                HighestKwh = 13.5 * size, ChargeLimitKw = 5 * size, DischargeLimitKw = 5 * size, InverterKw = 5 * size, SolarInputKw = 8 * size, StandbyKw = 0.04 * size,
            };
            return new Variant
            {
                Load = load,
                SolarDc = solar,
                SolarDcFactor = 0.6 + (n % 5 * 0.1),
                Plant = plant,
                Site = year.Site,
                SetPoints = (year.Strategy with { ReserveFraction = n / 8 % 10 * 0.1 }).Compile(plant, clock),
            };
        })];
        _batch = new Batch(axis, [Calendar]);
        _oneByOne = new Batch(axis, [Calendar], BatchKeeps.Meters, width: 1);
        _sums = [.. Variants.Select(_ => _batch.NewSums())];
    }

    public Variant[] Variants { get; }

    public TariffCalendar Calendar { get; }

    /// <summary>Runs all on one core.</summary>
    public IReadOnlyList<VariantSums> Run()
    {
        _batch.Run(Variants, _sums);
        return _sums;
    }

    /// <summary>Runs all on one core, one case at a time.</summary>
    public void RunOneByOne() => _oneByOne.Run(Variants, _sums);

    /// <summary>Bills what the last run summed.</summary>
    public decimal BillAll()
    {
        decimal total = 0;
        foreach (VariantSums sums in _sums) total += Biller.Total(sums.Meters[0]);
        return total;
    }

    /// <summary>Runs and bills all on so many cores.</summary>
    public decimal RunAndBill(int cores)
    {
        _batch.Run(Variants, _sums, cores);
        var totals = new decimal[_sums.Length];
        Parallel.For(0, _sums.Length, new ParallelOptions { MaxDegreeOfParallelism = cores }, n => totals[n] = Biller.Total(_sums[n].Meters[0]));
        return totals.Sum();
    }
}
