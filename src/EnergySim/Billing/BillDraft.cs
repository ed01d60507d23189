using System.Globalization;
using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>A bill being written: its lines so far, and what they come to by kind.</summary>
internal sealed class BillDraft(BillSpan span, string currency, BillRounding rounding)
{
    private readonly List<BillLine> _lines = new(16);

    public BillSpan Span => span;

    public string Currency => currency;

    public List<BillLine> Lines => _lines;

    /// <summary>Adds a line, unless its quantity is zero.</summary>
    public void Add(string kind, string name, decimal quantity, string unit, decimal unitPrice) => Add(kind, name, quantity, unit, unitPrice, quantity * unitPrice);

    /// <summary>Adds a line whose amount is not just quantity × price (a share of the bill's days), unless its quantity is zero.</summary>
    public void Add(string kind, string name, decimal quantity, string unit, decimal unitPrice, decimal unrounded)
    {
        if (quantity == 0) return;
        _lines.Add(new BillLine
        {
            Kind = kind,
            Name = name,
            Quantity = quantity,
            Unit = unit,
            UnitPrice = unitPrice,
            Unrounded = unrounded,
            Amount = rounding.OfTotal ? BillRounding.ToTheCent(unrounded) : rounding.Of(unrounded),
        });
    }

    /// <summary>What a line counts for in what is taken of it: where only the total is rounded, its unrounded amount.</summary>
    public decimal ValueOf(BillLine line) => rounding.OfTotal ? line.Unrounded : line.Amount;

    /// <summary>What the lines of some kinds come to; no kinds = all lines so far.</summary>
    public decimal SumOf(IReadOnlyList<string> kinds)
    {
        decimal sum = 0;
        foreach (BillLine line in _lines)
            if (kinds.Count == 0 || kinds.Contains(line.Kind)) sum += ValueOf(line);
        return sum;
    }

    public decimal SumOf(string kind)
    {
        decimal sum = 0;
        foreach (BillLine line in _lines)
            if (line.Kind == kind) sum += ValueOf(line);
        return sum;
    }

    /// <summary>The bill; where the total is rounded, with a line that makes its rounded lines sum to it.</summary>
    public Bill Finish()
    {
        if (rounding.OfTotal)
        {
            decimal unrounded = 0, lines = 0;
            foreach (BillLine line in _lines) (unrounded, lines) = (unrounded + line.Unrounded, lines + line.Amount);
            decimal rest = rounding.Of(unrounded) - lines;
            string name = string.Create(CultureInfo.InvariantCulture, $"total rounded to {rounding.To:0.00######}");
            // It is in the total, not in the unrounded total.
            if (rest != 0) _lines.Add(new BillLine { Kind = "rounding", Name = name, Quantity = 1, Unit = currency, UnitPrice = rest, Unrounded = 0, Amount = rest });
        }
        return new Bill { From = span.From, To = span.To, Lines = _lines };
    }

    /// <summary>A sum of kWh, kW or money as a decimal of six places.</summary>
    public static decimal Exact(double sum)
    {
        if (sum == 0) return 0;
        // The usual case without the slow conversion: away from both neighbours and from the middle between them, and far more than six places
        // long, a number has but one rounding.
        double millionths = Math.Abs(sum) * 1e6, whole = Math.Floor(millionths), rest = millionths - whole;
        const double margin = 0.002;
        if (millionths < 1e12 && rest is > margin and < 1 - margin && Math.Abs(rest - 0.5) > margin)
        {
            long rounded = (long)whole + (rest > 0.5 ? 1 : 0);
            return new decimal((int)rounded, (int)(rounded >> 32), 0, sum < 0, 6);
        }
        return Math.Round((decimal)sum, 6, MidpointRounding.AwayFromZero);
    }
}
