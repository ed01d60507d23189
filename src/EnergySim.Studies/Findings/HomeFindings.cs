using EnergySim.Studies.Bills;
using EnergySim.Studies.Causes;
using EnergySim.Studies.Days;
using EnergySim.Studies.Lifetime;
using EnergySim.Studies.Outages;
using EnergySim.Studies.Solar;
using EnergySim.Studies.WiringFit;

namespace EnergySim.Studies.Findings;

/// <summary>Everything that a report tells of a home, each part a result of its own study.</summary>
public sealed record HomeFindings
{
    /// <summary>Where the home is, in words; empty = not stated.</summary>
    public required string Place { get; init; }

    /// <summary>True when the home has solar.</summary>
    public required bool HasSolar { get; init; }

    /// <summary>Who publishes the plan; empty = not stated.</summary>
    public required string Utility { get; init; }

    /// <summary>Days of the data.</summary>
    public required int Days { get; init; }

    /// <summary>The home as it is and with each offer.</summary>
    public required Comparison Comparison { get; init; }

    /// <summary>For each offer, the bills line by line, before and after.</summary>
    public required IReadOnlyList<OfferLines> BillLines { get; init; }

    /// <summary>For each offer, why it saves.</summary>
    public required IReadOnlyList<SavingCauses> Causes { get; init; }

    /// <summary>Ordinary days with the first offer, in July and January where the data have them.</summary>
    public required IReadOnlyList<DayFlows> OrdinaryDays { get; init; }

    /// <summary>The mean of all days with the first offer.</summary>
    public required DayFlows MeanDay { get; init; }

    /// <summary>The year by month and hour, as it is and with each offer.</summary>
    public required IReadOnlyList<MonthHours> ByMonthAndHour { get; init; }

    /// <summary>What the panels give; null = no solar.</summary>
    public required SolarYield? Sun { get; init; }

    /// <summary>What outages do.</summary>
    public required OutageResult Outages { get; init; }

    /// <summary>What each reserve saves and lasts.</summary>
    public required ReserveFrontier Reserve { get; init; }

    /// <summary>The ways to connect; null = the home states no panel.</summary>
    public required WiringComparison? Wiring { get; init; }

    /// <summary>For each offer that may be connected, its set-points.</summary>
    public required IReadOnlyList<SetPointSheet> Sheets { get; init; }

    /// <summary>The years to come; null = they can not be told, see <see cref="WhyNoLifetime"/>.</summary>
    public required LifetimeResult? Lifetime { get; init; }

    /// <summary>Why the years to come are not told; empty = they are.</summary>
    public required string WhyNoLifetime { get; init; }

    /// <summary>What was repaired or assumed when the files were read.</summary>
    public IReadOnlyList<string> Repairs { get; init; } = [];
}
