namespace EnergySim.Equipment;

/// <summary>The solar inverter that stays on the wall beside the battery and feeds <c>solarAc</c>.</summary>
/// <param name="AcRatingKw">Its AC rating, kW; null when unknown (then the 1:1 rule is not asked).</param>
/// <param name="FollowsLoad">Off the grid: true when it gives just what load and charging take; false when it trips instead.</param>
public sealed record SeparateSolarInverter(double? AcRatingKw, bool FollowsLoad = true);

/// <summary>
/// What one step sees of the equipment: all units together, in kW and kWh. Made by <see cref="OfBatteries"/> or directly.
/// </summary>
public sealed record Plant
{
    /// <summary>Nothing installed: no cells, no inverter.</summary>
    public static Plant Nothing { get; } = new();

    /// <summary>Highest stored energy, all units, after ageing (Emax), kWh.</summary>
    public double HighestKwh { get; init; }

    /// <summary>Lowest stored energy (Emin), kWh.</summary>
    public double LowestKwh { get; init; }

    /// <summary>Emax − Emin, kWh. A reserve of r means Emin + r × usable.</summary>
    public double UsableKwh => HighestKwh - LowestKwh;

    /// <summary>Most power into the cells (Pc), kW DC.</summary>
    public double ChargeLimitKw { get; init; }

    /// <summary>Most power out of the cells (Pd), kW DC.</summary>
    public double DischargeLimitKw { get; init; }

    /// <summary>ηc, 0–1.</summary>
    public double ChargeEfficiency { get; init; } = 1;

    /// <summary>ηd, 0–1.</summary>
    public double DischargeEfficiency { get; init; } = 1;

    /// <summary>AC rating of the battery inverters together (Pinv), each direction, kW.</summary>
    public double InverterKw { get; init; }

    /// <summary>ηinv, 0–1.</summary>
    public double InverterEfficiency { get; init; } = 1;

    /// <summary>ηrec, 0–1.</summary>
    public double RectifierEfficiency { get; init; } = 1;

    /// <summary>Most DC power that the solar inputs take (Psol), kW.</summary>
    public double SolarInputKw { get; init; } = double.PositiveInfinity;

    /// <summary>Own consumption, kW AC.</summary>
    public double StandbyKw { get; init; }

    /// <summary>Level above Emin at which a dark plant restarts, kWh; null = 10 % of usable.</summary>
    public double? RestartKwh { get; init; }

    /// <summary>True when DC solar wakes and charges a dark plant.</summary>
    public bool WakesBySolar { get; init; } = true;

    /// <summary>Share of Pc by share of usable energy.</summary>
    public Taper ChargeTaper { get; init; } = Taper.None;

    /// <summary>Share of Pd by share of usable energy.</summary>
    public Taper DischargeTaper { get; init; } = Taper.None;

    /// <summary>The separate solar inverter behind <c>solarAc</c>.</summary>
    public SeparateSolarInverter SeparateSolar { get; init; } = new(null);

    /// <summary>n units alike: energies and powers add.</summary>
    /// <param name="unit">One unit.</param>
    /// <param name="units">How many, ≥ 1.</param>
    /// <param name="separateSolar">The solar inverter that stays, if any.</param>
    public static Plant OfBatteries(Battery unit, int units, SeparateSolarInverter? separateSolar = null)
    {
        ArgumentNullException.ThrowIfNull(unit);
        ArgumentOutOfRangeException.ThrowIfLessThan(units, 1);
        return new Plant
        {
            HighestKwh = unit.CapacityKwh * units,
            LowestKwh = unit.LowestKwh * units,
            ChargeLimitKw = unit.ChargeLimitKw * units,
            DischargeLimitKw = unit.DischargeLimitKw * units,
            ChargeEfficiency = unit.ChargeEfficiency,
            DischargeEfficiency = unit.DischargeEfficiency,
            InverterKw = unit.InverterKw * units,
            InverterEfficiency = unit.InverterEfficiency,
            RectifierEfficiency = unit.RectifierEfficiency,
            SolarInputKw = unit.SolarInputKw * units,
            StandbyKw = unit.StandbyKw * units,
            RestartKwh = unit.RestartFraction * (unit.CapacityKwh - unit.LowestKwh) * units,
            WakesBySolar = unit.WakesBySolar,
            ChargeTaper = unit.ChargeTaper,
            DischargeTaper = unit.DischargeTaper,
            SeparateSolar = separateSolar ?? new(null),
        };
    }

    /// <summary>Checks every number against its range.</summary>
    /// <exception cref="ArgumentException">Names the first number out of range, and its range.</exception>
    public void Validate()
    {
        NotNegative(LowestKwh, nameof(LowestKwh));
        NotNegative(HighestKwh, nameof(HighestKwh));
        if (double.IsInfinity(HighestKwh)) throw Fault(nameof(HighestKwh), HighestKwh, "is finite");
        if (HighestKwh < LowestKwh) throw Fault(nameof(HighestKwh), HighestKwh, "is not below LowestKwh");
        NotNegative(ChargeLimitKw, nameof(ChargeLimitKw));
        NotNegative(DischargeLimitKw, nameof(DischargeLimitKw));
        NotNegative(InverterKw, nameof(InverterKw));
        NotNegative(SolarInputKw, nameof(SolarInputKw));
        NotNegative(StandbyKw, nameof(StandbyKw));
        NotNegative(RestartKwh ?? 0, nameof(RestartKwh));
        Share(ChargeEfficiency, nameof(ChargeEfficiency));
        Share(DischargeEfficiency, nameof(DischargeEfficiency));
        Share(InverterEfficiency, nameof(InverterEfficiency));
        Share(RectifierEfficiency, nameof(RectifierEfficiency));
    }

    /// <summary>Asks that a stored energy is one the plant can hold, to 1e-9 kWh.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is not.</exception>
    internal void CheckLevel(double startKwh)
    {
        if (!(startKwh >= LowestKwh - 1e-9 && startKwh <= HighestKwh + 1e-9))
            throw new ArgumentOutOfRangeException(nameof(startKwh), startKwh, string.Create(System.Globalization.CultureInfo.InvariantCulture, $"The start lies between {LowestKwh} and {HighestKwh} kWh."));
    }

    private static void NotNegative(double value, string name)
    {
        if (!(value >= 0)) throw Fault(name, value, "is a number of at least 0");
    }

    private static void Share(double value, string name)
    {
        if (!(value is > 0 and <= 1)) throw Fault(name, value, "is above 0 and at most 1");
    }

    private static ArgumentException Fault(string name, double value, string rule) =>
        new(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{name} is {value}; it {rule}."), name);
}
