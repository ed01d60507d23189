using EnergySim.Reports.Drawing;

namespace EnergySim.Reports.Months;

/// <summary>A figure by month and hour in the words and shades of its picture.</summary>
internal sealed record MonthField
{
    public required string Title { get; init; }

    /// <summary>A line under the title; for a narrow picture.</summary>
    public required (string Wide, string Narrow) Lead { get; init; }

    /// <summary>By month (January first) and hour (0–23); null = no such month.</summary>
    public required IReadOnlyList<IReadOnlyList<double>?> Means { get; init; }

    /// <summary>Sums by month in words, at the right; empty = there are none.</summary>
    public required IReadOnlyList<string> Sums { get; init; }

    /// <summary>The shade of 0 and of 1.</summary>
    public required (double Low, double High) Range { get; init; }

    /// <summary>The colour of a share of the range.</summary>
    public required Func<double, Colour> Shade { get; init; }

    /// <summary>How a cell says its figure.</summary>
    public required string Form { get; init; }

    /// <summary>Unit of the figure.</summary>
    public required string Unit { get; init; }

    /// <summary>True where hours of nothing at both ends of the day are left out.</summary>
    public bool LeavesOutNothing { get; init; }

    /// <summary>Small print, a sentence each.</summary>
    public required IReadOnlyList<string> Footer { get; init; }
}
