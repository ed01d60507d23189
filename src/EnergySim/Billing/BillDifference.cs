using NodaTime;

namespace EnergySim.Billing;

/// <summary>One line of two bills, side by side. A line that one of them lacks is zero there.</summary>
/// <param name="Kind">The lines' kind.</param>
/// <param name="Name">The lines' name.</param>
/// <param name="Unit">Unit of the quantities.</param>
/// <param name="BeforeQuantity">Quantity on the first bill.</param>
/// <param name="AfterQuantity">Quantity on the second bill.</param>
/// <param name="Before">Amount on the first bill.</param>
/// <param name="After">Amount on the second bill.</param>
public sealed record DifferenceLine(
    string Kind, string Name, string Unit, decimal BeforeQuantity, decimal AfterQuantity, decimal Before, decimal After)
{
    /// <summary>What the second bill saves on this line; negative where it costs more.</summary>
    public decimal Saved => Before - After;
}

/// <summary>The difference of two bills of the same days, line by line. Its lines sum to the saving to the cent.</summary>
public sealed record BillDifference
{
    /// <summary>First local date.</summary>
    public required LocalDate From { get; init; }

    /// <summary>Last local date.</summary>
    public required LocalDate To { get; init; }

    /// <summary>The lines, kinds together, in the order in which the bills take them.</summary>
    public required IReadOnlyList<DifferenceLine> Lines { get; init; }

    /// <summary>What the second bill saves.</summary>
    public decimal Saved => Lines.Sum(l => l.Saved);

    /// <summary>The difference of two bills.</summary>
    /// <exception cref="ArgumentException">They are not of the same days, or the money differs.</exception>
    public static BillDifference Of(Bill before, Bill after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        return Of([before], [after]);
    }

    /// <summary>The difference of two sets of bills over their whole span.</summary>
    /// <exception cref="ArgumentException">The bills are not of the same days, or the money differs.</exception>
    public static BillDifference Of(BillSet before, BillSet after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        if (before.Currency != after.Currency) throw new ArgumentException($"The first bills are in {before.Currency}, the second in {after.Currency}.", nameof(after));
        return Of(before.Bills, after.Bills);
    }

    private static BillDifference Of(IReadOnlyList<Bill> before, IReadOnlyList<Bill> after)
    {
        if (!before.Select(b => (b.From, b.To)).SequenceEqual(after.Select(b => (b.From, b.To))))
            throw new ArgumentException("The bills are not of the same days.", nameof(after));
        var lines = new List<DifferenceLine>();
        foreach (SummedLine line in SummedLine.Of(before))
            lines.Add(new DifferenceLine(line.Kind, line.Name, line.Unit, line.Quantity, 0, line.Amount, 0));
        foreach (SummedLine line in SummedLine.Of(after))
        {
            int at = lines.FindIndex(l => l.Kind == line.Kind && l.Name == line.Name && l.Unit == line.Unit);
            if (at >= 0) lines[at] = lines[at] with { AfterQuantity = line.Quantity, After = line.Amount };
            else lines.Insert(EndOfKind(lines, line.Kind), new DifferenceLine(line.Kind, line.Name, line.Unit, 0, line.Quantity, 0, line.Amount));
        }
        return new BillDifference { From = before[0].From, To = before[^1].To, Lines = lines };
    }

    private static int EndOfKind(List<DifferenceLine> lines, string kind)
    {
        int last = lines.FindLastIndex(l => l.Kind == kind);
        return last < 0 ? lines.Count : last + 1;
    }
}

/// <summary>A line of several bills together.</summary>
/// <param name="Kind">The lines' kind.</param>
/// <param name="Name">The lines' name.</param>
/// <param name="Unit">Unit of the quantity.</param>
/// <param name="Quantity">The quantities' sum.</param>
/// <param name="UnitPrice">Money per unit where all the lines agree; null where they do not.</param>
/// <param name="Amount">The rounded amounts' sum.</param>
public sealed record SummedLine(string Kind, string Name, string Unit, decimal Quantity, decimal? UnitPrice, decimal Amount)
{
    /// <summary>The lines of some bills summed by kind, name and unit, kinds together in the order in which bills take them. They sum to the bills' totals.</summary>
    public static IReadOnlyList<SummedLine> Of(IReadOnlyList<Bill> bills)
    {
        ArgumentNullException.ThrowIfNull(bills);
        var lines = new List<SummedLine>();
        foreach (BillLine line in bills.SelectMany(b => b.Lines))
        {
            int at = lines.FindIndex(l => l.Kind == line.Kind && l.Name == line.Name && l.Unit == line.Unit);
            if (at < 0) lines.Add(new SummedLine(line.Kind, line.Name, line.Unit, line.Quantity, line.UnitPrice, line.Amount));
            else
                lines[at] = lines[at] with
                {
                    Quantity = lines[at].Quantity + line.Quantity,
                    UnitPrice = lines[at].UnitPrice == line.UnitPrice ? line.UnitPrice : null,
                    Amount = lines[at].Amount + line.Amount,
                };
        }
        string[] kinds = [.. lines.Select(l => l.Kind).Distinct()];
        return [.. lines.OrderBy(l => Array.IndexOf(kinds, l.Kind))];
    }
}
