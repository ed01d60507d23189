using EnergySim.Reports.Drawing;
using EnergySim.Reports.Homeowner;
using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace EnergySim.Reports.Pdf;

/// <summary>A table: names at the left, figures at the right of their columns, every row as high as its longest cell.</summary>
internal sealed class PdfTable
{
    private const double PadPt = 3;

    private readonly TableBlock _table;
    private readonly PageSheet _sheet;
    private readonly double _names;
    private readonly double _column;
    private readonly Lettering _text;
    private readonly Lettering _bold;

    public PdfTable(TableBlock table, PageSheet sheet)
    {
        (_table, _sheet) = (table, sheet);
        int columns = table.Heads.Count;
        _text = PageSheet.Plain with { SizePx = columns <= 3 ? 9.5 : 8 };
        _bold = _text with { IsBold = true };
        _names = Math.Clamp(table.Rows.Max(r => _bold.WidthPx(r.Name)) + 10, 0.15 * sheet.TextPt, sheet.TextPt * (columns <= 2 ? 0.46 : columns == 3 ? 0.34 : 0.26));
        _column = (sheet.TextPt - _names) / columns;
    }

    public double Height => PdfTexts.LineHeight(PageSheet.Heading) + HeadHeight + _table.Rows.Sum(RowHeight);

    private double HeadHeight => (_table.Heads.Max(h => Cell(h, _bold).Count) * PdfTexts.LineHeight(_text)) + PadPt;

    public void Draw(XGraphics graphics, double top, PdfTags tags)
    {
        var painter = new PdfPainter(graphics);
        tags.Block(PdfBlockLevelElementTag.Heading3, () =>
            painter.Text(new TextMark(TextRole.Lead, PageSheet.Heading.Shorten(_table.Caption, _sheet.TextPt), PageSheet.Heading, PageSheet.LeftPt, top)));
        tags.Block(PdfBlockLevelElementTag.Table, () => Rows(painter, top + PdfTexts.LineHeight(PageSheet.Heading), tags));
    }

    private void Rows(PdfPainter painter, double y, PdfTags tags)
    {
        tags.Block(PdfBlockLevelElementTag.TableRow, () =>
        {
            // Over the names stands no head.
            tags.Block(PdfBlockLevelElementTag.TableDataCell, () => { });
            for (int c = 0; c < _table.Heads.Count; c++)
                tags.Block(PdfBlockLevelElementTag.TableHeaderCell, () => Right(painter, Cell(_table.Heads[c], _bold), _bold, c, y + 1));
        });
        y += HeadHeight;
        tags.Adornment(() => Rule(painter, y, Palette.Ink));
        for (int r = 0; r < _table.Rows.Count; r++)
        {
            TableRow row = _table.Rows[r];
            if (row.IsSum || r > 0) tags.Adornment(() => Rule(painter, y, row.IsSum ? Palette.Ink : Palette.Guide));
            tags.Block(PdfBlockLevelElementTag.TableRow, () => Row(painter, row, y + PadPt, tags));
            y += RowHeight(row);
        }
    }

    private void Row(PdfPainter painter, TableRow row, double top, PdfTags tags)
    {
        Lettering lettering = row.IsSum ? _bold : _text;
        tags.Block(PdfBlockLevelElementTag.TableHeaderCell, () =>
        {
            double line = top;
            foreach (string text in PdfTexts.Lines(row.Name, lettering, _names - 6))
            {
                painter.Text(new TextMark(TextRole.Lead, text, lettering, PageSheet.LeftPt, line));
                line += PdfTexts.LineHeight(lettering);
            }
        });
        for (int c = 0; c < row.Cells.Count; c++)
            tags.Block(PdfBlockLevelElementTag.TableDataCell, () => Right(painter, Cell(row.Cells[c], lettering), lettering, c, top));
    }

    private double RowHeight(TableRow row)
    {
        Lettering lettering = row.IsSum ? _bold : _text;
        int lines = Math.Max(PdfTexts.Lines(row.Name, lettering, _names - 6).Count, row.Cells.Max(c => Cell(c, lettering).Count));
        return (lines * PdfTexts.LineHeight(lettering)) + (2 * PadPt) - 1;
    }

    private IReadOnlyList<string> Cell(string text, Lettering lettering) => PdfTexts.Lines(text, lettering, _column - 8);

    private void Right(PdfPainter painter, IReadOnlyList<string> lines, Lettering lettering, int column, double top)
    {
        double right = PageSheet.LeftPt + _names + ((column + 1) * _column);
        foreach (string line in lines)
        {
            painter.Text(new TextMark(TextRole.ColumnAmount, line, lettering, right, top, Align.End));
            top += PdfTexts.LineHeight(lettering);
        }
    }

    private void Rule(PdfPainter painter, double y, Colour colour) => painter.Line(new LineMark(PageSheet.LeftPt, _sheet.RightPt, y, 0.6, colour));
}
