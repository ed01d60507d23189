namespace EnergySim.Equipment;

/// <summary>One battery unit with its inverter, as its data sheet gives it. Several alike are <see cref="Plant"/>s of n units.</summary>
public sealed record Battery
{
    /// <summary>What the offer calls it.</summary>
    public required string Name { get; init; }

    /// <summary>Highest stored energy, kWh at the cells, &gt; 0.</summary>
    public required double CapacityKwh { get; init; }

    /// <summary>Lowest stored energy that the maker allows, kWh, ≥ 0 and below the capacity; 0 where the data sheet gives usable energy.</summary>
    public double LowestKwh { get; init; }

    /// <summary>Most power into the cells, kW DC at their terminals, &gt; 0.</summary>
    public required double ChargeLimitKw { get; init; }

    /// <summary>Most power out of the cells, kW DC at their terminals, &gt; 0.</summary>
    public required double DischargeLimitKw { get; init; }

    /// <summary>One-way efficiency into the cells, 0–1. Cell round trip = charge × discharge efficiency.</summary>
    public double ChargeEfficiency { get; init; } = 1;

    /// <summary>One-way efficiency out of the cells, 0–1.</summary>
    public double DischargeEfficiency { get; init; } = 1;

    /// <summary>AC rating of the battery inverter, each direction, kW, &gt; 0.</summary>
    public required double InverterKw { get; init; }

    /// <summary>Most current for the second or less in which a motor starts, A at the service's volts; null = the data sheet does not say.</summary>
    public double? SurgeAmps { get; init; }

    /// <summary>DC to AC efficiency, 0–1.</summary>
    public double InverterEfficiency { get; init; } = 1;

    /// <summary>AC to DC efficiency, 0–1.</summary>
    public double RectifierEfficiency { get; init; } = 1;

    /// <summary>Most DC power that the solar inputs take, kW, ≥ 0; 0 = none.</summary>
    public double SolarInputKw { get; init; } = double.PositiveInfinity;

    /// <summary>Number of solar inputs of one unit, each for one string; null = not stated.</summary>
    public int? SolarInputs { get; init; }

    /// <summary>Most DC power that one solar input takes, kW, &gt; 0; +∞ = not stated.</summary>
    public double SolarInputEachKw { get; init; } = double.PositiveInfinity;

    /// <summary>Own consumption, kW AC, ≥ 0.</summary>
    public double StandbyKw { get; init; }

    /// <summary>Level above the lowest at which an empty battery restarts off the grid, as a share of usable energy, 0–1.</summary>
    public double RestartFraction { get; init; } = 0.1;

    /// <summary>True when DC solar can wake and charge an empty battery off the grid.</summary>
    public bool WakesBySolar { get; init; } = true;

    /// <summary>Share of the charge limit by share of usable energy; empty = always all of it.</summary>
    public Taper ChargeTaper { get; init; } = Taper.None;

    /// <summary>Share of the discharge limit by share of usable energy; empty = always all of it.</summary>
    public Taper DischargeTaper { get; init; } = Taper.None;
}

/// <summary>
/// How a power limit falls near full or near empty: points (share of usable energy, share of the limit), linear between them, flat outside.
/// </summary>
public sealed class Taper
{
    /// <summary>The limit holds at any stored energy.</summary>
    public static Taper None { get; } = new([]);

    /// <param name="points">Shares of usable energy, strictly rising, each with its share of the limit; all 0–1. None = no taper.</param>
    /// <exception cref="ArgumentException">The points do not rise, or a share lies outside 0–1.</exception>
    public Taper(IReadOnlyList<(double EnergyFraction, double LimitFraction)> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        for (int i = 0; i < points.Count; i++)
        {
            (double x, double y) = points[i];
            if (!(x is >= 0 and <= 1 && y is >= 0 and <= 1))
                throw new ArgumentException("A taper's shares lie between 0 and 1.", nameof(points));
            if (i > 0 && !(x > points[i - 1].EnergyFraction))
                throw new ArgumentException("A taper's shares of energy must rise.", nameof(points));
        }
        Points = [.. points];
        if (points.Count == 0) return;
        First = points[0].LimitFraction;
        At = new double[points.Count];
        Bend = new double[points.Count];
        double slope = 0;
        for (int i = 0; i < At.Length; i++)
        {
            double next = i + 1 < At.Length
                ? (points[i + 1].LimitFraction - points[i].LimitFraction) / (points[i + 1].EnergyFraction - points[i].EnergyFraction)
                : 0;
            At[i] = points[i].EnergyFraction;
            Bend[i] = next - slope;
            slope = next;
        }
    }

    /// <summary>The points, rising.</summary>
    public IReadOnlyList<(double EnergyFraction, double LimitFraction)> Points { get; }

    /// <summary>True when there is nothing to apply.</summary>
    public bool IsNone => Points.Count == 0;

    /// <summary>The share of the limit at and before the first point.</summary>
    internal double First { get; } = 1;

    /// <summary>Where the slope changes: the points' shares of energy.</summary>
    internal double[] At { get; } = [];

    /// <summary>By how much the slope changes at each.</summary>
    internal double[] Bend { get; } = [];
}
