using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Reports.Homeowner;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.UniversalAccessibility;

namespace EnergySim.Reports.Pdf;

/// <summary>
/// Sets the report's pages: each begins a sheet of its own. A page that is too long for its sheet is set smaller, within bounds; what does not fit
/// even then goes on whole to the next.
/// </summary>
internal sealed class PdfSheets
{
    // Pixels of a chart's own across the text: letters come out at 7–9 points.
    private const double ChartPx = 720, PairPx = 400, LowestPairPt = 235, MostGrowthPt = 120, TopPt = PageSheet.MarginPt - 8;
    private static readonly double[] s_scales = [1, 0.95, 0.9, 0.85, 0.8, 0.75];

    private readonly PdfDocument _document;
    private readonly HomeownerReport _report;
    private readonly PageSheet _paper;
    private readonly PdfTags _tags;
    // The paper as a page sees it that is set smaller, and by how much.
    private PageSheet _sheet;
    private double _scale = 1;
    private XGraphics? _graphics;
    private double _y;
    private int _sheets;

    public PdfSheets(PdfDocument document, HomeownerReport report, PageSheet sheet) =>
        (_document, _report, _paper, _sheet, _tags) = (document, report, sheet, sheet, new PdfTags(document));

    public void Set()
    {
        // How many sheets there will be stands at the foot of each.
        for (int p = 0; p < _report.Pages.Count; p++) _sheets += Fit(_report.Pages[p], p == 0);
        for (int p = 0; p < _report.Pages.Count; p++)
        {
            ReportPage page = _report.Pages[p];
            EndSheet();
            Fit(page, p == 0);
            NewSheet();
            if (p == 0) Heads();
            _tags.Group(PdfGroupingElementTag.Section, () =>
            {
                Tagged(PdfBlockLevelElementTag.Heading2, page.Title, PageSheet.PageTitle);
                _y += PageSheet.GapPt;
                Blocks(page);
            });
        }
        EndSheet();
    }

    // The largest of some sizes at which the page fits; the usual one where none does. Gives the number of sheets.
    private int Fit(ReportPage page, bool hasHeads)
    {
        double top = 0;
        foreach (double scale in s_scales)
        {
            (_sheet, _scale) = (new PageSheet(_paper.WidthPt / scale, _paper.HeightPt / scale), scale);
            double heads = hasHeads ? TextLines(_report.Title, PageSheet.Title, _sheet.TextPt) + TextLines(_report.Subtitle, PageSheet.Subtitle, _sheet.TextPt) + PageSheet.GapPt : 0;
            double title = TextLines(page.Title, PageSheet.PageTitle, _sheet.TextPt) + PageSheet.GapPt;
            top = TopPt + heads + title;
            if (top + page.Blocks.Sum(b => HeightOf(b) + GapAfter(b)) - GapAfter(page.Blocks[^1]) <= _sheet.BottomPt + 0.5) return 1;
        }
        (_sheet, _scale) = (_paper, 1);
        double[] heights = [.. page.Blocks.Select(HeightOf)];
        int sheets = 1;
        for (int b = 0; b < heights.Length; b++)
        {
            if (Breaks(page, heights, b, top)) (sheets, top) = (sheets + 1, TopPt);
            top += heights[b] + GapAfter(page.Blocks[b]);
        }
        return sheets;
    }

    // A heading stays with what it heads.
    private bool Breaks(ReportPage page, double[] heights, int block, double top) =>
        top + heights[block] + (page.Blocks[block] is HeadingBlock && block + 1 < heights.Length ? heights[block + 1] + GapAfter(page.Blocks[block]) : 0) > _sheet.BottomPt + 0.5;

    private static double GapAfter(ReportBlock block) => block is HeadingBlock ? 0.3 * PageSheet.GapPt : PageSheet.GapPt;

    private void Heads()
    {
        Tagged(PdfBlockLevelElementTag.Heading1, _report.Title, PageSheet.Title);
        Tagged(PdfBlockLevelElementTag.Paragraph, _report.Subtitle, PageSheet.Subtitle);
        _y += PageSheet.GapPt;
    }

