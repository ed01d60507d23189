using EnergySim.Reports.Drawing;

namespace EnergySim.Reports.Homeowner;

/// <summary>A page of the report: a title and what stands below it.</summary>
internal sealed record ReportPage(string Title, IReadOnlyList<ReportBlock> Blocks);

/// <summary>A part of a page. It is never broken over two pages.</summary>
internal abstract record ReportBlock;

/// <summary>How a text is set.</summary>
internal enum TextKind
{
    /// <summary>The one sentence that is read first.</summary>
    Lead,

    /// <summary>Running text.</summary>
    Plain,

    /// <summary>Small print.</summary>
    Small,

    /// <summary>A caution: set apart.</summary>
    Caution,
}

/// <summary>A paragraph.</summary>
internal sealed record TextBlock(TextKind Kind, string Text) : ReportBlock;

/// <summary>A heading inside a page.</summary>
internal sealed record HeadingBlock(string Text) : ReportBlock;

/// <summary>Large figures side by side.</summary>
internal sealed record CardsBlock(string Name, IReadOnlyList<FigureCard> Cards) : ReportBlock;

/// <summary>One large figure.</summary>
/// <param name="Name">Whose it is.</param>
/// <param name="Figure">The figure.</param>
/// <param name="Unit">What it is of.</param>
/// <param name="Below">A line or two under it.</param>
/// <param name="Style">The column's style.</param>
internal sealed record FigureCard(string Name, string Figure, string Unit, IReadOnlyList<string> Below, BarStyle? Style);

/// <summary>A table with names at the left and a column for each of its heads.</summary>
internal sealed record TableBlock(string Caption, IReadOnlyList<string> Heads, IReadOnlyList<TableRow> Rows) : ReportBlock;

/// <summary>A row of a table.</summary>
internal sealed record TableRow(string Name, IReadOnlyList<string> Cells, bool IsSum = false);

/// <summary>A picture that is laid out at the size it is given.</summary>
/// <param name="Name">Lower-case words joined by hyphens.</param>
/// <param name="Lay">Lays it.</param>
/// <param name="LeastPt">Height that it needs at least across a printed page, points.</param>
internal sealed record ChartBlock(string Name, Func<ChartSize, Picture> Lay, double LeastPt = 190) : ReportBlock;

/// <summary>Two pictures side by side where there is room.</summary>
internal sealed record PairBlock(ChartBlock Left, ChartBlock Right) : ReportBlock;

/// <summary>Sentences, each with a mark before it.</summary>
internal sealed record ListBlock(IReadOnlyList<string> Items) : ReportBlock;

/// <summary>Names and what they are, in small print.</summary>
internal sealed record FactsBlock(IReadOnlyList<(string Name, string Words)> Facts) : ReportBlock;
