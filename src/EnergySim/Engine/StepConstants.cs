using EnergySim.Equipment;
using EnergySim.Strategies;
using EnergySim.Wiring;

namespace EnergySim.Engine;

/// <summary>
/// All that does not change during a run, worked out once so that the step never divides. Off the grid the caps at the meter are zero.
/// </summary>
/// <typeparam name="T">One case or several.</typeparam>
internal readonly struct StepConstants<T> where T : struct, ILane<T>
{
    internal readonly T StepHours, LowestKwh, HighestKwh, UsablePerKwh;
    internal readonly T ChargeLimitKw, DischargeLimitKw, InverterKw, SolarInputKw, StandbyKw;
    internal readonly T ChargeEfficiency, PerDischargeEfficiency, InverterEfficiency, PerInverterEfficiency, RectifierEfficiency, PerRectifierEfficiency;
    internal readonly T RoomKwPerKwh, OutKwPerKwh;
    internal readonly T InverterBreakerKw, ThroughInverterKw, ImportKw, ReliefKw, ExportKw, BusbarKw, AcOnBusbar;
    internal readonly T RestartAboveKwh;
    internal readonly TaperLine<T> ChargeTaper, DischargeTaper;
    internal readonly bool Tapers, WakesBySolar, ManagesLoad, SeparateSolarFollows, SeparateSolarTooLarge, SeparateSolarLockedOut, HasGenerator;

    /// <param name="plant">The equipment.</param>
    /// <param name="site">The wiring.</param>
    /// <param name="stepHours">Length of an interval, h.</param>
    /// <param name="offGrid">True when the grid is down.</param>
    /// <param name="generatorKw">Off the grid: most power of the generator that runs, kW; it stands where the grid's import would.</param>
    /// <param name="locksOutSeparateSolar">Off the grid: true when the separate solar inverter is kept off.</param>
    public StepConstants(Plant plant, SiteLimits site, double stepHours, bool offGrid, double generatorKw = 0, bool locksOutSeparateSolar = false)
    {
        ArgumentNullException.ThrowIfNull(plant);
        ArgumentNullException.ThrowIfNull(site);
        plant.Validate();
        StepHours = T.All(stepHours);
        LowestKwh = T.All(plant.LowestKwh);
        HighestKwh = T.All(plant.HighestKwh);
        UsablePerKwh = T.All(plant.UsableKwh > 0 ? 1 / plant.UsableKwh : 0);
        ChargeLimitKw = T.All(plant.ChargeLimitKw);
        DischargeLimitKw = T.All(plant.DischargeLimitKw * plant.InverterEfficiency);
        InverterKw = T.All(plant.InverterKw);
        SolarInputKw = T.All(plant.SolarInputKw);
        StandbyKw = T.All(plant.StandbyKw);
        ChargeEfficiency = T.All(plant.ChargeEfficiency);
        PerDischargeEfficiency = T.All(1 / plant.DischargeEfficiency);
        InverterEfficiency = T.All(plant.InverterEfficiency);
        PerInverterEfficiency = T.All(1 / plant.InverterEfficiency);
        RectifierEfficiency = T.All(plant.RectifierEfficiency);
        PerRectifierEfficiency = T.All(1 / plant.RectifierEfficiency);
        RoomKwPerKwh = T.All(1 / (plant.ChargeEfficiency * stepHours));
        OutKwPerKwh = T.All(plant.DischargeEfficiency * plant.InverterEfficiency / stepHours);
        InverterBreakerKw = T.All(site.InverterBreakerKw);
        ThroughInverterKw = T.All(Math.Min(plant.InverterKw, site.InverterBreakerKw));
        ImportKw = T.All(offGrid ? generatorKw : site.ImportKw);
        ReliefKw = T.All(offGrid ? generatorKw : site.RelievesImport ? site.ImportKw : double.PositiveInfinity);
        ExportKw = T.All(offGrid ? 0 : site.ExportKw);
        BusbarKw = T.All(site.BusbarKw);
        AcOnBusbar = T.All(site.AcSolarOnBusbar ? 1 : 0);
        RestartAboveKwh = T.All(plant.LowestKwh + (plant.RestartKwh ?? (0.1 * plant.UsableKwh)) - Step.ToleranceKwh);
        ChargeTaper = new TaperLine<T>(plant.ChargeTaper);
        DischargeTaper = new TaperLine<T>(plant.DischargeTaper);
        Tapers = !plant.ChargeTaper.IsNone || !plant.DischargeTaper.IsNone;
        WakesBySolar = plant.WakesBySolar;
        ManagesLoad = site.ManagesLoad;
        SeparateSolarLockedOut = locksOutSeparateSolar;
        HasGenerator = offGrid && generatorKw > 0;
        SeparateSolarFollows = plant.SeparateSolar.FollowsLoad;
        SeparateSolarTooLarge = plant.SeparateSolar.AcRatingKw is double rating
            && rating > Math.Min(plant.InverterKw, plant.ChargeLimitKw / plant.RectifierEfficiency);
    }
}

