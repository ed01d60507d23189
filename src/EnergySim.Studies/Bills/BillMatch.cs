using System.Globalization;
using EnergySim.Billing;

namespace EnergySim.Studies.Bills;

/// <summary>A computed bill held against a stated one: which line differs, by how much, and what that looks like.</summary>
public sealed record BillMatch
{
    /// <summary>The stated bill.</summary>
    public required StatedBill Stated { get; init; }

    /// <summary>The computed bill.</summary>
    public required Bill Computed { get; init; }

    /// <summary>The lines side by side; empty where only the total is stated.</summary>
    public required IReadOnlyList<MatchedLine> Lines { get; init; }

    /// <summary>Sentences on what the difference of the totals looks like; empty where they agree.</summary>
    public required IReadOnlyList<string> Hints { get; init; }

    /// <summary>Computed − stated, money.</summary>
    public decimal Difference => Computed.Total - Stated.Total;

    /// <summary>True when the totals, and all lines stated, agree to the cent.</summary>
    public bool Agrees => Difference == 0 && Lines.All(l => l.Difference == 0);

    /// <summary>Holds a computed bill against a stated one.</summary>
    public static BillMatch Of(Bill computed, StatedBill stated)
    {
        ArgumentNullException.ThrowIfNull(computed);
        ArgumentNullException.ThrowIfNull(stated);
        return new BillMatch
        {
            Stated = stated,
            Computed = computed,
            Lines = stated.Lines.Count == 0 ? [] : Matched(computed, stated),
            Hints = HintsOf(computed, computed.Total - stated.Total),
        };
    }

    // The surest likeness first: both names, then the same amount of the same kind or unit, then the only one left of a kind.
    private static List<MatchedLine> Matched(Bill computed, StatedBill stated)
    {
        var ours = computed.Lines.ToList();
        var theirs = stated.Lines.ToList();
        var pairs = new List<(BillLine? Ours, StatedLine? Theirs)>();
        Pair((o, t) => Same(o.Name, t.Name) && (t.Kind.Length == 0 || Same(o.Kind, t.Kind)));
        Pair((o, t) => (Same(o.Kind, t.Kind) || Same(o.Unit, t.Unit)) && o.Amount == t.Amount);
        Pair((o, t) => (t.Kind.Length == 0 || Same(o.Kind, t.Kind)) && Same(o.Unit, t.Unit) && t.UnitPrice == o.UnitPrice);
        Pair((o, t) => (t.Kind.Length == 0 || Same(o.Kind, t.Kind)) && Same(o.Unit, t.Unit) && t.Quantity == o.Quantity);
        Pair((o, t) => Same(o.Kind, t.Kind) && ours.Count(x => Same(x.Kind, o.Kind)) == 1 && theirs.Count(x => Same(x.Kind, t.Kind)) == 1);
        pairs.AddRange(theirs.Select(t => ((BillLine?)null, (StatedLine?)t)));
        pairs.AddRange(ours.Select(o => ((BillLine?)o, (StatedLine?)null)));
        return [.. pairs.OrderBy(p => p.Theirs is null ? int.MaxValue : IndexOf(stated.Lines, p.Theirs)).Select(p => new MatchedLine(p.Ours, p.Theirs))];

        void Pair(Func<BillLine, StatedLine, bool> alike)
        {
            foreach (StatedLine t in theirs.ToList())
            {
                int at = ours.FindIndex(o => alike(o, t));
                if (at < 0) continue;
                pairs.Add((ours[at], t));
                ours.RemoveAt(at);
                theirs.Remove(t);
            }
        }
    }

    private static int IndexOf(IReadOnlyList<StatedLine> lines, StatedLine line)
    {
        for (int i = 0; i < lines.Count; i++)
            if (ReferenceEquals(lines[i], line)) return i;
        return -1;
    }

    private static bool Same(string left, string right) => string.Equals(left.Trim(), right.Trim(), StringComparison.OrdinalIgnoreCase);

    private static List<string> HintsOf(Bill computed, decimal difference)
    {
        var hints = new List<string>();
        if (difference == 0) return hints;
        string much = Money(Math.Abs(difference));
        string side = difference > 0 ? "ours is above theirs" : "theirs is above ours";
        foreach (BillLine line in computed.Lines)
        {
            if (line.Amount == difference) hints.Add($"{side} by {much}, which is our whole line \"{line.Name}\": their bill may not have it");
            else if (line.Amount == -difference) hints.Add($"{side} by {much}, which is our line \"{line.Name}\" once more or with the other sign");
            else if (line.Unit == "day" && line.UnitPrice != 0 && difference % line.UnitPrice == 0 && Math.Abs(difference / line.UnitPrice) <= 5)
                hints.Add(string.Create(CultureInfo.InvariantCulture, $"{side} by {much}, which is {Math.Abs(difference / line.UnitPrice):0} day(s) of \"{line.Name}\": the read dates may differ"));
        }
        if (Math.Abs(difference) <= 0.01m * computed.Lines.Count) hints.Add($"{side} by {much}, no more than a cent a line: rounding");
        if (hints.Count == 0 && computed.Total != difference && computed.Total != 0)
            hints.Add(string.Create(CultureInfo.InvariantCulture, $"{side} by {much}, {difference / computed.Total:+0.00 %;-0.00 %} of our total; no single line of ours comes to that"));
        return hints;
    }

    private static string Money(decimal amount) => amount.ToString("#,0.00", CultureInfo.InvariantCulture);
}

/// <summary>A line of ours beside one of theirs; one of the two may be missing.</summary>
/// <param name="Computed">Ours; null = we have no such line.</param>
/// <param name="Stated">Theirs; null = they state no such line.</param>
public sealed record MatchedLine(BillLine? Computed, StatedLine? Stated)
{
    /// <summary>Computed − stated, money.</summary>
    public decimal Difference => (Computed?.Amount ?? 0) - (Stated?.Amount ?? 0);

    /// <summary>Computed − stated quantity; null where one is not known.</summary>
    public decimal? QuantityDifference => Computed is not null && Stated?.Quantity is decimal quantity ? Computed.Quantity - quantity : null;

    /// <summary>Computed − stated price a unit; null where one is not known.</summary>
    public decimal? PriceDifference => Computed is not null && Stated?.UnitPrice is decimal price ? Computed.UnitPrice - price : null;
}
