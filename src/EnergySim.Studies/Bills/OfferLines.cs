using EnergySim.Billing;

namespace EnergySim.Studies.Bills;

/// <summary>The bills of a home's span line by line, as it is and with one offer.</summary>
public sealed record OfferLines
{
    /// <summary>The comparison they are of, for its names and notes.</summary>
    public required Comparison Comparison { get; init; }

    /// <summary>Index of the offer's column.</summary>
    public required int Column { get; init; }

    /// <summary>The lines; they sum to the saving to the cent.</summary>
    public required BillDifference Difference { get; init; }

    /// <summary>The lines of one offer.</summary>
    /// <param name="comparison">The comparison.</param>
    /// <param name="column">Index of the offer's column, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such offer.</exception>
    public static OfferLines Of(Comparison comparison, int column)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        ArgumentOutOfRangeException.ThrowIfLessThan(column, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(column, comparison.Columns.Count);
        return new OfferLines
        {
            Comparison = comparison,
            Column = column,
            Difference = BillDifference.Of(comparison.Columns[0].Bills, comparison.Columns[column].Bills),
        };
    }
}
