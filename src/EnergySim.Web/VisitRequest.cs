using System.Text.Json;
using System.Text.Json.Serialization;
using EnergySim.Studies.Outages;
using EnergySim.Studies.Visit;

namespace EnergySim.Web;

/// <summary>A home and what is tried out on it.</summary>
internal record VisitRequest
{
    /// <summary>Name of the home's file, such as <c>demo/profiles/demo-home.yaml</c>.</summary>
    public required string Home { get; init; }

    /// <summary>Name of a tariff file in place of the home's; null = the home's.</summary>
    public string? Plan { get; init; }

    /// <summary>What is tried out.</summary>
    public AskedChoices Choices { get; init; } = new();

    /// <summary>How requests are read: unknown words are refused, enumerations are words.</summary>
    public static void Configure(JsonSerializerOptions options)
    {
        options.UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow;
        options.NumberHandling = JsonNumberHandling.Strict;
        options.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false));
    }
}

/// <summary>What is tried out, as a request states it; what is left out or null stays as the home's files say.</summary>
internal sealed record AskedChoices
{
    /// <summary>The reserve of every offer, 0–1.</summary>
    public double? ReserveFraction { get; init; }

    /// <summary>Number of battery units by offer.</summary>
    public IReadOnlyDictionary<string, int>? Units { get; init; }

    /// <summary>Price installed by offer.</summary>
    public IReadOnlyDictionary<string, decimal>? Prices { get; init; }

    /// <summary>Share of the sun that is left in the outage, 0–2.</summary>
    public double? SunFraction { get; init; }

    /// <summary>Length of the named outage, h.</summary>
    public int? OutageHours { get; init; }

    /// <summary>Its local start, <c>2025-01-15T18:00</c>.</summary>
    public string? OutageStart { get; init; }

    /// <summary>Share of the house that is kept running, 0–1.</summary>
    public double? KeptFraction { get; init; }

    /// <summary>Whether a part that the home names runs.</summary>
    public IReadOnlyDictionary<string, bool>? Parts { get; init; }

    /// <summary>What the battery holds when the grid fails: <c>everyday</c>, <c>full</c>, <c>reserve</c> or <c>storm</c>.</summary>
    public StartCharge? Charge { get; init; }

    /// <summary>Growth of energy prices a year, as a fraction.</summary>
    public double? EnergyGrowthFraction { get; init; }

    /// <summary>Name of the way to connect.</summary>
    public string? Way { get; init; }

    /// <exception cref="ArgumentException">The start is no local date and time.</exception>
    public VisitChoices ToChoices() => new()
    {
        ReserveFraction = ReserveFraction,
        Units = Units ?? new Dictionary<string, int>(),
        Prices = Prices ?? new Dictionary<string, decimal>(),
        SunFraction = SunFraction,
        OutageHours = OutageHours,
        OutageStart = OutageStart is null ? null : OutageTerms.TryParseStart(OutageStart, out NodaTime.LocalDateTime at) ? at
            : throw new ArgumentException($"outageStart: \"{OutageStart}\" is no local date and time like 2025-01-15T18:00."),
        KeptFraction = KeptFraction,
        Parts = Parts ?? new Dictionary<string, bool>(),
        Charge = Charge,
        EnergyGrowthFraction = EnergyGrowthFraction,
        Way = Way,
    };
}
