using EnergySim.Reports.Causes;
using EnergySim.Reports.Drawing;
using EnergySim.Studies;
using EnergySim.Studies.Causes;

namespace EnergySim.Reports;

/// <summary>
/// Where an offer's saving comes from: from the bill as it is, cause by cause, to the bill with the offer. It shows the records' figures and computes
/// none but their running sum.
/// </summary>
public static class CausesChart
{
    /// <summary>The picture, named <c>causes</c>.</summary>
    /// <param name="comparison">The comparison, for names and bills.</param>
    /// <param name="column">Index of the offer's column, 1 or more.</param>
    /// <param name="causes">The causes of that offer's saving.</param>
    /// <param name="size">Size; null = <see cref="ChartSize.Laptop"/>.</param>
    /// <exception cref="ArgumentException">The causes are of another offer, or do not sum to its saving.</exception>
    public static NamedChart Of(Comparison comparison, int column, SavingCauses causes, ChartSize? size = null)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        ArgumentNullException.ThrowIfNull(causes);
        ArgumentOutOfRangeException.ThrowIfLessThan(column, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(column, comparison.Columns.Count);
        ComparisonColumn offer = comparison.Columns[column];
        if (causes.Name != offer.Name || causes.Saving != offer.AnnualSaving)
            throw new ArgumentException($"The causes of {causes.Name} sum to {causes.Saving}; {offer.Name} saves {offer.AnnualSaving}.", nameof(causes));
        return new NamedChart("causes", new CausesLayout(comparison, column, causes, size ?? ChartSize.Laptop).Lay());
    }
}