    private void Blocks(ReportPage page)
    {
        double[] heights = [.. page.Blocks.Select(HeightOf)];
        // What is left of the sheet is shared by its pictures.
        int pictures = page.Blocks.Count(b => b is ChartBlock or PairBlock);
        double left = _sheet.BottomPt - _y - page.Blocks.Select((b, i) => heights[i] + GapAfter(b)).Sum() + GapAfter(page.Blocks[^1]);
        double more = pictures > 0 && left > 0 ? Math.Min(left / pictures, MostGrowthPt) : 0;
        for (int b = 0; b < page.Blocks.Count; b++)
            if (page.Blocks[b] is ChartBlock or PairBlock) heights[b] += more;
        for (int b = 0; b < page.Blocks.Count; b++)
        {
            ReportBlock block = page.Blocks[b];
            if (Breaks(page, heights, b, _y)) NewSheet();
            double top = _y;
            Draw(block, heights[b]);
            _y = top + heights[b] + GapAfter(block);
        }
    }

    private double HeightOf(ReportBlock block) => block switch
    {
        TextBlock text => TextHeight(text),
        HeadingBlock heading => TextLines(heading.Text, PageSheet.Heading, _sheet.TextPt),
        CardsBlock cards => new PdfCards(cards, _sheet).Height,
        TableBlock table => new PdfTable(table, _sheet).Height,
        ListBlock list => list.Items.Sum(i => TextLines(i, PageSheet.Plain, _sheet.TextPt - 12) + 2),
        FactsBlock facts => facts.Facts.Sum(f => FactHeight(f, NamesOf(facts))),
        ChartBlock chart => chart.LeastPt,
        _ => LowestPairPt,
    };

    private void Draw(ReportBlock block, double height)
    {
        switch (block)
        {
            case TextBlock text: Paragraph(text); break;
            case HeadingBlock heading: Tagged(PdfBlockLevelElementTag.Heading3, heading.Text, PageSheet.Heading); break;
            case CardsBlock cards: new PdfCards(cards, _sheet).Draw(_graphics!, _y, _tags); break;
            case TableBlock table: new PdfTable(table, _sheet).Draw(_graphics!, _y, _tags); break;
            case ListBlock list: List(list); break;
            case FactsBlock facts: Facts(facts); break;
            case ChartBlock chart: Chart(chart, PageSheet.LeftPt, _sheet.TextPt, height, ChartPx); break;
            case PairBlock pair:
                double half = (_sheet.TextPt - PageSheet.GapPt) / 2;
                Chart(pair.Left, PageSheet.LeftPt, half, height, PairPx);
                Chart(pair.Right, _sheet.RightPt - half, half, height, PairPx);
                break;
        }
    }

    private void Chart(ChartBlock chart, double left, double width, double height, double px)
    {
        double scale = width / px;
        Picture picture = chart.Lay(ChartSize.Part(px, Math.Floor(height / scale)));
        _tags.Figure($"{picture.Title}. {picture.Description}", new XRect(left * _scale, _y * _scale, width * _scale, height * _scale), () =>
        {
            XGraphicsState state = _graphics!.Save();
            _graphics.TranslateTransform(left, _y);
            _graphics.ScaleTransform(scale);
            picture.Paint(new PdfPainter(_graphics));
            _graphics.Restore(state);
            _graphics.DrawRectangle(new XPen(XColor.FromArgb(Palette.Guide.Red, Palette.Guide.Green, Palette.Guide.Blue), 0.6), left, _y, width, height);
        });
    }

    private static Lettering LetteringOf(TextKind kind) => kind switch
    {
        TextKind.Lead => PageSheet.Lead,
        TextKind.Small => PageSheet.Small,
        TextKind.Caution => PageSheet.Bold,
        _ => PageSheet.Plain,
    };

    private double TextHeight(TextBlock text) => text.Kind == TextKind.Caution
        ? TextLines(text.Text, PageSheet.Bold, _sheet.TextPt - 20) + 10 : TextLines(text.Text, LetteringOf(text.Kind), _sheet.TextPt);

    private void Paragraph(TextBlock text)
    {
        Lettering lettering = LetteringOf(text.Kind);
        if (text.Kind != TextKind.Caution)
        {
            Tagged(PdfBlockLevelElementTag.Paragraph, text.Text, lettering);
            return;
        }
        var box = new Box(PageSheet.LeftPt, _y, _sheet.RightPt, _y + TextHeight(text));
        _tags.Adornment(() =>
        {
            var painter = new PdfPainter(_graphics!);
            painter.Area(new AreaMark(box, Palette.Band));
            painter.Area(new AreaMark(box with { Right = box.Left + 4 }, Palette.Ink));
        });
        _y += 5;
        _tags.Block(PdfBlockLevelElementTag.Paragraph, () => Lines(text.Text, lettering, PageSheet.LeftPt + 12, _sheet.TextPt - 20));
    }

