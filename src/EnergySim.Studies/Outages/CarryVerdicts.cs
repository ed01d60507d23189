using EnergySim.Equipment;
using NodaTime;

namespace EnergySim.Studies.Outages;

/// <summary>An answer that may be unknown.</summary>
public enum Answer
{
    /// <summary>The data do not tell.</summary>
    Unknown,

    /// <summary>Yes.</summary>
    Yes,

    /// <summary>No.</summary>
    No,
}

/// <summary>How the kept load lies on the two legs of a split-phase service; what is left lies between them.</summary>
/// <param name="First">Share on the first leg alone, 0–1.</param>
/// <param name="Second">Share on the second leg alone, 0–1; together at most 1.</param>
public sealed record LegShares(double First, double Second)
{
    internal void Validate()
    {
        if (!(First >= 0 && Second >= 0 && First + Second <= 1 + 1e-9)) throw new ArgumentException("The shares on the legs are at least 0 and together at most 1.");
    }
}

/// <summary>"Can it carry the house?": three answers that do not stand for each other, and one a leg where legs are known.</summary>
public sealed record CarryVerdicts
{
    /// <summary>Continuous power.</summary>
    public required PowerVerdict Power { get; init; }

    /// <summary>Starting current; null = no motor was stated.</summary>
    public required StartingVerdict? Starting { get; init; }

    /// <summary>Energy, in the outage told in detail.</summary>
    public required Answer Energy { get; init; }

    /// <summary>Each leg; null = legs are not known.</summary>
    public required LegVerdict? Legs { get; init; }
}

/// <summary>Highest kept load against continuous power.</summary>
/// <param name="Carries">Yes only as far as the data can tell.</param>
/// <param name="PeakKw">Highest kept load with standby, mean of an interval, kW.</param>
/// <param name="PeakAt">When.</param>
/// <param name="ContinuousKw">What inverter, cells and breaker give, kW.</param>
/// <param name="HoursAbove">Hours of the data in which the load is above it.</param>
/// <param name="IsCoarse">True when intervals are so long (15 minutes and more) that peaks within them are not seen.</param>
public sealed record PowerVerdict(Answer Carries, double PeakKw, LocalDateTime PeakAt, double ContinuousKw, double HoursAbove, bool IsCoarse);

/// <summary>Largest motor start on top of the running load, against the inverters' surge rating.</summary>
/// <param name="Across">Across the line.</param>
/// <param name="Soft">With a soft starter on each motor.</param>
/// <param name="SurgeAmps">Surge rating of all units, A; null = not stated.</param>
/// <param name="Starts">Each motor, the largest start first.</param>
public sealed record StartingVerdict(Answer Across, Answer Soft, double? SurgeAmps, IReadOnlyList<MotorStart> Starts);

/// <summary>One motor's start.</summary>
/// <param name="Motor">The motor.</param>
/// <param name="LockedRotorAmps">As it stands (with its soft starter if it has one), A; null = unknown.</param>
/// <param name="SoftAmps">With a soft starter, A; null = unknown.</param>
/// <param name="OthersAmps">What else runs at the house's peak, A.</param>
public sealed record MotorStart(Motor Motor, double? LockedRotorAmps, double? SoftAmps, double OthersAmps);

/// <summary>Each leg's load against half the inverters' rating.</summary>
/// <param name="Carries">Both legs.</param>
/// <param name="FirstKw">Highest load of the first leg, kW.</param>
/// <param name="SecondKw">Highest load of the second leg, kW.</param>
/// <param name="PerLegKw">What a leg gives: half the rating (common practice; the data sheet may say otherwise), kW.</param>
public sealed record LegVerdict(Answer Carries, double FirstKw, double SecondKw, double PerLegKw);
