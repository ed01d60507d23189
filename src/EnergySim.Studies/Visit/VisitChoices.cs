using EnergySim.Studies.Outages;
using NodaTime;

namespace EnergySim.Studies.Visit;

/// <summary>What is tried out at the table, laid over what a home's files say. Null, or not in a list: as the files say.</summary>
public sealed record VisitChoices
{
    /// <summary>The reserve of every offer, 0–1.</summary>
    public double? ReserveFraction { get; init; }

    /// <summary>Number of battery units by the offer's name, 1–50.</summary>
    public IReadOnlyDictionary<string, int> Units { get; init; } = new Dictionary<string, int>();

    /// <summary>Price installed by the offer's name, ≥ 0.</summary>
    public IReadOnlyDictionary<string, decimal> Prices { get; init; } = new Dictionary<string, decimal>();

    /// <summary>Share of the sun that is left in the outage, 0–2.</summary>
    public double? SunFraction { get; init; }

    /// <summary>Length of the named outage, h, 1–8760.</summary>
    public int? OutageHours { get; init; }

    /// <summary>Local start of the named outage.</summary>
    public LocalDateTime? OutageStart { get; init; }

    /// <summary>Share of the house (of its rest, where parts are named) that is kept running, 0–1.</summary>
    public double? KeptFraction { get; init; }

    /// <summary>Whether a part of the house named in the files runs, by its name.</summary>
    public IReadOnlyDictionary<string, bool> Parts { get; init; } = new Dictionary<string, bool>();

    /// <summary>What the battery holds when the grid fails.</summary>
    public StartCharge? Charge { get; init; }

    /// <summary>Growth of energy prices a year, as a fraction.</summary>
    public double? EnergyGrowthFraction { get; init; }

    /// <summary>Name of the way to connect; null = as the offers state it.</summary>
    public string? Way { get; init; }

    /// <summary>Checks the ranges.</summary>
    /// <exception cref="ArgumentException">Names the first that is out of its range.</exception>
    public void Validate()
    {
        Check("reserve", ReserveFraction, 0, 1);
        Check("sun", SunFraction, 0, 2);
        Check("kept", KeptFraction, 0, 1);
        Check("growth", EnergyGrowthFraction, -0.2, 0.5);
        Check("hours", OutageHours, 1, 8760);
        foreach ((string offer, int units) in Units) Check($"units of {offer}", units, 1, 50);
        foreach ((string offer, decimal price) in Prices) Check($"price of {offer}", (double)price, 0, 1e9);
        if (Charge is StartCharge charge && !Enum.IsDefined(charge)) throw new ArgumentException("charge: it is not one that is known.");
    }

    private static void Check(string name, double? value, double least, double most)
    {
        if (value is double number && !(number >= least && number <= most)) throw new ArgumentException(FormattableString.Invariant($"{name}: {number} does not lie between {least} and {most}."));
    }
}
