using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Studies;

namespace EnergySim.Reports.Savings;

/// <summary>The field of bars with its scale and the dates of the bills.</summary>
internal sealed class BillField(Comparison comparison, Sheet sheet, SavingsWords words, IReadOnlyList<BarStyle> styles)
{
    // Of a bill's share of the width: what its bars take together. Of a bar's: what it fills.
    private const double GroupFraction = 0.8, BarFraction = 0.92;
    private const double GuidePx = 1;

    private readonly decimal[][] _amounts = [.. comparison.Columns.Select(c => c.Bills.Bills.Select(b => b.Total).ToArray())];
    private readonly List<AreaMark> _bands = [];
    private readonly List<LineMark> _guides = [];
    private readonly List<BarMark> _bars = [];
    private readonly List<TextMark> _texts = [];
    private BillScale _scale = new(0, 1, 1);

    /// <summary>From the highest step of the scale to the lowest, from the scale to the right margin.</summary>
    public Box Field { get; private set; }

    public IReadOnlyList<AreaMark> Bands => _bands;

    public IReadOnlyList<LineMark> Guides => _guides;

    public LineMark ZeroLine { get; private set; } = new(0, 0, 0, 0, Palette.Ink);

    public IReadOnlyList<BarMark> Bars => _bars;

    public IReadOnlyList<TextMark> Texts => _texts;

    private int BillCount => _amounts[0].Length;

    private double ScaleGap => 0.6 * sheet.Scale.SizePx;

    private double ShareWidth => Field.Width / BillCount;

    // One bill of one column need not fill the page.
    private double Pitch => Math.Min(ShareWidth * GroupFraction / styles.Count, 6 * sheet.Scale.SizePx);

    /// <summary>Lays everything inside an area, filling it.</summary>
    public void Lay(Box area)
    {
        _scale = BillScale.Of(_amounts.SelectMany(a => a), Math.Clamp((int)(area.Height / (4.5 * sheet.Scale.SizePx)), 2, 6));
        double scaleWidth = _scale.Ticks.Max(t => sheet.Scale.WidthPx(_scale.Label(t)));
        Field = area with { Left = area.Left + scaleWidth + ScaleGap };
        Lettering? lettering = AmountLettering();
        double roomForAmount = lettering?.HeightPx ?? 0;
        _texts.Add(new TextMark(TextRole.ScaleTitle, sheet.Scale.Shorten(words.ScaleTitle, area.Width), sheet.Scale, area.Left, area.Top));
        double top = _texts[0].Box.Bottom + Math.Max(roomForAmount, 0.8 * sheet.Scale.HeightPx);
        double bottom = BillDates(area.Bottom) - (0.35 * sheet.Date.SizePx);
        if (_scale.Lowest < 0) bottom -= Math.Max(roomForAmount, 0.6 * sheet.Scale.HeightPx);
        Field = Field with { Top = top, Bottom = bottom };
        BandsAndTicks();
        BarsOf(lettering);
        GuideLines();
    }

    /// <summary>Height at which an amount lies.</summary>
    public double YOf(decimal amount) => Field.Top + (Field.Height * (double)((_scale.Highest - amount) / (_scale.Highest - _scale.Lowest)));

    private double MiddleOf(int bill) => Field.Left + (ShareWidth * (bill + 0.5));

    // Large beside a few wide bars; null where the bars are too narrow to say them at all.
    private Lettering? AmountLettering()
    {
        string[] amounts = [.. _amounts.SelectMany(a => a).Select(Money.Bare).Distinct()];
        bool Fits(Lettering lettering, double share) => amounts.All(a => lettering.WidthPx(a) <= share * Pitch);
        return Fits(sheet.Name, 0.6) ? sheet.Name : Fits(sheet.Date, 0.75) ? sheet.Date : Fits(sheet.BillAmount, 0.93) ? sheet.BillAmount : null;
    }

