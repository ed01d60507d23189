using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
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

    // Read once, before the loop, and kept in registers: the JIT would load a number that it knows at each use.
    internal readonly T TinyKw = T.All(Step.TinyKw), BoundlessKw = T.All(double.PositiveInfinity);
    internal readonly TaperLine<T> ChargeTaper, DischargeTaper;
    internal readonly bool Tapers, GuardsBusbar, WakesBySolar, ManagesLoad, SeparateSolarFollows, SeparateSolarTooLarge, SeparateSolarLockedOut, HasGenerator;

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
        double breakerKw = Math.Max(0, site.InverterBreakerKw);
        InverterBreakerKw = T.All(breakerKw);
        ThroughInverterKw = T.All(Math.Min(plant.InverterKw, breakerKw));
        ImportKw = T.All(offGrid ? generatorKw : site.ImportKw);
        ReliefKw = T.All(offGrid ? generatorKw : site.RelievesImport ? site.ImportKw : double.PositiveInfinity);
        ExportKw = T.All(offGrid ? 0 : Math.Max(0, site.ExportKw));
        BusbarKw = T.All(site.BusbarKw);
        AcOnBusbar = T.All(site.AcSolarOnBusbar ? 1 : 0);
        RestartAboveKwh = T.All(plant.LowestKwh + (plant.RestartKwh ?? (0.1 * plant.UsableKwh)) - Step.ToleranceKwh);
        ChargeTaper = new TaperLine<T>(plant.ChargeTaper);
        DischargeTaper = new TaperLine<T>(plant.DischargeTaper);
        Tapers = !plant.ChargeTaper.IsNone || !plant.DischargeTaper.IsNone;
        GuardsBusbar = !double.IsInfinity(site.BusbarKw);
        WakesBySolar = plant.WakesBySolar;
        ManagesLoad = site.ManagesLoad;
        SeparateSolarLockedOut = locksOutSeparateSolar;
        HasGenerator = offGrid && generatorKw > 0;
        SeparateSolarFollows = plant.SeparateSolar.FollowsLoad;
        SeparateSolarTooLarge = plant.SeparateSolar.AcRatingKw is double rating
            && rating > Math.Min(plant.InverterKw, plant.ChargeLimitKw / plant.RectifierEfficiency);
    }

    /// <summary>Cases side by side, on the grid.</summary>
    /// <param name="cases">A case a lane.</param>
    /// <param name="charge">Their tapers of charging.</param>
    /// <param name="discharge">Their tapers of discharging.</param>
    public StepConstants(ReadOnlySpan<StepConstants<Scalar>> cases, TaperLine<T> charge, TaperLine<T> discharge)
    {
        StepHours = Gather(cases, static (in c) => c.StepHours);
        LowestKwh = Gather(cases, static (in c) => c.LowestKwh);
        HighestKwh = Gather(cases, static (in c) => c.HighestKwh);
        UsablePerKwh = Gather(cases, static (in c) => c.UsablePerKwh);
        ChargeLimitKw = Gather(cases, static (in c) => c.ChargeLimitKw);
        DischargeLimitKw = Gather(cases, static (in c) => c.DischargeLimitKw);
        InverterKw = Gather(cases, static (in c) => c.InverterKw);
        SolarInputKw = Gather(cases, static (in c) => c.SolarInputKw);
        StandbyKw = Gather(cases, static (in c) => c.StandbyKw);
        ChargeEfficiency = Gather(cases, static (in c) => c.ChargeEfficiency);
        PerDischargeEfficiency = Gather(cases, static (in c) => c.PerDischargeEfficiency);
        InverterEfficiency = Gather(cases, static (in c) => c.InverterEfficiency);
        PerInverterEfficiency = Gather(cases, static (in c) => c.PerInverterEfficiency);
        RectifierEfficiency = Gather(cases, static (in c) => c.RectifierEfficiency);
        PerRectifierEfficiency = Gather(cases, static (in c) => c.PerRectifierEfficiency);
        RoomKwPerKwh = Gather(cases, static (in c) => c.RoomKwPerKwh);
        OutKwPerKwh = Gather(cases, static (in c) => c.OutKwPerKwh);
        InverterBreakerKw = Gather(cases, static (in c) => c.InverterBreakerKw);
        ThroughInverterKw = Gather(cases, static (in c) => c.ThroughInverterKw);
        ImportKw = Gather(cases, static (in c) => c.ImportKw);
        ReliefKw = Gather(cases, static (in c) => c.ReliefKw);
        ExportKw = Gather(cases, static (in c) => c.ExportKw);
        BusbarKw = Gather(cases, static (in c) => c.BusbarKw);
        AcOnBusbar = Gather(cases, static (in c) => c.AcOnBusbar);
        RestartAboveKwh = Gather(cases, static (in c) => c.RestartAboveKwh);
        (ChargeTaper, DischargeTaper) = (charge, discharge);
        Tapers = !charge.IsNone || !discharge.IsNone;
        foreach (ref readonly StepConstants<Scalar> one in cases) GuardsBusbar |= one.GuardsBusbar;
    }

    private static T Gather(ReadOnlySpan<StepConstants<Scalar>> cases, ConstantOf constant)
    {
        T result = default;
        Span<double> lanes = MemoryMarshal.Cast<T, double>(new Span<T>(ref result));
        for (int c = 0; c < lanes.Length; c++) lanes[c] = constant(in cases[c]).Value;
        return result;
    }
}

