using EnergySim.Reports.Drawing;
using EnergySim.Studies;
using EnergySim.Studies.Causes;

namespace EnergySim.Reports.Causes;

/// <summary>Lays a saving out: a row the bill as it is, a row a cause that begins where the one before ended, a row the bill with the offer.</summary>
internal sealed class CausesLayout
{
    private readonly ChartSize _size;
    private readonly SavingsWords _words;
    private readonly ComparisonColumn _asItIs, _offer;
    private readonly SavingCauses _causes;
    private readonly BarStyle _saves, _before;

    public CausesLayout(Comparison comparison, int column, SavingCauses causes, ChartSize size)
    {
        (_size, _causes, _words) = (size, causes, new SavingsWords(comparison));
        (_asItIs, _offer) = (comparison.Columns[0], comparison.Columns[column]);
        IReadOnlyList<BarStyle> styles = Palette.StylesOf(comparison.Columns);
        (_before, _saves) = (styles[0], styles[column]);
    }

    public Picture Lay()
    {
        Money money = _words.Money;
        decimal at = _asItIs.AnnualBill;
        var rows = new List<MoneyRow> { new("the bill as it is", money.Exact(at), [new MoneyBar(0, at, _before)], IsBold: true) };
        foreach (SavingCause cause in _causes.Causes)
        {
            string amount = (cause.Amount > 0 ? "−" : "+") + money.Exact(Math.Abs(cause.Amount));
            rows.Add(new MoneyRow(CauseWords.Of(cause.Cause), amount, [new MoneyBar(at, at - cause.Amount, cause.Amount > 0 ? _saves : Palette.Cost)]));
            at -= cause.Amount;
        }
        rows.Add(new MoneyRow($"the bill with {OfferName}", money.Exact(_offer.AnnualBill), [new MoneyBar(0, at, _saves)], IsBold: true));
        return new RowField(_size, Words(), rows, isChain: true).Lay(Description);
    }

    private string OfferName => Lettering.Clean(_offer.Name);

    private PlotWords Words()
    {
        Money money = _words.Money;
        string saved = $"{money.Exact(Math.Abs(_causes.Saving))} {(_causes.Saving >= 0 ? "saved" : "more")}";
        return new PlotWords
        {
            Title = _causes.Saving >= 0 ? "Where the saving comes from" : "Why it costs more",
            Lead = $"{OfferName}. {_words.Lead} {money.Exact(_asItIs.AnnualBill)} become {money.Exact(_offer.AnnualBill)}, {saved}.",
            Legend = Legend(),
            Up = "",
            Along = "",
            Footer = [string.Join(" · ", _words.Origin) + ".", .. _words.InventedNote is string note ? new[] { note } : []],
        };
    }

    private List<LegendLine> Legend()
    {
        var lines = new List<LegendLine> { new("as it is", _before, IsArea: true), new("saves; the bill that is left", _saves, IsArea: true) };
        if (_causes.Causes.Any(c => c.Amount < 0)) lines.Add(new LegendLine("costs", Palette.Cost, IsArea: true));
        return lines;
    }

    private string Description
    {
        get
        {
            Money money = _words.Money;
            IEnumerable<string> causes = _causes.Causes.Select(c => $"{CauseWords.Of(c.Cause)}: {(c.Amount < 0 ? "costs" : "saves")} {money.Exact(Math.Abs(c.Amount))}.");
            return $"As it is {money.Exact(_asItIs.AnnualBill)}, with {OfferName} {money.Exact(_offer.AnnualBill)}: saves {money.Exact(_causes.Saving)}. "
                + $"{string.Join(" ", causes)} {string.Join("; ", _words.Origin)}. {_words.InventedNote}";
        }
    }
}
