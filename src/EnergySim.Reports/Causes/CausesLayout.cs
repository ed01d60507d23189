using EnergySim.Reports.Drawing;
using EnergySim.Reports.Savings;
using EnergySim.Studies;
using EnergySim.Studies.Causes;

namespace EnergySim.Reports.Causes;

/// <summary>Lays a saving out: a row the bill as it is, a row a cause that begins where the one before ended, a row the bill with the offer.</summary>
internal sealed class CausesLayout
{
    private readonly RowField _rows;
    private readonly SavingsWords _words;
    private readonly ComparisonColumn _asItIs, _offer;
    private readonly SavingCauses _causes;
    private readonly BarStyle _saves, _before;

    public CausesLayout(Comparison comparison, int column, SavingCauses causes, ChartSize size)
    {
        (_asItIs, _offer, _causes, _words) = (comparison.Columns[0], comparison.Columns[column], causes, new SavingsWords(comparison));
        IReadOnlyList<BarStyle> styles = Palette.StylesOf(comparison.Columns);
        (_before, _saves) = (styles[0], styles[column]);
        string saved = $"{_words.Money.Exact(Math.Abs(causes.Saving))} {(causes.Saving >= 0 ? "saved" : "more")}";
        var words = new PlotWords
        {
            Title = causes.Saving >= 0 ? "Where the saving comes from" : "Why it costs more",
            Lead = $"{Lettering.Clean(_offer.Name)}. {_words.Lead} {_words.Money.Exact(_asItIs.AnnualBill)} become {_words.Money.Exact(_offer.AnnualBill)}, {saved}.",
            Legend = Legend(),
            Up = "",
            Along = "",
            Footer = [string.Join(" · ", _words.Origin) + ".", .. _words.InventedNote is string note ? new[] { note } : []],
        };
        _rows = new RowField(size, words, isChain: true);
    }

    public Picture Lay()
    {
        _rows.Add("the bill as it is", _words.Money.Exact(_asItIs.AnnualBill), 0, _asItIs.AnnualBill, _before, isBold: true);
        decimal at = _asItIs.AnnualBill;
        foreach (SavingCause cause in _causes.Causes)
        {
            string amount = (cause.Amount > 0 ? "−" : "+") + _words.Money.Exact(Math.Abs(cause.Amount));
            _rows.Add(CauseWords.Of(cause.Cause), amount, at, at - cause.Amount, cause.Amount > 0 ? _saves : Palette.Cost);
            at -= cause.Amount;
        }
        _rows.Add($"the bill with {Lettering.Clean(_offer.Name)}", _words.Money.Exact(_offer.AnnualBill), 0, at, _saves, isBold: true);
        return _rows.Lay(Description);
    }

    private List<LegendLine> Legend()
    {
        var lines = new List<LegendLine> { new("as it is", _before, IsArea: true), new("saves; the bill that is left", _saves, IsArea: true) };
        if (_causes.Causes.Any(c => c.Amount < 0)) lines.Add(new LegendLine("costs", Palette.Cost, IsArea: true));
        return lines;
    }

    private string Description => $"As it is {_words.Money.Exact(_asItIs.AnnualBill)}, with {Lettering.Clean(_offer.Name)} {_words.Money.Exact(_offer.AnnualBill)}: saves {_words.Money.Exact(_causes.Saving)}. "
        + string.Join(" ", _causes.Causes.Select(c => $"{CauseWords.Of(c.Cause)}: {(c.Amount < 0 ? "costs" : "saves")} {_words.Money.Exact(Math.Abs(c.Amount))}."))
        + $" {string.Join("; ", _words.Origin)}. {_words.InventedNote}";
}
