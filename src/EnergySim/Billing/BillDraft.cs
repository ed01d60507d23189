using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>A bill being written: its lines so far, and what they come to by kind.</summary>
internal sealed class BillDraft(BillSpan span, string currency)
{
    private readonly List<BillLine> _lines = [];

    public BillSpan Span => span;

    public string Currency => currency;

    public IReadOnlyList<BillLine> Lines => _lines;

    /// <summary>Adds a line, unless its quantity is zero.</summary>
    public void Add(string kind, string name, decimal quantity, string unit, decimal unitPrice) => Add(kind, name, quantity, unit, unitPrice, quantity * unitPrice);

    /// <summary>Adds a line whose amount is not just quantity × price (a share of the bill's days), unless its quantity is zero.</summary>
    public void Add(string kind, string name, decimal quantity, string unit, decimal unitPrice, decimal unrounded)
    {
        if (quantity == 0) return;
        _lines.Add(new BillLine { Kind = kind, Name = name, Quantity = quantity, Unit = unit, UnitPrice = unitPrice, Unrounded = unrounded });
    }

    /// <summary>What the lines of some kinds come to; no kinds = all lines so far.</summary>
    public decimal SumOf(IReadOnlyList<string> kinds)
    {
        decimal sum = 0;
        foreach (BillLine line in _lines)
            if (kinds.Count == 0 || kinds.Contains(line.Kind)) sum += line.Amount;
        return sum;
    }

    public decimal SumOf(string kind)
    {
        decimal sum = 0;
        foreach (BillLine line in _lines)
            if (line.Kind == kind) sum += line.Amount;
        return sum;
    }

    public Bill Finish() => new() { From = span.From, To = span.To, Lines = _lines };

    /// <summary>A sum of kWh, kW or money as a decimal of six places.</summary>
    public static decimal Exact(double sum) => Math.Round((decimal)sum, 6, MidpointRounding.AwayFromZero);
}
