using EnergySim.Reports.Drawing;
using EnergySim.Reports.Homeowner;
using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace EnergySim.Reports.Pdf;

/// <summary>Large figures side by side, as large as the widest lets them be.</summary>
internal sealed class PdfCards
{
    private const double GapPt = 8, InsidePt = 9, BarPt = 5;

    private readonly CardsBlock _block;
    private readonly PageSheet _sheet;
    private readonly double _width;
    private readonly Lettering _figure;
    private readonly Lettering _name = PageSheet.Bold;
    private readonly Lettering _small = PageSheet.Plain with { SizePx = 9, Colour = Palette.QuietInk };

    public PdfCards(CardsBlock block, PageSheet sheet)
    {
        (_block, _sheet) = (block, sheet);
        _width = (sheet.TextPt - (GapPt * (block.Cards.Count - 1))) / block.Cards.Count;
        double widest = block.Cards.Max(c => PageSheet.Figure.WidthPx(c.Figure));
        _figure = PageSheet.Figure with { SizePx = Math.Min(PageSheet.Figure.SizePx, PageSheet.Figure.SizePx * Inner / widest) };
    }

    public double Height => BarPt + (0.6 * InsidePt) + Names + (1.15 * _figure.SizePx) + (Below * PdfTexts.LineHeight(_small)) + InsidePt;

    private double Inner => _width - (2 * InsidePt);

    private double Names => _block.Cards.Max(c => NameLines(c).Count) * PdfTexts.LineHeight(_name);

    private int Below => _block.Cards.Max(c => BelowLines(c).Count);

    public void Draw(XGraphics graphics, double top, PdfTags tags)
    {
        var painter = new PdfPainter(graphics);
        for (int i = 0; i < _block.Cards.Count; i++)
        {
            FigureCard card = _block.Cards[i];
            double left = PageSheet.LeftPt + (i * (_width + GapPt));
            var box = new Box(left, top, left + _width, top + Height);
            tags.Adornment(() =>
            {
                painter.Area(new AreaMark(box, Palette.Band));
                if (card.Style is BarStyle style) painter.Bar(box with { Bottom = top + BarPt }, style);
            });
            tags.Block(PdfBlockLevelElementTag.Paragraph, () => Texts(painter, card, left + InsidePt, top + BarPt + (0.6 * InsidePt)));
        }
    }

    private void Texts(PdfPainter painter, FigureCard card, double left, double top)
    {
        double y = top;
        foreach (string line in NameLines(card))
        {
            painter.Text(new TextMark(TextRole.ColumnName, line, _name, left, y));
            y += PdfTexts.LineHeight(_name);
        }
        y = top + Names;
        painter.Text(new TextMark(TextRole.ColumnAmount, card.Figure, _figure, left, y));
        y += 1.15 * _figure.SizePx;
        foreach (string line in BelowLines(card))
        {
            painter.Text(new TextMark(TextRole.Lead, line, _small, left, y));
            y += PdfTexts.LineHeight(_small);
        }
    }

    private IReadOnlyList<string> NameLines(FigureCard card)
    {
        IReadOnlyList<string> lines = PdfTexts.Lines(card.Name, _name, Inner);
        return lines.Count <= 2 ? lines : [lines[0], _name.Shorten(string.Join(' ', lines.Skip(1)), Inner)];
    }

    private List<string> BelowLines(FigureCard card) => [.. card.Below.Prepend(card.Unit).SelectMany(b => PdfTexts.Lines(b, _small, Inner))];
}
