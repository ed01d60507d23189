using EnergySim.Profiles;

namespace EnergySim.Files;

/// <summary>A profile as it was read, and what was done to it on the way.</summary>
public sealed record ProfileReading
{
    /// <summary>Path of the file.</summary>
    public required string File { get; init; }

    /// <summary>The profile.</summary>
    public required Profile Profile { get; init; }

    /// <summary>Number of rows below the header.</summary>
    public required int Rows { get; init; }

    /// <summary>What was dropped, split or left out because the options asked for it, a sentence each.</summary>
    public required IReadOnlyList<string> Repairs { get; init; }

    /// <summary>Energy of the profile, kWh.</summary>
    public double EnergyKwh => Profile.EnergyKwh;
}
