namespace EnergySim.Equipment;

/// <summary>
/// A motor that starts across the line: a cooling unit's compressor, a pump. What the nameplate says is given; the rest is taken from
/// <see cref="MotorTables"/>.
/// </summary>
public sealed record Motor
{
    /// <summary>What a soft starter takes off the starting current where nothing is stated: the low end of the trade's 60–75 % (a trade claim, common practice).</summary>
    public const double SoftStarterCutFraction = 0.6;

    /// <summary>What it is.</summary>
    public required string Name { get; init; }

    /// <summary>Its voltage, V: 230 between the legs, 115 on one of them.</summary>
    public double Volts { get; init; } = 230;

    /// <summary>Locked-rotor amps of the nameplate (LRA); null = from what follows.</summary>
    public double? NameplateLockedRotorAmps { get; init; }

    /// <summary>Running amps of the nameplate (RLA, FLA); null = from what follows.</summary>
    public double? NameplateRunningAmps { get; init; }

    /// <summary>Nominal tons of a cooling unit or heat pump; null = it is none.</summary>
    public double? CoolingTons { get; init; }

    /// <summary>Horsepower; null = unknown.</summary>
    public double? Horsepower { get; init; }

    /// <summary>Code letter of the nameplate (kVA per horsepower with the rotor locked); null = unknown.</summary>
    public char? CodeLetter { get; init; }

    /// <summary>Share that a soft starter takes off the locked-rotor current, 0–1; null = <see cref="SoftStarterCutFraction"/>.</summary>
    public double? SoftStarterCut { get; init; }

    /// <summary>True when it has a soft starter already.</summary>
    public bool HasSoftStarter { get; init; }

    /// <summary>
    /// Amps when started across the line: the nameplate's; else 1000 × kVA per hp × hp ÷ V at the upper end of the code letter; else by tons, else
    /// by horsepower. Null = nothing is known.
    /// </summary>
    public double? LockedRotorAmps
    {
        get
        {
            if (NameplateLockedRotorAmps is double amps) return amps;
            if (CodeLetter is char letter && Horsepower is double hp) return MotorTables.CodeLetters.TryGetValue(letter, out double kva) ? 1000 * kva * hp / Volts : null;
            if (CoolingTons is double tons) return OfTons(tons)?.LockedRotorAmps;
            return Horsepower is double power ? MotorTables.Amps(MotorTables.LockedRotor, power, Volts) : null;
        }
    }

    /// <summary>Amps while it runs, from the nameplate, tons or horsepower; null = nothing is known.</summary>
    public double? RunningAmps
    {
        get
        {
            if (NameplateRunningAmps is double amps) return amps;
            if (CoolingTons is double tons) return OfTons(tons)?.RatedAmps;
            return Horsepower is double power ? MotorTables.Amps(MotorTables.FullLoad, power, Volts) : null;
        }
    }

    /// <summary>Amps when started with a soft starter; null = nothing is known.</summary>
    public double? SoftStartAmps => LockedRotorAmps * (1 - (SoftStarterCut ?? SoftStarterCutFraction));

    // The unit of that size, or of the next larger.
    private static (double RatedAmps, double LockedRotorAmps)? OfTons(double tons)
    {
        foreach ((double size, double rated, double locked) in MotorTables.Cooling)
            if (tons <= size) return (rated, locked);
        return null;
    }
}