/// <summary>A taper as a first value and the changes of slope, so that it needs no search: flat before the first point and after the last.</summary>
/// <typeparam name="T">One case or several.</typeparam>
internal readonly struct TaperLine<T> where T : struct, ILane<T>
{
    private readonly T _first;
    private readonly T[] _at;
    private readonly T[] _bend;

    public TaperLine(Taper taper)
    {
        int n = taper.Points.Count;
        IsNone = n == 0;
        _at = new T[n];
        _bend = new T[n];
        if (n == 0) return;
        _first = T.All(taper.Points[0].LimitFraction);
        double slope = 0;
        for (int i = 0; i < n; i++)
        {
            double next = i + 1 < n
                ? (taper.Points[i + 1].LimitFraction - taper.Points[i].LimitFraction) / (taper.Points[i + 1].EnergyFraction - taper.Points[i].EnergyFraction)
                : 0;
            _at[i] = T.All(taper.Points[i].EnergyFraction);
            _bend[i] = T.All(next - slope);
            slope = next;
        }
    }

    public bool IsNone { get; }

    /// <summary>Share of the limit at a share of usable energy, never below 0.</summary>
    public T At(T energyFraction)
    {
        T zero = T.All(0);
        T share = _first;
        for (int i = 0; i < _at.Length; i++) share += T.Max(zero, energyFraction - _at[i]) * _bend[i];
        return T.Max(zero, share);
    }
}

/// <summary>A set-point row ready for the step: clamped to [Emin, Emax], with the flags that let the step skip rules.</summary>
/// <typeparam name="T">One case or several.</typeparam>
internal readonly struct StepRow<T> where T : struct, ILane<T>
{
    internal readonly T FloorKwh, CeilingKwh, GridCeilingKwh, ImportTargetKw, SellDownKwh;
    internal readonly bool ChargesFromGrid, Sells;

    /// <param name="row">What is wanted.</param>
    /// <param name="plant">The equipment, for its lowest and highest energy.</param>
    public StepRow(SetPointRow row, Plant plant)
    {
        ArgumentNullException.ThrowIfNull(plant);
        double low = plant.LowestKwh, high = plant.HighestKwh;
        double floor = Math.Clamp(row.FloorKwh, low, high);
        double grid = Math.Clamp(row.GridCeilingKwh, low, high);
        FloorKwh = T.All(floor);
        GridCeilingKwh = T.All(grid);
        CeilingKwh = T.All(Math.Max(Math.Clamp(row.SolarCeilingKwh, low, high), grid));
        ImportTargetKw = T.All(row.ImportTargetKw);
        SellDownKwh = T.All(Math.Max(Math.Clamp(row.SellDownKwh, low, high), floor));
        ChargesFromGrid = grid > low;
        Sells = row.SellDownKwh < high && Math.Max(row.SellDownKwh, floor) < high;
    }
}
