namespace EnergySim.Studies.Findings;

/// <summary>A file that a report was made from.</summary>
/// <param name="Name">Its name, as a person would say it: the last part of its path.</param>
/// <param name="Sha256">SHA-256 of its bytes, 64 lower-case hexadecimal digits.</param>
public sealed record InputDigest(string Name, string Sha256);

/// <summary>What anybody needs to make a report again.</summary>
public sealed record ReportManifest
{
    /// <summary>Version of the program.</summary>
    public required string ProgramVersion { get; init; }

    /// <summary>What was asked beside the files, name and value; empty = nothing.</summary>
    public IReadOnlyList<(string Name, string Value)> Options { get; init; } = [];

    /// <summary>The files, in the order in which they were read.</summary>
    public required IReadOnlyList<InputDigest> Inputs { get; init; }

    /// <summary>A date to be printed on the report, as it was given; null = none.</summary>
    public string? Dated { get; init; }
}
