using EnergySim.Reports.Drawing;

namespace EnergySim.Reports.Html;

/// <summary>How the report's page looks: the palette of the pictures, on screen and on paper.</summary>
internal static class HtmlStyle
{
    public static string Text { get; } = $$"""

        :root { color-scheme: light; }
        * { box-sizing: border-box; }
        body { margin: 0 auto; padding: 1.5rem; max-width: 60rem; color: {{Palette.Ink.Hex}}; background: {{Palette.Paper.Hex}};
          font: 1.0625rem/1.5 {{SvgPainter.FontFamilies}}; overflow-wrap: anywhere; }
        h1 { font-size: 2rem; line-height: 1.2; margin: 0 0 .25rem; }
        h2 { font-size: 1.5rem; margin: 2.5rem 0 .75rem; padding-top: .5rem; border-top: 2px solid {{Palette.Ink.Hex}}; }
        h3 { font-size: 1.125rem; margin: 1.5rem 0 .5rem; }
        p { margin: .75rem 0; max-width: 46rem; }
        .lead { font-size: 1.375rem; line-height: 1.4; }
        .small, dl { font-size: .875rem; color: {{Palette.QuietInk.Hex}}; }
        .caution { font-weight: bold; background: {{Palette.Band.Hex}}; border-left: 6px solid {{Palette.Ink.Hex}}; padding: .75rem 1rem; max-width: none; }
        .cards { display: grid; grid-template-columns: repeat(auto-fit, minmax(9.5rem, 1fr)); gap: .75rem; list-style: none; margin: 1rem 0; padding: 0; }
        .cards li { background: {{Palette.Band.Hex}}; border-top: 8px solid {{Palette.Guide.Hex}}; padding: .75rem 1rem; display: flex; flex-direction: column; }
        .figure { font-size: 2.25rem; font-weight: bold; line-height: 1.2; overflow-wrap: normal; }
        .unit { color: {{Palette.QuietInk.Hex}}; }
        .scroll { overflow-x: auto; margin: 1rem 0; }
        .scroll:focus-visible { outline: 3px solid {{Palette.Grid.Hex}}; }
        table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }
        caption { text-align: left; font-weight: bold; padding-bottom: .25rem; }
        th, td { padding: .375rem .5rem .375rem 0; text-align: right; vertical-align: top; overflow-wrap: normal; }
        th[scope=row] { text-align: left; font-weight: normal; min-width: 9rem; }
        thead th { border-bottom: 1px solid {{Palette.Ink.Hex}}; } thead td { border-bottom: 1px solid {{Palette.Ink.Hex}}; }
        tbody tr + tr > * { border-top: 1px solid {{Palette.Guide.Hex}}; }
        tr.sum > * { font-weight: bold; border-top: 1px solid {{Palette.Ink.Hex}} !important; }
        figure { margin: 1rem 0; border: 1px solid {{Palette.Guide.Hex}}; }
        figure svg { display: block; width: 100%; height: auto; }
        .narrow { display: none; }
        .pair { display: grid; grid-template-columns: repeat(auto-fit, minmax(18rem, 1fr)); gap: .75rem; } .pair figure { margin: 0; }
        ul { padding-left: 1.25rem; } li { margin: .25rem 0; }
        dl { margin: .5rem 0; } dl div { display: grid; grid-template-columns: 11rem 1fr; gap: .75rem; padding: .125rem 0; }
        dt { font-weight: bold; color: {{Palette.Ink.Hex}}; } dd { margin: 0; }
        @media (max-width: 37rem) {
          body { padding: 1rem; } h1 { font-size: 1.625rem; } .lead { font-size: 1.1875rem; }
          .wide { display: none; } .narrow { display: block; } dl div { grid-template-columns: 1fr; gap: 0; }
        }
        @media print {
          body { padding: 0; max-width: none; font-size: 10.5pt; } section + section { break-before: page; } h2 { margin-top: 0; }
          figure, .cards, table, .caution { break-inside: avoid; } h2, h3 { break-after: avoid; } .scroll { overflow: visible; }
          .wide { display: block; } .narrow { display: none; }
        }

        """;
}
