using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Lifetime;

namespace EnergySim.Reports.Lifetimes;

/// <summary>Lays the bands out: a row a cause, the widest first, in it a bar an offer from low to high, and a mark where the likely figure lies.</summary>
internal sealed class BandLayout(LifetimeFrame frame)
{
    private const string Heading = "What could make it more or less";

    private readonly Band[] _bands = [.. frame.Offers.Select(o => o.Bands.NetPresentValue!)];
    private readonly List<AreaMark> _areas = [];
    private readonly List<BarMark> _bars = [];
    private readonly List<CurveMark> _marks = [];
    private BillScale _scale = new(0, 1, 1);
    private Box _field;

    // Causes by what they do to the first offer.
    private IEnumerable<string> Causes => _bands[0].Causes.Select(c => c.Name);

    public Picture Lay()
    {
        string lead = string.Create(CultureInfo.InvariantCulture, $"Present value of {frame.Result.Terms.HorizonYears} years less the price, bought for cash: low, likely and high. Each cause is moved alone; per cent: its share of the band.");
        Box area = frame.Lay(Heading, lead, i => $"{Words(_bands[i].Likely)} ({Words(_bands[i].Low)} to {Words(_bands[i].High)})");
        LayScale(area);
        string[] rows = ["all together", .. Causes];
        double height = _field.Height / rows.Length;
        for (int r = 0; r < rows.Length; r++) Row(rows[r], r, new Box(_field.Left, _field.Top + (r * height), _field.Right, _field.Top + ((r + 1) * height)));
        return new Picture
        {
            Size = frame.Size,
            Title = Heading,
            Description = Description,
            Field = _field,
            Bands = _areas,
            Guides = [],
            ZeroLine = new LineMark(_field.Left, _field.Right, _field.Bottom, 1, Palette.QuietInk),
            Bars = _bars,
            Curves = _marks,
            Samples = frame.Samples,
            Texts = frame.Texts,
        };
    }

    private void LayScale(Box area)
    {
        Sheet sheet = frame.Sheet;
        _scale = BillScale.Of(_bands.SelectMany(b => new[] { (decimal)b.Low, (decimal)b.High }), Math.Clamp((int)(area.Width / (7 * sheet.Scale.SizePx)), 2, 8));
        // The outermost labels stand out by half their width.
        double inset = _scale.Ticks.Max(t => sheet.Scale.WidthPx(frame.Money.Whole(t))) / 2;
        _field = area with { Bottom = area.Bottom - (1.5 * sheet.Scale.HeightPx), Left = area.Left + inset, Right = area.Right - inset };
        foreach (decimal tick in _scale.Ticks)
        {
            double x = XOf((double)tick);
            frame.Add(TextRole.Tick, frame.Money.Whole(tick), sheet.Scale, x, _field.Bottom + (0.3 * sheet.Scale.SizePx), Align.Middle);
        }
    }

    private void Row(string cause, int index, Box row)
    {
        Sheet sheet = frame.Sheet;
        if (index % 2 == 0) _areas.Add(new AreaMark(row, Palette.Band));
        double name = sheet.BillAmount.HeightPx * 1.15;
        string shares = index == 0 ? "" : " · " + string.Join(" and ", _bands.Select(b => CauseOf(b, cause).Share.ToString("0 %", CultureInfo.InvariantCulture)));
        var label = sheet.Date with { IsBold = index == 0 };
        frame.Add(TextRole.ScaleTitle, Labelled(label, cause, shares, row.Width), label, row.Left + 4, row.Top + 2);
        // Guides lie behind the bars only, so that no line crosses the words.
        foreach (decimal tick in _scale.Ticks)
        {
            double x = XOf((double)tick), half = tick == 0 ? 0.9 : 0.5;
            _areas.Add(new AreaMark(new Box(x - half, row.Top + name + 3, x + half, row.Bottom), tick == 0 ? Palette.Ink : Palette.Guide));
        }
        double top = row.Top + name + 4, thick = Math.Min((row.Bottom - top - 3) / _bands.Length, 2.2 * sheet.Scale.SizePx);
        for (int i = 0; i < _bands.Length; i++)
        {
            (double low, double high) = index == 0 ? (_bands[i].Low, _bands[i].High) : (CauseOf(_bands[i], cause).Low, CauseOf(_bands[i], cause).High);
            double y = top + (i * thick);
            var bar = new Box(XOf(low), y, Math.Max(XOf(high), XOf(low) + 1), y + (0.85 * thick));
            _bars.Add(new BarMark(i, index, bar, frame.Styles[i]));
            double likely = XOf(_bands[i].Likely);
            _marks.Add(new CurveMark([(likely, bar.Top), (likely, bar.Bottom)], 2, Palette.Ink));
        }
    }

    // The shares of many offers would leave no room for the cause.
    private static string Labelled(Lettering label, string cause, string shares, double width) =>
        label.WidthPx(shares) > 0.4 * width ? label.Shorten(cause, width) : label.Shorten(cause, width - label.WidthPx(shares)) + shares;

    private static BandCause CauseOf(Band band, string cause) => band.Causes.First(c => c.Name == cause);

    private double XOf(double amount) => _field.Left + (_field.Width * (amount - (double)_scale.Lowest) / (double)(_scale.Highest - _scale.Lowest));

    private string Words(double amount) => frame.Money.Whole((decimal)amount);

    private string Description => string.Join(" ", frame.Offers.Select((o, i) => $"{Lettering.Clean(o.Name)}: present value {Words(_bands[i].Likely)}, from {Words(_bands[i].Low)} to {Words(_bands[i].High)}; "
        + string.Join("; ", _bands[i].Causes.Select(c => $"{c.Name}: {Words(c.Low)} to {Words(c.High)}")) + "."))
        + $" {frame.Origin}. {string.Join("; ", frame.Assumptions)}.";
}
