using System.Globalization;
using System.Net;
using System.Text;
using EnergySim.Reports.Drawing;
using EnergySim.Reports.Homeowner;

namespace EnergySim.Reports.Html;

/// <summary>Writes a report as one page that needs nothing else: style, letters and pictures are inside it; each picture is there for a wide and a narrow screen.</summary>
internal sealed class HtmlPage(HomeownerReport report)
{
    private static readonly ChartSize s_wide = ChartSize.Part(720, 420), s_narrow = ChartSize.Part(420, 500), s_half = ChartSize.Part(400, 420);
    private readonly StringBuilder _text = new();
    private int _names;

    public string Write()
    {
        Line("<!DOCTYPE html>");
        Line("<html lang=\"en\">");
        Line("<head>");
        Line("<meta charset=\"utf-8\">");
        Line("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">");
        Line($"<title>{Safe(report.Title)}</title>");
        Line("<!-- Embedded letters: part of a font under the SIL Open Font License 1.1; its notice is inside the font. -->");
        Line($"<style>{SvgPainter.FontFaces}{HtmlStyle.Text}</style>");
        Line("</head>");
        Line("<body>");
        Line($"<header><h1>{Safe(report.Title)}</h1><p class=\"small\">{Safe(report.Subtitle)}</p></header>");
        Line("<main>");
        for (int p = 0; p < report.Pages.Count; p++) Page(report.Pages[p], string.Create(CultureInfo.InvariantCulture, $"page-{p + 1}"));
        Line("</main>");
        Line($"<footer><p class=\"small\">{Safe(report.Foot)}</p></footer>");
        Line("</body>");
        Line("</html>");
        return _text.ToString();
    }

    private void Page(ReportPage page, string id)
    {
        Line($"<section aria-labelledby=\"{id}\">");
        Line($"<h2 id=\"{id}\">{Safe(page.Title)}</h2>");
        foreach (ReportBlock block in page.Blocks) Block(block);
        Line("</section>");
    }

    private void Block(ReportBlock block)
    {
        switch (block)
        {
            case TextBlock text: Line($"<p class=\"{text.Kind.ToString().ToLowerInvariant()}\">{Safe(text.Text)}</p>"); break;
            case HeadingBlock heading: Line($"<h3>{Safe(heading.Text)}</h3>"); break;
            case CardsBlock cards: Cards(cards); break;
            case TableBlock table: Table(table); break;
            case ChartBlock chart: Line($"<figure>{Picture(chart, s_wide, "wide")}{Picture(chart, s_narrow, "narrow")}</figure>"); break;
            case PairBlock pair: Line($"<div class=\"pair\"><figure>{Picture(pair.Left, s_half, "")}</figure><figure>{Picture(pair.Right, s_half, "")}</figure></div>"); break;
            case ListBlock list: Line($"<ul>{string.Concat(list.Items.Select(i => $"<li>{Safe(i)}</li>"))}</ul>"); break;
            case FactsBlock facts: Line($"<dl>{string.Concat(facts.Facts.Select(f => $"<div><dt>{Safe(f.Name)}</dt><dd>{Safe(f.Words)}</dd></div>"))}</dl>"); break;
        }
    }

    private void Cards(CardsBlock cards)
    {
        Line($"<ul class=\"cards\" aria-label=\"{Safe(cards.Name)}\">");
        foreach (FigureCard card in cards.Cards)
        {
            string edge = card.Style is BarStyle style ? $" style=\"border-top-color:{style.Fill.Hex}\"" : "";
            Line($"<li{edge}><strong>{Safe(card.Name)}</strong><span class=\"figure\">{Safe(card.Figure)}</span><span class=\"unit\">{Safe(card.Unit)}</span>"
                + string.Concat(card.Below.Select(b => $"<span class=\"unit\">{Safe(b)}</span>")) + "</li>");
        }
        Line("</ul>");
    }

    // A wide table scrolls inside its own box, which the keyboard must reach.
    private void Table(TableBlock table)
    {
        Line($"<div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"{Safe(table.Caption)}\"><table>");
        Line($"<caption>{Safe(table.Caption)}</caption>");
        Line($"<thead><tr><td></td>{string.Concat(table.Heads.Select(h => $"<th scope=\"col\">{Safe(h)}</th>"))}</tr></thead><tbody>");
        foreach (TableRow row in table.Rows)
            Line($"<tr{(row.IsSum ? " class=\"sum\"" : "")}><th scope=\"row\">{Safe(row.Name)}</th>{string.Concat(row.Cells.Select(c => $"<td>{Safe(c)}</td>"))}</tr>");
        Line("</tbody></table></div>");
    }

    private string Picture(ChartBlock chart, ChartSize size, string kind)
    {
        string name = string.Create(CultureInfo.InvariantCulture, $"{chart.Name}-{++_names}");
        return $"<div class=\"picture {kind}\">{SvgPainter.Part(chart.Lay(size), name)}</div>";
    }

    private void Line(string text) => _text.Append(text).Append('\n');

    private static string Safe(string text) => WebUtility.HtmlEncode(text);
}
