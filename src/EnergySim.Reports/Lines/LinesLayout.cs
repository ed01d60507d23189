using System.Globalization;
using EnergySim.Billing;
using EnergySim.Reports.Drawing;
using EnergySim.Studies;
using EnergySim.Studies.Bills;

namespace EnergySim.Reports.Lines;

/// <summary>Lays bill lines out: a row a line with two bars; where they are many, the smallest are put together in the last row.</summary>
internal sealed class LinesLayout
{
    private readonly OfferLines _lines;
    private readonly ChartSize _size;
    private readonly SavingsWords _words;
    private readonly string _offer;
    private readonly BarStyle _before, _after;

    public LinesLayout(OfferLines lines, ChartSize size)
    {
        (_lines, _size, _words) = (lines, size, new SavingsWords(lines.Comparison));
        _offer = Lettering.Clean(lines.Comparison.Columns[lines.Column].Name);
        IReadOnlyList<BarStyle> styles = Palette.StylesOf(lines.Comparison.Columns);
        (_before, _after) = (styles[0], styles[lines.Column]);
    }

    public Picture Lay()
    {
        ComparisonColumn before = _lines.Comparison.Columns[0], after = _lines.Comparison.Columns[_lines.Column];
        Money money = _words.Money;
        var words = new PlotWords
        {
            Title = "The bill line by line",
            Lead = $"{_words.Lead} {money.Exact(before.AnnualBill)} as it is, {money.Exact(after.AnnualBill)} with {_offer}. At the right: before → after.",
            Legend = [new LegendLine("as it is", _before, IsArea: true), new LegendLine(_offer, _after, IsArea: true)],
            Up = "",
            Along = "",
            Footer = [string.Join(" · ", _words.Origin) + ".", .. _words.InventedNote is string note ? new[] { note } : []],
        };
        var rows = new List<MoneyRow>();
        foreach (DifferenceLine line in Shown())
            rows.Add(new MoneyRow(Name(line), $"{Bare(line.Before)} → {Bare(line.After)}", [new MoneyBar(0, line.Before, _before), new MoneyBar(0, line.After, _after)]));
        rows.Add(new MoneyRow("together", $"{money.Exact(Together.Before)} → {money.Exact(Together.After)}", [], IsBold: true));
        return new RowField(_size, words, rows).Lay(Description);
    }

    private (decimal Before, decimal After) Together => (_lines.Difference.Lines.Sum(l => l.Before), _lines.Difference.Lines.Sum(l => l.After));

    // As many lines as have room, in the order of the bill; the least of the others in one.
    private IEnumerable<DifferenceLine> Shown()
    {
        IReadOnlyList<DifferenceLine> all = _lines.Difference.Lines;
        int most = Math.Clamp((_size.HeightPx - 220) / (_size.WidthPx < 560 ? 32 : 34), 4, 24);
        if (all.Count <= most) return all;
        var large = all.OrderByDescending(l => Math.Max(Math.Abs(l.Before), Math.Abs(l.After))).Take(most - 1).ToHashSet();
        DifferenceLine[] small = [.. all.Where(l => !large.Contains(l))];
        string name = string.Create(CultureInfo.InvariantCulture, $"{small.Length} smaller lines");
        return [.. all.Where(large.Contains), new DifferenceLine("", name, "", 0, 0, small.Sum(l => l.Before), small.Sum(l => l.After))];
    }

    private static string Name(DifferenceLine line) =>
        Lettering.Clean(line.Name.Contains(line.Kind, StringComparison.OrdinalIgnoreCase) ? line.Name : $"{line.Kind}: {line.Name}");

    private static string Bare(decimal amount) => Money.Signed(amount, Math.Abs(amount).ToString("#,0.00", CultureInfo.InvariantCulture));

    private string Description
    {
        get
        {
            Money money = _words.Money;
            IEnumerable<string> lines = _lines.Difference.Lines.Select(l => $"{Name(l)}: {money.Exact(l.Before)} as it is, {money.Exact(l.After)} with {_offer}.");
            return $"{string.Join(" ", lines)} Together {money.Exact(Together.Before)} and {money.Exact(Together.After)}. {string.Join("; ", _words.Origin)}. {_words.InventedNote}";
        }
    }
}
