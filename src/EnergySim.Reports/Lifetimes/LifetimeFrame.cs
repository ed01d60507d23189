using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Lifetime;

namespace EnergySim.Reports.Lifetimes;

/// <summary>What both pictures share: heading, the offers' samples with a figure each, and the assumptions at the foot.</summary>
internal sealed class LifetimeFrame
{
    private readonly List<TextMark> _texts = [];
    private readonly List<SampleMark> _samples = [];

    /// <exception cref="ArgumentException">No offer states a price, or they are too many to tell apart.</exception>
    public LifetimeFrame(LifetimeResult result, ChartSize size)
    {
        ArgumentNullException.ThrowIfNull(result);
        Result = result;
        Size = size;
        Sheet = new Sheet(size);
        Money = new Money(result.Currency);
        Offers = [.. result.Offers.Where(o => o.Indicators is not null)];
        if (Offers.Count == 0) throw new ArgumentException("No offer states a price, so there is no cash to draw.", nameof(result));
        Styles = [.. Palette.StylesOf([0, .. Offers.Select(o => o.BatteryUnits)]).Skip(1)];
    }

    public LifetimeResult Result { get; }

    public ChartSize Size { get; }

    public Sheet Sheet { get; }

    public Money Money { get; }

    /// <summary>The offers that state a price.</summary>
    public IReadOnlyList<LifetimeOffer> Offers { get; }

    public IReadOnlyList<BarStyle> Styles { get; }

    public List<TextMark> Texts => _texts;

    public IReadOnlyList<SampleMark> Samples => _samples;

    /// <summary>Lays heading, legend and foot; gives what is left between them.</summary>
    /// <param name="title">The heading.</param>
    /// <param name="lead">What the figures are of.</param>
    /// <param name="figure">The figure of an offer, by index.</param>
    public Box Lay(string title, string lead, Func<int, string> figure)
    {
        double margin = Sheet.MarginPx, width = Size.WidthPx - (2 * margin);
        Add(TextRole.Title, Sheet.Title.Shorten(title, width), Sheet.Title, margin, margin * 0.8);
        double line = 1.5 * Sheet.Name.SizePx, top = _texts[^1].Box.Bottom + (0.3 * Sheet.Name.SizePx);
        foreach (string words in Sheet.Lead.Wrap(lead.Split(' '), " ", width, Sheet.IsNarrow ? 3 : 2))
        {
            Add(TextRole.Lead, words, Sheet.Lead, margin, top);
            top += line;
        }
        double em = Sheet.Name.SizePx, sample = 0.85 * em;
        for (int i = 0; i < Offers.Count; i++)
        {
            double capTop = top + Sheet.Name.AscentPx - (0.78 * em);
            _samples.Add(new SampleMark(i, new Box(margin, capTop, margin + sample, capTop + sample), Styles[i]));
            string name = Sheet.Name.Shorten(Lettering.Clean(Offers[i].Name) + ":", 0.4 * width);
            Add(TextRole.ColumnName, name, Sheet.Name, margin + (1.25 * em), top);
            double left = _texts[^1].Box.Right + (0.4 * em);
            Add(TextRole.ColumnAmount, Sheet.Amount.Shorten(figure(i), Size.WidthPx - margin - left), Sheet.Amount, left, top);
            top += line;
        }
        return new Box(margin, top + (0.5 * em), Size.WidthPx - margin, Foot(width) - (0.8 * Sheet.Footer.SizePx));
    }

    /// <summary>The picture of what has been laid.</summary>
    public string Origin => Lettering.Clean(Result.Home) + string.Create(CultureInfo.InvariantCulture, $", {Result.Terms.HorizonYears} years from {Result.From:uuuu-MM-dd}");

    public void Add(TextRole role, string text, Lettering lettering, double anchor, double top, Align align = Align.Start) =>
        _texts.Add(new TextMark(role, text, lettering, anchor, top, align));

    /// <summary>The assumptions as one text.</summary>
    public IEnumerable<string> Assumptions => Result.Disclosure.All.Select(a => $"{a.Name}: {Lettering.Clean(a.Words)}");

    // From the bottom up; gives the top.
    private double Foot(double width)
    {
        var words = new List<string> { Origin };
        words.AddRange(Assumptions);
        string? invented = Result.Notes.FirstOrDefault(n => n.Contains("invented", StringComparison.OrdinalIgnoreCase));
        string text = string.Join(" · ", words) + (invented is null ? "" : " · " + Lettering.Clean(invented));
        IReadOnlyList<string> lines = Sheet.Footer.Wrap(text.Split(' '), " ", width, Sheet.IsNarrow ? 16 : 7);
        double line = 1.3 * Sheet.Footer.SizePx, top = Size.HeightPx - (0.7 * Sheet.MarginPx) - (line * lines.Count);
        for (int i = 0; i < lines.Count; i++) Add(TextRole.Footer, lines[i], Sheet.Footer, Sheet.MarginPx, top + (i * line));
        return top;
    }
}
