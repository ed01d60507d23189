using EnergySim.Reports.Drawing;
using EnergySim.Studies.WiringFit;

namespace EnergySim.Reports.Wiring;

/// <summary>Lays the ways out: heading, key, a row a way, the ways that may not be, foot.</summary>
internal sealed class WaysLayout
{
    private readonly WiringComparison _comparison;
    private readonly OfferWays _offer;
    private readonly ChartSize _size;
    private readonly Sheet _sheet;
    private readonly Money _money;
    private readonly WaysWords _words;
    private readonly List<TextMark> _texts = [];
    private readonly List<SampleMark> _samples = [];
    private readonly List<BarMark> _bars = [];
    private readonly List<AreaMark> _bands = [];

    // What a cost is made of, in the order of the bar: battery, wiring, bills.
    private static readonly BarStyle[] s_styles = [Palette.OneBattery, Palette.AsItIs, Palette.FourthOffer];

    public WaysLayout(WiringComparison comparison, OfferWays offer, ChartSize size)
    {
        (_comparison, _offer, _size) = (comparison, offer, size);
        _sheet = new Sheet(size);
        _money = new Money(comparison.Currency);
        _words = new WaysWords(comparison, offer, _money);
    }

    public Picture Lay()
    {
        double left = _sheet.MarginPx, right = _size.WidthPx - _sheet.MarginPx, y = 0.8 * _sheet.MarginPx;
        Add(TextRole.Title, _sheet.Title.Shorten(_words.Title, right - left), _sheet.Title, left, y);
        y += 1.3 * _sheet.Title.SizePx;
        Add(TextRole.Lead, _sheet.Lead.Shorten(_words.Lead, right - left), _sheet.Lead, left, y);
        y = Key(left, right, y + (1.5 * _sheet.Name.SizePx));
        double bottom = Foot();
        WayResult[] run = [.. _offer.Ways.Where(w => w.Run is not null)], barred = [.. _offer.Ways.Where(w => w.Run is null)];
        bottom = Barred(barred, left, right, bottom);
        var field = new Box(left, y + (0.6 * _sheet.Name.SizePx), right, bottom - (0.4 * _sheet.Name.SizePx));
        Rows(run, field);
        return new Picture
        {
            Size = _size,
            Title = _words.Title,
            Description = _words.Description,
            Field = field,
            Bands = _bands,
            Guides = [],
            ZeroLine = new LineMark(field.Left, field.Right, field.Bottom, 1, Palette.Guide),
            Bars = _bars,
            Samples = _samples,
            Texts = _texts,
        };
    }

    private double Key(double left, double right, double y)
    {
        double em = _sheet.Name.SizePx, x = left;
        for (int i = 0; i < s_styles.Length; i++)
        {
            string name = WaysWords.Part(i);
            double width = (1.5 * em) + _sheet.Name.WidthPx(name);
            if (x > left && x + width > right) (x, y) = (left, y + (1.5 * em));
            _samples.Add(new SampleMark(i, new Box(x, y + (0.15 * em), x + em, y + (1.0 * em)), s_styles[i]));
            Add(TextRole.ColumnName, name, _sheet.Name, x + (1.5 * em), y);
            x += width + (1.5 * em);
        }
        return y + (1.5 * em);
    }

    private void Rows(WayResult[] ways, Box field)
    {
        if (ways.Length == 0) return;
        // Name over bar; a second line of words under the name.
        double pitch = field.Height / ways.Length, line = 1.25 * _sheet.Date.SizePx;
        double barHeight = Math.Clamp(pitch - (2.2 * line), 5, 1.7 * _sheet.Name.SizePx);
        double sumWidth = ways.Max(w => _sheet.Amount.WidthPx(_money.Whole(w.Run!.YearsCost))) + (0.6 * _sheet.Name.SizePx);
        double most = (double)ways.Max(w => w.Run!.YearsCost), perUnit = most > 0 ? (field.Width - sumWidth) / most : 0;
        for (int i = 0; i < ways.Length; i++)
        {
            WayResult way = ways[i];
            double top = field.Top + (i * pitch);
            if (i % 2 == 0) _bands.Add(new AreaMark(new Box(field.Left - (0.3 * _sheet.MarginPx), top, field.Right + (0.3 * _sheet.MarginPx), top + pitch), Palette.Band));
            double y = top + Math.Max(1, (pitch - barHeight - (1.15 * line)) / 2);
            string figures = _words.Figures(way, _sheet.IsNarrow);
            double figuresWidth = _sheet.Date.WidthPx(figures);
            Lettering name = way == _offer.Cheapest ? _sheet.Date with { IsBold = true } : _sheet.Date;
            Add(TextRole.BillDate, name.Shorten(WaysWords.Name(way), field.Width - figuresWidth - (1.5 * _sheet.Date.SizePx)), name, field.Left, y);
            _texts.Add(new TextMark(TextRole.BillAmount, figures, _sheet.Date with { Colour = Palette.QuietInk }, field.Right, y, Align.End));
            y += 1.15 * line;
            double x = field.Left;
            decimal[] parts = _words.Parts(way);
            for (int part = 0; part < parts.Length; part++)
            {
                // A year's bills below zero are a credit: they shorten nothing and are said in figures.
                double width = Math.Max(0, (double)parts[part] * perUnit);
                if (width > 0.5) _bars.Add(new BarMark(part, i, new Box(x, y, x + width, y + barHeight), s_styles[part]));
                x += width;
            }
            double middle = y + (barHeight / 2) - (_sheet.Amount.HeightPx / 2);
            Add(TextRole.ColumnAmount, _money.Whole(way.Run!.YearsCost), _sheet.Amount, x + (0.4 * _sheet.Name.SizePx), middle);
        }
    }

    // The ways that may not be, with the reason; laid from the bottom up.
    private double Barred(WayResult[] ways, double left, double right, double bottom)
    {
        if (ways.Length == 0) return bottom;
        string[] lines = [.. ways.SelectMany(w => _sheet.Date.Wrap(WaysWords.Barred(w).Split(' '), " ", right - left, ways.Length > 3 ? 1 : 2))];
        double line = 1.3 * _sheet.Date.SizePx, top = bottom - (line * (lines.Length + 0.6));
        for (int i = 0; i < lines.Length; i++) Add(TextRole.Lead, lines[i], _sheet.Date with { Colour = Palette.QuietInk }, left, top + (i * line));
        return top;
    }

    private double Foot()
    {
        double width = _size.WidthPx - (2 * _sheet.MarginPx), line = 1.3 * _sheet.Footer.SizePx;
        var lines = new List<string>(_sheet.Footer.Wrap(_words.Origin, " · ", width, 3));
        lines.AddRange(_sheet.Footer.Wrap(_words.Caution.Split(' '), " ", width, 3));
        double top = _size.HeightPx - (0.7 * _sheet.MarginPx) - (line * lines.Count);
        for (int i = 0; i < lines.Count; i++) Add(TextRole.Footer, lines[i], _sheet.Footer, _sheet.MarginPx, top + (i * line));
        return top - (0.4 * line);
    }

    private void Add(TextRole role, string text, Lettering lettering, double left, double top) => _texts.Add(new TextMark(role, text, lettering, left, top));
}
