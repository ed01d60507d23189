using NodaTime;

namespace EnergySim.Files;

/// <summary>Where the numbers of a span of meter data come from.</summary>
public enum SpanMark : byte
{
    /// <summary>Measured.</summary>
    Measured,

    /// <summary>Estimated, as the file says.</summary>
    Estimated,

    /// <summary>The file has no number for it.</summary>
    Missing,

    /// <summary>Its share of a longer span, or of an hour that the clock showed twice.</summary>
    Split,

    /// <summary>Filled here, because that was asked for.</summary>
    Filled,
}

/// <summary>A span of time and what the meter counted in it.</summary>
/// <param name="Start">Its start.</param>
/// <param name="Seconds">Its length, s.</param>
/// <param name="ImportKwh">Bought, kWh ≥ 0; null = unknown.</param>
/// <param name="ExportKwh">Sold, kWh ≥ 0; null = unknown, or the file has no such channel.</param>
/// <param name="Mark">Where the numbers come from.</param>
public readonly record struct MeterSpan(Instant Start, int Seconds, double? ImportKwh, double? ExportKwh, SpanMark Mark)
{
    // A nullable double takes twice the room, and a file holds a million spans.
    private readonly double _importKwh = ImportKwh ?? double.NaN, _exportKwh = ExportKwh ?? double.NaN;

    /// <summary>Bought, kWh ≥ 0; null = unknown.</summary>
    public double? ImportKwh
    {
        get => double.IsNaN(_importKwh) ? null : _importKwh;
        init => _importKwh = value ?? double.NaN;
    }

    /// <summary>Sold, kWh ≥ 0; null = unknown, or the file has no such channel.</summary>
    public double? ExportKwh
    {
        get => double.IsNaN(_exportKwh) ? null : _exportKwh;
        init => _exportKwh = value ?? double.NaN;
    }

    /// <summary>Its end.</summary>
    public Instant End => Start + Duration.FromSeconds(Seconds);
}
