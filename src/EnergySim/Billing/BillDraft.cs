using System.Globalization;
using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>A bill being written: its lines so far, and what they come to by kind. Used again for the bills of a span, one after another.</summary>
internal sealed class BillDraft(string currency)
{
    private DraftLine[] _lines = new DraftLine[16];
    private int _count;
    private BillRounding _rounding = BillRounding.LinesToTheCent;

    public BillSpan Span { get; private set; } = null!;

    public string Currency => currency;

    public ReadOnlySpan<DraftLine> Lines => _lines.AsSpan(0, _count);

    /// <summary>Begins the next bill.</summary>
    public void Begin(BillSpan span, BillRounding rounding) => (Span, _rounding, _count) = (span, rounding, 0);

    /// <summary>Adds a line, unless its quantity is zero.</summary>
    public void Add(string kind, string name, decimal quantity, string unit, decimal unitPrice) => Add(kind, name, quantity, unit, unitPrice, quantity * unitPrice);

    /// <summary>Adds a line whose amount is not just quantity × price (a share of the bill's days), unless its quantity is zero.</summary>
    public void Add(string kind, string name, decimal quantity, string unit, decimal unitPrice, decimal unrounded)
    {
        if (quantity == 0) return;
        Put(kind, name, quantity, unit, unitPrice, unrounded, _rounding.OfTotal ? BillRounding.ToTheCent(unrounded) : _rounding.Of(unrounded));
    }

    /// <summary>What a line counts for in what is taken of it: where only the total is rounded, its unrounded amount.</summary>
    public decimal ValueOf(in DraftLine line) => _rounding.OfTotal ? line.Unrounded : line.Amount;

    /// <summary>What the lines of some kinds come to; no kinds = all lines so far.</summary>
    public decimal SumOf(IReadOnlyList<string> kinds)
    {
        decimal sum = 0;
        foreach (ref readonly DraftLine line in Lines)
            if (kinds.Count == 0 || kinds.Contains(line.Kind)) sum += ValueOf(in line);
        return sum;
    }

    public decimal SumOf(string kind)
    {
        decimal sum = 0;
        foreach (ref readonly DraftLine line in Lines)
            if (line.Kind == kind) sum += ValueOf(in line);
        return sum;
    }

    /// <summary>Ends the bill: where the total is rounded, with a line that makes its rounded lines sum to it.</summary>
    /// <returns>The total: the sum of the rounded lines.</returns>
    public decimal Finish()
    {
        decimal total = 0;
        foreach (ref readonly DraftLine line in Lines) total += line.Amount;
        if (!_rounding.OfTotal) return total;
        decimal unrounded = 0;
        foreach (ref readonly DraftLine line in Lines) unrounded += line.Unrounded;
        decimal rest = _rounding.Of(unrounded) - total;
        string name = string.Create(CultureInfo.InvariantCulture, $"total rounded to {_rounding.To:0.00######}");
        // It is in the total, not in the unrounded total.
        if (rest != 0) Put("rounding", name, 1, currency, rest, 0, rest);
        return total + rest;
    }

    /// <summary>The bill that was ended.</summary>
    public Bill ToBill()
    {
        var lines = new BillLine[_count];
        for (int i = 0; i < lines.Length; i++)
        {
            ref readonly DraftLine line = ref _lines[i];
            lines[i] = new BillLine
            {
                Kind = line.Kind,
                Name = line.Name,
                Quantity = line.Quantity,
                Unit = line.Unit,
                UnitPrice = line.UnitPrice,
                Unrounded = line.Unrounded,
                Amount = line.Amount,
            };
        }
        return new Bill { From = Span.From, To = Span.To, Lines = lines };
    }

    // Number by number into its place: a line made elsewhere and moved would be copied twice.
    private void Put(string kind, string name, decimal quantity, string unit, decimal unitPrice, decimal unrounded, decimal amount)
    {
        if (_count == _lines.Length) Array.Resize(ref _lines, 2 * _count);
        ref DraftLine line = ref _lines[_count++];
        (line.Kind, line.Name, line.Unit) = (kind, name, unit);
        line.Quantity = quantity;
        line.UnitPrice = unitPrice;
        line.Unrounded = unrounded;
        line.Amount = amount;
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

/// <summary>A line of a draft: what a <see cref="BillLine"/> says.</summary>
internal struct DraftLine
{
    public string Kind, Name, Unit;
    public decimal Quantity, UnitPrice, Unrounded, Amount;
}