    private void List(ListBlock list) => _tags.Block(PdfBlockLevelElementTag.List, () =>
    {
        foreach (string item in list.Items)
        {
            double middle = _y + (0.5 * PdfTexts.LineHeight(PageSheet.Plain));
            _tags.Adornment(() => new PdfPainter(_graphics!).Area(new AreaMark(new Box(PageSheet.LeftPt + 1, middle - 1.6, PageSheet.LeftPt + 4.2, middle + 1.6), Palette.OneBattery.Fill)));
            _tags.Block(PdfBlockLevelElementTag.ListItem, () =>
                _tags.Block(PdfBlockLevelElementTag.ListBody, () => Lines(item, PageSheet.Plain, PageSheet.LeftPt + 12, _sheet.TextPt - 12)));
            _y += 2;
        }
    });

    // As wide as the names, within bounds.
    private double NamesOf(FactsBlock facts) => Math.Clamp(facts.Facts.Max(f => (PageSheet.Small with { IsBold = true }).WidthPx(f.Name)) + 14, 0.2 * _sheet.TextPt, 0.4 * _sheet.TextPt);

    private double FactHeight((string Name, string Words) fact, double names) => 1.5 + Math.Max(
        TextLines(fact.Name, PageSheet.Small with { IsBold = true }, names - 6), TextLines(fact.Words, PageSheet.Small, _sheet.TextPt - names));

    private void Facts(FactsBlock facts) => _tags.Block(PdfBlockLevelElementTag.Table, () =>
    {
        double names = NamesOf(facts);
        foreach ((string name, string words) in facts.Facts)
        {
            _tags.Block(PdfBlockLevelElementTag.TableRow, () =>
            {
                double top = _y;
                _tags.Block(PdfBlockLevelElementTag.TableHeaderCell, () =>
                    Lines(name, PageSheet.Small with { IsBold = true, Colour = Palette.Ink }, PageSheet.LeftPt, names - 6));
                _y = top;
                _tags.Block(PdfBlockLevelElementTag.TableDataCell, () => Lines(words, PageSheet.Small, PageSheet.LeftPt + names, _sheet.TextPt - names));
                _y = top + FactHeight((name, words), names);
            });
        }
    });

    private static double TextLines(string text, Lettering lettering, double width) => PdfTexts.Lines(text, lettering, width).Count * PdfTexts.LineHeight(lettering);

    private void Tagged(PdfBlockLevelElementTag tag, string text, Lettering lettering) =>
        _tags.Block(tag, () => Lines(text, lettering, PageSheet.LeftPt, _sheet.TextPt));

    private void Lines(string text, Lettering lettering, double left, double width)
    {
        var painter = new PdfPainter(_graphics!);
        foreach (string line in PdfTexts.Lines(text, lettering, width))
        {
            painter.Text(new TextMark(TextRole.Lead, line, lettering, left, _y));
            _y += PdfTexts.LineHeight(lettering);
        }
    }

    private void NewSheet()
    {
        EndSheet();
        PdfPage page = _document.AddPage();
        page.Width = XUnit.FromPoint(_paper.WidthPt);
        page.Height = XUnit.FromPoint(_paper.HeightPt);
        _graphics = XGraphics.FromPdfPage(page);
        if (_scale != 1) _graphics.ScaleTransform(_scale);
        _y = TopPt;
    }

    private void EndSheet()
    {
        if (_graphics is null) return;
        Lettering small = PageSheet.Small with { SizePx = 7.5 / _scale };
        string number = string.Create(CultureInfo.InvariantCulture, $"page {_document.PageCount} of {_sheets}");
        double top = _sheet.HeightPt - (28 / _scale);
        _tags.Adornment(() =>
        {
            var painter = new PdfPainter(_graphics);
            painter.Text(new TextMark(TextRole.Footer, small.Shorten(_report.Foot, _sheet.TextPt - (70 / _scale)), small, PageSheet.LeftPt, top));
            painter.Text(new TextMark(TextRole.Footer, number, small, _sheet.RightPt, top, Align.End));
        });
        _graphics.Dispose();
        _graphics = null;
    }
}
