namespace EnergySim.Files;

/// <summary>The keys that a mapping of a file may hold, under the name it has in the schema.</summary>
/// <param name="Name">Name of the definition in the schema; empty for the whole file.</param>
/// <param name="Required">Keys that must be there.</param>
/// <param name="Optional">Keys that may be there.</param>
internal sealed record Section(string Name, string[] Required, string[] Optional)
{
    /// <summary>All keys.</summary>
    public IEnumerable<string> Keys => Required.Concat(Optional);
}
