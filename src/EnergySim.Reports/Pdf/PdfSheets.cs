using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Reports.Homeowner;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace EnergySim.Reports.Pdf;

/// <summary>Sets the report's pages: each begins a sheet of its own, and what does not fit goes on whole to the next.</summary>
internal sealed class PdfSheets
{
    // Pixels of a chart's own across the text: letters come out at 7–9 points.
    private const double ChartPx = 720, PairPx = 400, LowestPairPt = 235, MostGrowthPt = 120;

    private readonly PdfDocument _document;
    private readonly HomeownerReport _report;
    private readonly PageSheet _sheet;
    private XGraphics? _graphics;
    private double _y;

    public PdfSheets(PdfDocument document, HomeownerReport report, PageSheet sheet) => (_document, _report, _sheet) = (document, report, sheet);

    public void Set()
    {
        for (int p = 0; p < _report.Pages.Count; p++)
        {
            NewSheet();
            if (p == 0) Heads();
            ReportPage page = _report.Pages[p];
            Lines(page.Title, PageSheet.PageTitle, PageSheet.LeftPt, _sheet.TextPt);
            _y += PageSheet.GapPt;
            Blocks(page);
        }
        _graphics?.Dispose();
        Feet();
    }

    private void Heads()
    {
        Lines(_report.Title, PageSheet.Title, PageSheet.LeftPt, _sheet.TextPt);
        Lines(_report.Subtitle, PageSheet.Subtitle, PageSheet.LeftPt, _sheet.TextPt);
        _y += PageSheet.GapPt;
    }

    private void Blocks(ReportPage page)
    {
        double[] heights = [.. page.Blocks.Select(HeightOf)];
        // What is left of the sheet is shared by its pictures.
        int pictures = page.Blocks.Count(b => b is ChartBlock or PairBlock);
        double left = _sheet.BottomPt - _y - heights.Sum() - (PageSheet.GapPt * (heights.Length - 1));
        double more = pictures > 0 && left > 0 ? Math.Min(left / pictures, MostGrowthPt) : 0;
        for (int b = 0; b < page.Blocks.Count; b++)
        {
            ReportBlock block = page.Blocks[b];
            double height = heights[b] + (block is ChartBlock or PairBlock ? more : 0);
            // A heading stays with what it heads.
            double together = height + (block is HeadingBlock && b + 1 < heights.Length ? heights[b + 1] + PageSheet.GapPt : 0);
            if (_y + together > _sheet.BottomPt + 0.5) NewSheet();
            double top = _y;
            Draw(block, height);
            _y = top + height + (block is HeadingBlock ? 0.3 * PageSheet.GapPt : PageSheet.GapPt);
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
            case HeadingBlock heading: Lines(heading.Text, PageSheet.Heading, PageSheet.LeftPt, _sheet.TextPt); break;
            case CardsBlock cards: new PdfCards(cards, _sheet).Draw(_graphics!, _y); break;
            case TableBlock table: new PdfTable(table, _sheet).Draw(_graphics!, _y); break;
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
        XGraphicsState state = _graphics!.Save();
        _graphics.TranslateTransform(left, _y);
        _graphics.ScaleTransform(scale);
        picture.Paint(new PdfPainter(_graphics));
        _graphics.Restore(state);
        _graphics.DrawRectangle(new XPen(XColor.FromArgb(Palette.Guide.Red, Palette.Guide.Green, Palette.Guide.Blue), 0.6), left, _y, width, height);
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
            Lines(text.Text, lettering, PageSheet.LeftPt, _sheet.TextPt);
            return;
        }
        var box = new Box(PageSheet.LeftPt, _y, _sheet.RightPt, _y + TextHeight(text));
        var painter = new PdfPainter(_graphics!);
        painter.Area(new AreaMark(box, Palette.Band));
        painter.Area(new AreaMark(box with { Right = box.Left + 4 }, Palette.Ink));
        _y += 5;
        Lines(text.Text, lettering, PageSheet.LeftPt + 12, _sheet.TextPt - 20);
    }

    private void List(ListBlock list)
    {
        foreach (string item in list.Items)
        {
            var painter = new PdfPainter(_graphics!);
            double middle = _y + (0.5 * PdfTexts.LineHeight(PageSheet.Plain));
            painter.Area(new AreaMark(new Box(PageSheet.LeftPt + 1, middle - 1.6, PageSheet.LeftPt + 4.2, middle + 1.6), Palette.OneBattery.Fill));
            Lines(item, PageSheet.Plain, PageSheet.LeftPt + 12, _sheet.TextPt - 12);
            _y += 2;
        }
    }

    // As wide as the names, within bounds.
    private double NamesOf(FactsBlock facts) => Math.Clamp(facts.Facts.Max(f => (PageSheet.Small with { IsBold = true }).WidthPx(f.Name)) + 14, 0.2 * _sheet.TextPt, 0.4 * _sheet.TextPt);

    private double FactHeight((string Name, string Words) fact, double names) => 1.5 + Math.Max(
        TextLines(fact.Name, PageSheet.Small with { IsBold = true }, names - 6), TextLines(fact.Words, PageSheet.Small, _sheet.TextPt - names));

    private void Facts(FactsBlock facts)
    {
        double names = NamesOf(facts);
        foreach ((string name, string words) in facts.Facts)
        {
            double top = _y;
            Lines(name, PageSheet.Small with { IsBold = true, Colour = Palette.Ink }, PageSheet.LeftPt, names - 6);
            _y = top;
            Lines(words, PageSheet.Small, PageSheet.LeftPt + names, _sheet.TextPt - names);
            _y = top + FactHeight((name, words), names);
        }
    }

    private static double TextLines(string text, Lettering lettering, double width) => PdfTexts.Lines(text, lettering, width).Count * PdfTexts.LineHeight(lettering);

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
        _graphics?.Dispose();
        PdfPage page = _document.AddPage();
        page.Width = XUnit.FromPoint(_sheet.WidthPt);
        page.Height = XUnit.FromPoint(_sheet.HeightPt);
        _graphics = XGraphics.FromPdfPage(page);
        _y = PageSheet.MarginPt - 8;
    }

    private void Feet()
    {
        int count = _document.PageCount;
        for (int p = 0; p < count; p++)
        {
            using XGraphics graphics = XGraphics.FromPdfPage(_document.Pages[p]);
            var painter = new PdfPainter(graphics);
            double top = _sheet.HeightPt - 28;
            string number = string.Create(CultureInfo.InvariantCulture, $"page {p + 1} of {count}");
            Lettering small = PageSheet.Small with { SizePx = 7.5 };
            painter.Text(new TextMark(TextRole.Footer, small.Shorten(_report.Foot, _sheet.TextPt - 70), small, PageSheet.LeftPt, top));
            painter.Text(new TextMark(TextRole.Footer, number, small, _sheet.RightPt, top, Align.End));
        }
    }
}
