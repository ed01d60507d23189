namespace EnergySim.Wiring;

/// <summary>What an appliance is to a load calculation.</summary>
public enum ApplianceKind
{
    /// <summary>Fastened in place or on a circuit of its own: dishwasher, water heater, car charger.</summary>
    Fixed,

    /// <summary>A household range.</summary>
    Range,

    /// <summary>A clothes dryer.</summary>
    Dryer,
}

/// <summary>An appliance by its nameplate.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Va">Nameplate, VA.</param>
/// <param name="Kind">What it is to the calculation.</param>
public sealed record Appliance(string Name, double Va, ApplianceKind Kind = ApplianceKind.Fixed);

/// <summary>Kinds of heating and cooling that a load calculation tells apart.</summary>
public enum ClimateKind
{
    /// <summary>Air conditioning or a heat pump without supplementary heat.</summary>
    Cooling,

    /// <summary>Central electric heat.</summary>
    CentralHeat,

    /// <summary>Electric heat in fewer than four separately controlled units.</summary>
    FewHeaters,

    /// <summary>Electric heat in four or more separately controlled units.</summary>
    ManyHeaters,
}

/// <summary>A heating or cooling load.</summary>
/// <param name="Kind">Its kind.</param>
/// <param name="Va">Nameplate, VA.</param>
public sealed record ClimateLoad(ClimateKind Kind, double Va);

/// <summary>Measured demand of the house.</summary>
/// <param name="MaxKw">The highest demand, kW.</param>
/// <param name="IsWholeYear">True for a year's record; false for one of 30 days by quarter-hours.</param>
public sealed record MeasuredDemand(double MaxKw, bool IsWholeYear);

/// <summary>The loads of a dwelling, for its load calculation.</summary>
public sealed record DwellingLoads
{
    /// <summary>Floor area, square feet.</summary>
    public required double AreaSquareFeet { get; init; }

    /// <summary>Small-appliance circuits, at least two.</summary>
    public int SmallApplianceCircuits { get; init; } = 2;

    /// <summary>Laundry circuits.</summary>
    public int LaundryCircuits { get; init; } = 1;

    /// <summary>Appliances.</summary>
    public IReadOnlyList<Appliance> Appliances { get; init; } = [];

    /// <summary>Heating and cooling.</summary>
    public IReadOnlyList<ClimateLoad> Climate { get; init; } = [];

    /// <summary>Loads that the work adds, VA.</summary>
    public double AddedVa { get; init; }

    /// <summary>Measured demand; null = none.</summary>
    public MeasuredDemand? Measured { get; init; }

    /// <summary>The largest single load, VA: an appliance's, or the whole of a cooling or heating line; lights are none.</summary>
    public double LargestVa => Appliances.Select(a => a.Va).Concat(Climate.Select(c => c.Va)).DefaultIfEmpty(0).Max();
}

/// <summary>Outcome of a load calculation.</summary>
/// <param name="Rule">The method.</param>
/// <param name="Va">The calculated load, VA.</param>
/// <param name="Arithmetic">How it comes about.</param>
public sealed record CalculatedLoad(WiringRule Rule, double Va, string Arithmetic)
{
    /// <summary>The current at the service's volts, A.</summary>
    public double Amps(double volts) => Va / volts;
}