    // Dates on the last lines of the area, the year below where it changes; every second or third bill where they stand too close.
    private double BillDates(double bottom)
    {
        double room = ShareWidth - (0.3 * sheet.Date.SizePx);
        bool isNarrow = Widest(isNarrow: false) > room;
        int stride = (int)Math.Ceiling(Widest(isNarrow) / room);
        var shown = Enumerable.Range(0, BillCount).Where(b => b % stride == 0).ToArray();
        int[] years = [.. shown.Select(words.Year)];
        int dateLines = words.BillDate(0, isNarrow).Count;
        double line = 1.2 * sheet.Date.SizePx, top = bottom - (line * (dateLines + 1));
        for (int i = 0; i < shown.Length; i++)
        {
            IReadOnlyList<string> lines = words.BillDate(shown[i], isNarrow);
            for (int l = 0; l < lines.Count; l++) Date(lines[l], shown[i], top + (l * line));
            bool changes = i == 0 ? years.Length == 1 || years[1] == years[0] : years[i] != years[i - 1];
            if (changes) Date(years[i].ToString(CultureInfo.InvariantCulture), shown[i], top + (dateLines * line), sheet.Scale);
        }
        return top;

        double Widest(bool isNarrow) => Enumerable.Range(0, BillCount).SelectMany(b => words.BillDate(b, isNarrow)).Max(sheet.Date.WidthPx);
    }

    private void Date(string text, int bill, double top, Lettering? lettering = null) =>
        _texts.Add(new TextMark(TextRole.BillDate, text, lettering ?? sheet.Date, MiddleOf(bill), top, Align.Middle));

    private void BandsAndTicks()
    {
        for (int b = 0; b < BillCount; b += 2)
            if (BillCount > 1) _bands.Add(new AreaMark(Field with { Left = Field.Left + (b * ShareWidth), Right = Field.Left + ((b + 1) * ShareWidth) }, Palette.Band));
        double right = Field.Left - ScaleGap, rise = 0.6 * sheet.Scale.SizePx;
        foreach (decimal tick in _scale.Ticks)
            _texts.Add(new TextMark(TextRole.Tick, _scale.Label(tick), sheet.Scale, right, YOf(tick) - rise, Align.End));
        ZeroLine = new LineMark(Field.Left, Field.Right, YOf(0), 1.5, Palette.Ink);
    }

    // A guide stops before an amount that stands on it and goes on behind it.
    private void GuideLines()
    {
        foreach (double y in _scale.Ticks.Where(t => t != 0).Select(YOf))
        {
            double left = Field.Left;
            var inTheWay = _texts.Where(t => t.Role == TextRole.BillAmount && y > t.Box.Top - GuidePx && y < t.Box.Bottom + GuidePx).Select(t => t.Box);
            foreach (Box text in inTheWay.OrderBy(b => b.Left))
            {
                if (text.Left - 2 > left) _guides.Add(new LineMark(left, text.Left - 2, y, GuidePx, Palette.Guide));
                left = text.Right + 2;
            }
            if (left < Field.Right) _guides.Add(new LineMark(left, Field.Right, y, GuidePx, Palette.Guide));
        }
    }

    private void BarsOf(Lettering? lettering)
    {
        double zero = YOf(0), width = Pitch * BarFraction;
        for (int b = 0; b < BillCount; b++)
        {
            double first = MiddleOf(b) - (Pitch * styles.Count / 2) + (Pitch * (1 - BarFraction) / 2);
            for (int c = 0; c < styles.Count; c++)
            {
                decimal amount = _amounts[c][b];
                double left = first + (c * Pitch), end = YOf(amount);
                var box = new Box(left, Math.Min(zero, end), left + width, Math.Max(zero, end));
                _bars.Add(new BarMark(c, b, box, styles[c]));
                if (lettering is null) continue;
                double top = amount < 0 ? box.Bottom + 1 : box.Top - lettering.HeightPx;
                _texts.Add(new TextMark(TextRole.BillAmount, Money.Bare(amount), lettering, box.MiddleX, top, Align.Middle));
            }
        }
    }
}
