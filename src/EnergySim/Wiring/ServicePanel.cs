namespace EnergySim.Wiring;

/// <summary>Where a source's breaker sits on the busbar.</summary>
public enum SourceEnd
{
    /// <summary>At the end opposite the main.</summary>
    Opposite,

    /// <summary>Beside the main, or anywhere.</summary>
    Anywhere,

    /// <summary>At one end of a busbar that is fed in its middle.</summary>
    CentreFed,
}

/// <summary>The service and its main panel, as an electrician finds them.</summary>
public sealed record ServicePanel
{
    /// <summary>Line-to-line volts: 240 for 120/240 V split phase, 208 for two legs of 120/208 V.</summary>
    public double Volts { get; init; } = 240;

    /// <summary>Rating of the main breaker, A.</summary>
    public required double MainAmps { get; init; }

    /// <summary>Rating of the busbar, A; not below the main.</summary>
    public required double BusbarAmps { get; init; }

    /// <summary>Rating of the service conductors and meter socket, A; null = that of the main.</summary>
    public double? ServiceAmps { get; init; }

    /// <summary>Where the sources' breakers sit or would sit.</summary>
    public SourceEnd SourceEnd { get; init; } = SourceEnd.Opposite;

    /// <summary>Free pole spaces; null = not known.</summary>
    public int? FreeSpaces { get; init; }

    /// <summary>Sum of the load breakers on the busbar, A, without main and sources; null = not known.</summary>
    public double? LoadBreakersAmps { get; init; }

    /// <summary>Rating of the breaker that today's solar inverter feeds, A; null = none, or the next size up from 125 % of its current.</summary>
    public double? SolarBreakerAmps { get; init; }

    /// <summary>Feeders to sub-panels.</summary>
    public IReadOnlyList<Feeder> Feeders { get; init; } = [];
}

/// <summary>A feeder from the main panel to a sub-panel.</summary>
public sealed record Feeder
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Its breaker in the main panel, A.</summary>
    public required double BreakerAmps { get; init; }

    /// <summary>Ampacity of its conductors, A.</summary>
    public required double ConductorAmps { get; init; }

    /// <summary>Rating of a breaker between the source's connection and the rest of the feeder, A; null = none.</summary>
    public double? DownstreamBreakerAmps { get; init; }

    /// <summary>Ampacity of a tap that joins the source to the feeder, A; null = no tap.</summary>
    public double? TapAmps { get; init; }

    /// <summary>Length of the tap, feet.</summary>
    public double TapFeet { get; init; } = 10;

    /// <summary>Share of the house's load that it carries, above 0 to 1.</summary>
    public double LoadFraction { get; init; } = 1;
}

/// <summary>Currents of the sources behind a panel, A continuous.</summary>
/// <param name="SolarAmps">Of today's solar inverter where it stays; else 0.</param>
/// <param name="BatteryAmps">Of the battery inverters together.</param>
public sealed record SourceCurrents(double SolarAmps, double BatteryAmps);
