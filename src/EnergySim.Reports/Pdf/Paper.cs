namespace EnergySim.Reports.Pdf;

/// <summary>Paper that a report is printed on.</summary>
public enum Paper
{
    /// <summary>US Letter, 8.5 × 11 inches.</summary>
    Letter,

    /// <summary>ISO 216 A4, 210 × 297 mm.</summary>
    A4,
}
