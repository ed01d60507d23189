using EnergySim.Reports.Drawing;
using EnergySim.Studies;

namespace EnergySim.Reports.Savings;

/// <summary>Lays the savings chart out: heading, columns with their sums, field of bars, foot.</summary>
internal sealed class SavingsLayout
{
    /// <summary>Bills there may be: two years of thirteen.</summary>
    public const int MostBills = 26;

    private readonly Comparison _comparison;
    private readonly ChartSize _size;
    private readonly Sheet _sheet;
    private readonly SavingsWords _words;
    private readonly IReadOnlyList<BarStyle> _styles;
    private readonly List<SampleMark> _samples = [];
    private readonly List<TextMark> _texts = [];

    private SavingsLayout(Comparison comparison, ChartSize size)
    {
        _comparison = comparison;
        _size = size;
        _sheet = new Sheet(size);
        _words = new SavingsWords(comparison);
        _styles = Palette.StylesOf(comparison.Columns);
    }

    /// <exception cref="ArgumentException">The columns or bills are too many, none, or do not match.</exception>
    public static Picture Of(Comparison comparison, ChartSize size)
    {
        Check(comparison);
        return new SavingsLayout(comparison, size).Lay();
    }

    private static void Check(Comparison comparison)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        if (comparison.Columns.Count is < 1 or > Palette.MostColumns)
            throw new ArgumentException($"{comparison.Columns.Count} columns; the chart has 1–{Palette.MostColumns}.", nameof(comparison));
        var periods = comparison.Columns.Select(c => c.Bills.Bills.Select(b => (b.From, b.To)).ToArray()).ToArray();
        if (periods[0].Length is < 1 or > MostBills)
            throw new ArgumentException($"{periods[0].Length} bills; the chart has 1–{MostBills}.", nameof(comparison));
        for (int i = 1; i < periods.Length; i++)
            if (!periods[i].SequenceEqual(periods[0]))
                throw new ArgumentException($"The bills of column {i + 1} are not of the periods of the first.", nameof(comparison));
    }

    private Picture Lay()
    {
        double margin = _sheet.MarginPx;
        Add(TextRole.Title, _sheet.Title.Shorten(_words.Title, _size.WidthPx - (2 * margin)), _sheet.Title, margin, margin * 0.8);
        double top = Legend(_texts[^1].Box.Bottom + (0.35 * _sheet.Name.SizePx));
        double bottom = Foot();
        var field = new BillField(_comparison, _sheet, _words, _styles);
        field.Lay(new Box(margin, top + _sheet.Name.SizePx, _size.WidthPx - margin, bottom - _sheet.Footer.SizePx));
        return new Picture
        {
            Size = _size,
            Title = _words.Title,
            Description = _words.Description,
            Field = field.Field,
            Bands = field.Bands,
            Guides = field.Guides,
            ZeroLine = field.ZeroLine,
            Bars = field.Bars,
            Samples = _samples,
            Texts = [.. _texts, .. field.Texts],
        };
    }

    // What the sums are of, then each column's sample, name and sum, on as many lines as they need.
    private double Legend(double top)
    {
        Lettering name = _sheet.Name, amount = _sheet.Amount;
        double em = name.SizePx, line = 1.55 * em, between = 1.5 * em, sample = 0.85 * em, gap = 0.4 * em;
        double left = _sheet.MarginPx, right = _size.WidthPx - left, x = left, y = top;
        Add(TextRole.Lead, _words.Lead, _sheet.Lead, x, y);
        x = _texts[^1].Box.Right + (0.7 * em);
        for (int i = 0; i < _styles.Count; i++)
        {
            string sum = _words.ColumnAmount(i);
            double fixedWidth = sample + gap + gap + amount.WidthPx(sum);
            // A long name may not push the others onto lines of their own.
            double most = _sheet.IsNarrow ? right - left - fixedWidth : Math.Min(right - left - fixedWidth, 26 * em);
            string text = name.Shorten(_words.ColumnName(i), most);
            double width = fixedWidth + name.WidthPx(text);
            if (x > left && x + width > right) (x, y) = (left, y + line);
            double capTop = y + name.AscentPx - (0.78 * em);
            _samples.Add(new SampleMark(i, new Box(x, capTop, x + sample, capTop + (0.85 * em)), _styles[i]));
            Add(TextRole.ColumnName, text, name, x + sample + gap, y);
            Add(TextRole.ColumnAmount, sum, amount, x + width - amount.WidthPx(sum), y);
            x += width + between;
        }
        return y + name.HeightPx;
    }

    // Lays from the bottom up; gives the top.
    private double Foot()
    {
        if (_size.IsPart) return _size.HeightPx - (0.7 * _sheet.MarginPx);
        double width = _size.WidthPx - (2 * _sheet.MarginPx);
        var lines = new List<string>(_sheet.Footer.Wrap(_words.Origin, " · ", width, 3));
        if (_words.InventedNote is string note) lines.AddRange(_sheet.Footer.Wrap(note.Split(' '), " ", width, 2));
        double line = 1.3 * _sheet.Footer.SizePx;
        double top = _size.HeightPx - (0.7 * _sheet.MarginPx) - (line * lines.Count);
        for (int i = 0; i < lines.Count; i++) Add(TextRole.Footer, lines[i], _sheet.Footer, _sheet.MarginPx, top + (i * line));
        return top;
    }

    private void Add(TextRole role, string text, Lettering lettering, double left, double top) =>
        _texts.Add(new TextMark(role, text, lettering, left, top));
}