/// <summary>One number of a case's constants.</summary>
internal delegate Scalar ConstantOf(in StepConstants<Scalar> constants);

/// <summary>One number of a case's row.</summary>
internal delegate Scalar RowNumberOf(in StepRow<Scalar> row);

/// <summary>A taper as a first value and changes of slope, so that it needs no search: flat before the first point and after the last.</summary>
/// <typeparam name="T">One case or several.</typeparam>
internal readonly struct TaperLine<T> where T : struct, ILane<T>
{
    private readonly T _first;
    private readonly double[] _at, _bend;
    private readonly int _points;

    public TaperLine(Taper taper)
    {
        _at = taper.At;
        _bend = taper.Bend;
        _points = taper.Points.Count;
        _first = T.All(taper.First);
    }

    /// <param name="cases">A taper a case.</param>
    /// <param name="room">Where points side by side are kept.</param>
    public TaperLine(ReadOnlySpan<Taper> cases, TaperRoom room)
    {
        foreach (Taper taper in cases) _points = Math.Max(_points, taper.Points.Count);
        room.Grow(_points * T.Count);
        (_at, _bend) = (room.At, room.Bend);
        Span<T> first = new(ref _first);
        for (int c = 0; c < T.Count; c++)
        {
            Taper taper = cases[c];
            MemoryMarshal.Cast<T, double>(first)[c] = taper.First;
            for (int p = 0; p < _points; p++)
            {
                // A bend of 0 changes nothing: a case with fewer points gives the same bits as alone.
                bool has = p < taper.Points.Count;
                (_at[(p * T.Count) + c], _bend[(p * T.Count) + c]) = has ? (taper.At[p], taper.Bend[p]) : (0, 0);
            }
        }
    }

    public bool IsNone => _points == 0;

    /// <summary>Share of the limit at a share of usable energy, never below 0.</summary>
    /// <remarks>No call, and none within: a step in which one could happen has to keep every vector in memory.</remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T At(T energyFraction)
    {
        T share = _first, zero = T.All(0);
        ref T at = ref Unsafe.As<double, T>(ref MemoryMarshal.GetArrayDataReference(_at)), bend = ref Unsafe.As<double, T>(ref MemoryMarshal.GetArrayDataReference(_bend));
        for (int i = 0; i < _points; i++) share += T.Max(zero, energyFraction - Unsafe.Add(ref at, i)) * Unsafe.Add(ref bend, i);
        return T.Max(zero, share);
    }
}

/// <summary>Room for the points of tapers side by side; grown where need be, and used again.</summary>
internal sealed class TaperRoom
{
    public double[] At { get; private set; } = [];

    public double[] Bend { get; private set; } = [];

    public void Grow(int count)
    {
        if (At.Length < count) (At, Bend) = (new double[count], new double[count]);
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

    /// <summary>Rows side by side: a rule is asked where it concerns any.</summary>
    /// <param name="cases">A row a lane.</param>
    public StepRow(ReadOnlySpan<StepRow<Scalar>> cases)
    {
        FloorKwh = Gather(cases, static (in r) => r.FloorKwh);
        CeilingKwh = Gather(cases, static (in r) => r.CeilingKwh);
        GridCeilingKwh = Gather(cases, static (in r) => r.GridCeilingKwh);
        ImportTargetKw = Gather(cases, static (in r) => r.ImportTargetKw);
        SellDownKwh = Gather(cases, static (in r) => r.SellDownKwh);
        foreach (ref readonly StepRow<Scalar> row in cases)
        {
            ChargesFromGrid |= row.ChargesFromGrid;
            Sells |= row.Sells;
        }
    }

    private static T Gather(ReadOnlySpan<StepRow<Scalar>> cases, RowNumberOf number)
    {
        T result = default;
        Span<double> lanes = MemoryMarshal.Cast<T, double>(new Span<T>(ref result));
        for (int c = 0; c < lanes.Length; c++) lanes[c] = number(in cases[c]).Value;
        return result;
    }
}
