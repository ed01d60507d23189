using System.Globalization;
using EnergySim.Reports.Drawing;

namespace EnergySim.Reports.Lifetimes;

/// <summary>Lays the cash out: a line an offer from the price below zero to what is left after the last year, and a bar at its end for the band.</summary>
internal sealed class CashLayout(LifetimeFrame frame)
{
    private const double OuterPx = 4.5, InnerPx = 2.4;

    private readonly double[][] _cash = [.. frame.Offers.Select(o => o.Indicators!.Flows.Cumulative().ToArray())];
    private readonly List<LineMark> _guides = [];
    private readonly List<CurveMark> _paths = [];
    private readonly List<BarMark> _bars = [];
    private BillScale _scale = new(0, 1, 1);
    private Box _field;

    private int YearCount => _cash[0].Length - 1;

    public Picture Lay()
    {
        const string lead = "All that has come in less all that was paid, bought for cash, in money of each year. Bars at the end: low to high.";
        Box area = frame.Lay("What you are out, and what comes back", lead, Figure);
        LayField(area);
        for (int i = 0; i < _cash.Length; i++) Curve(i);
        return new Picture
        {
            Size = frame.Size,
            Title = "What you are out, and what comes back",
            Description = Description,
            Field = _field,
            Bands = [],
            Guides = _guides,
            ZeroLine = new LineMark(_field.Left, _field.Right, YOf(0), 1.5, Palette.Ink),
            Bars = _bars,
            Curves = _paths,
            Samples = frame.Samples,
            Texts = frame.Texts,
        };
    }

    private string FullFigure(int offer)
    {
        (double low, double high) = frame.Offers[offer].Bands.Cumulative[^1];
        string left = string.Create(CultureInfo.InvariantCulture, $"{Words(_cash[offer][^1])} after {YearCount} years ({Words(low)} to {Words(high)})");
        string payback = frame.Offers[offer].Indicators!.SimplePaybackYears is double years
            ? string.Create(CultureInfo.InvariantCulture, $"paid back after {years:0.#} years") : string.Create(CultureInfo.InvariantCulture, $"not paid back within {YearCount} years");
        return $"{left}, {payback}";
    }

    // A narrow picture says the band by its bars alone.
    private string Figure(int offer) => frame.Sheet.IsNarrow
        ? string.Create(CultureInfo.InvariantCulture, $"{Words(_cash[offer][^1])} after {YearCount} years, {ShortPayback(offer)}") : FullFigure(offer);

    private string ShortPayback(int offer) => frame.Offers[offer].Indicators!.SimplePaybackYears is double years
        ? string.Create(CultureInfo.InvariantCulture, $"back in {years:0.#}") : "not paid back";

    private void LayField(Box area)
    {
        Sheet sheet = frame.Sheet;
        IEnumerable<double> all = _cash.SelectMany(c => c).Concat(frame.Offers.SelectMany(o => new[] { o.Bands.Cumulative[^1].Low, o.Bands.Cumulative[^1].High }));
        _scale = BillScale.Of(all.Select(a => (decimal)a), Math.Clamp((int)(area.Height / (3.5 * sheet.Scale.SizePx)), 2, 8));
        double scaleWidth = _scale.Ticks.Max(t => sheet.Scale.WidthPx(_scale.Label(t))), gap = 0.6 * sheet.Scale.SizePx;
        frame.Add(TextRole.ScaleTitle, $"{frame.Money.Symbol} in all", sheet.Scale, area.Left, area.Top);
        double top = area.Top + (1.8 * sheet.Scale.HeightPx), bottom = area.Bottom - (2.6 * sheet.Scale.HeightPx);
        _field = new Box(area.Left + scaleWidth + gap, top, area.Right, bottom);
        foreach (decimal tick in _scale.Ticks)
        {
            double y = YOf((double)tick);
            frame.Add(TextRole.Tick, _scale.Label(tick), sheet.Scale, _field.Left - gap, y - (0.6 * sheet.Scale.SizePx), Align.End);
            if (tick != 0) _guides.Add(new LineMark(_field.Left, _field.Right, y, 1, Palette.Guide));
        }
        int stride = YearCount <= 12 ? 1 : sheet.IsNarrow || YearCount > 30 ? 5 : 2;
        for (int year = 0; year <= YearCount; year += stride)
            frame.Add(TextRole.BillDate, year.ToString(CultureInfo.InvariantCulture), sheet.Date, XOf(year), bottom + (0.4 * sheet.Date.SizePx), Align.Middle);
        frame.Add(TextRole.BillDate, "years after the installation", sheet.Scale, _field.MiddleX, bottom + (0.5 * sheet.Date.SizePx) + sheet.Date.HeightPx, Align.Middle);
    }

    private void Curve(int offer)
    {
        BarStyle style = frame.Styles[offer];
        (double X, double Y)[] points = [.. _cash[offer].Select((cash, year) => (XOf(year), YOf(cash)))];
        _paths.Add(new CurveMark(points, OuterPx, style.Edge));
        _paths.Add(new CurveMark(points, InnerPx, style.Fill));
        (double low, double high) = frame.Offers[offer].Bands.Cumulative[^1];
        double width = BandWidth, left = XOf(YearCount) + (0.6 * width) + (offer * 1.4 * width);
        _bars.Add(new BarMark(offer, YearCount, new Box(left, YOf(high), left + width, YOf(low)), style));
        double likely = YOf(_cash[offer][^1]);
        _paths.Add(new CurveMark([(left - (0.2 * width), likely), (left + (1.2 * width), likely)], 2, Palette.Ink));
    }

    private double BandWidth => 0.9 * frame.Sheet.Scale.SizePx;

    // Room for the bands is kept at the right.
    private double XOf(int year) => _field.Left + ((_field.Width - (BandWidth * (0.8 + (1.4 * _cash.Length)))) * year / YearCount);

    private double YOf(double amount) => _field.Top + (_field.Height * ((double)_scale.Highest - amount) / (double)(_scale.Highest - _scale.Lowest));

    private string Words(double amount) => frame.Money.Whole((decimal)amount);

    private string Description => string.Join(" ", frame.Offers.Select((o, i) => $"{Lettering.Clean(o.Name)}: {FullFigure(i)}; by the end of each year, from the start on: {string.Join(", ", _cash[i].Select(Words))}."))
        + $" {frame.Origin}. {string.Join("; ", frame.Assumptions)}.";
}
