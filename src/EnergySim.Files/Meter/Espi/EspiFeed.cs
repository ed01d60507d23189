namespace EnergySim.Files;

/// <summary>One reading as it stands: seconds since 1970-01-01 UTC, seconds (0 = not said), a whole number of the type's unit, a quality (-1 = not said), its line.</summary>
internal readonly record struct EspiReading(long Start, int Seconds, long Value, short Quality, int Line);

/// <summary>What an ESPI file holds, before anything is concluded from it. Resources are named by their links.</summary>
internal sealed class EspiFeed
{
    /// <summary>Kind of service (0 electricity, 1 gas, 2 water) and title, by the link of a usage point.</summary>
    public Dictionary<string, (int? Kind, string Title)> UsagePoints { get; } = new(StringComparer.Ordinal);

    /// <summary>Links of a meter reading's relatives, by its own.</summary>
    public Dictionary<string, List<string>> MeterReadings { get; } = new(StringComparer.Ordinal);

    public Dictionary<string, EspiReadingType> ReadingTypes { get; } = new(StringComparer.Ordinal);

    /// <summary>Readings by the link of their meter reading, in pieces: one array of a million would be copied each time it grew.</summary>
    public Dictionary<string, List<EspiReading[]>> Readings { get; } = new(StringComparer.Ordinal);

    public EspiLocalTime? LocalTime { get; set; }

    /// <summary>True when anything of the standard was seen.</summary>
    public bool IsEspi { get; set; }
}
