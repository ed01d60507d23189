using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Control;

namespace EnergySim.Reports.Weeks;

/// <summary>Lays a week of set-points out: heading, key, a row a day (wanted above, stored below), hours at the foot.</summary>
internal sealed class WeekLayout(WantedWeek week, ChartSize size)
{
    private const int Days = 7, DayMinutes = 1440;
    private const double StripFraction = 0.42, GapFraction = 0.14;

    private static readonly (Wanted Wanted, string Words, BarStyle Style)[] s_kinds =
    [
        (Wanted.Serves, "serves the house", Palette.OneBattery),
        (Wanted.Charges, "charges from the grid", Palette.ThirdOffer),
        (Wanted.Sells, "sells", Palette.FourthOffer),
        (Wanted.SolarOnly, "takes up the sun only", new BarStyle(Palette.Paper, Palette.Guide, Hatch.None, Palette.Paper)),
    ];

    private readonly Sheet _sheet = new(size);
    private readonly List<AreaMark> _bands = [];
    private readonly List<BarMark> _bars = [];
    private readonly List<CurveMark> _curves = [];
    private readonly List<SampleMark> _samples = [];
    private readonly List<LineMark> _guides = [];
    private readonly List<TextMark> _texts = [];

    public Picture Lay()
    {
        double left = _sheet.MarginPx, right = size.WidthPx - _sheet.MarginPx, y = _sheet.MarginPx;
        string title = Lettering.Clean($"{week.Offer}: a week of set-points");
        y = Line(TextRole.Title, title, _sheet.Title, left, y, right) + 3;
        string lead = string.Create(CultureInfo.InvariantCulture, $"{week.Home} · from {week.First:uuuu-MM-dd} · {week.UsableKwh:0.#} kWh usable");
        y = Line(TextRole.Lead, Lettering.Clean(lead), _sheet.Lead, left, y, right) + 6;
        y = Key(left, right, y) + 6;
        double foot = size.HeightPx - _sheet.MarginPx - _sheet.Footer.HeightPx;
        Line(TextRole.Footer, _sheet.IsNarrow ? "Line: stored, 0 to 100 % of usable energy." : "The line below each day is what is stored, from 0 to 100 % of usable energy. Local clock. What is wanted is not always possible: limits act in the run.", _sheet.Footer, left, foot, right);
        double side = Enumerable.Range(0, Days).Max(d => _sheet.Date.WidthPx(DayText(d))) + 10;
        var field = new Box(left + side, y, right, foot - _sheet.Scale.HeightPx - 10);
        for (int d = 0; d < Days; d++) Day(d, field);
        Hours(field);
        return new Picture
        {
            Size = size,
            Title = title,
            Description = Description(),
            Field = field,
            Bands = _bands,
            Guides = _guides,
            ZeroLine = new LineMark(field.Left, field.Right, field.Bottom, 1, Palette.Guide),
            Bars = _bars,
            Curves = _curves,
            Samples = _samples,
            Texts = _texts,
        };
    }

    private double Key(double left, double right, double y)
    {
        double em = _sheet.Name.SizePx, x = left;
        foreach ((Wanted wanted, string words, BarStyle style) in s_kinds)
        {
            double width = (1.4 * em) + _sheet.Scale.WidthPx(words);
            if (x > left && x + width > right) (x, y) = (left, y + (1.4 * em));
            _samples.Add(new SampleMark((int)wanted, new Box(x, y + (0.1 * em), x + em, y + (1.1 * em)), style));
            _texts.Add(new TextMark(TextRole.ColumnName, words, _sheet.Scale, x + (1.4 * em), y + (0.1 * em)));
            x += width + (1.3 * em);
        }
        return y + (1.4 * em);
    }

    private void Day(int day, Box field)
    {
        double pitch = field.Height / Days, top = field.Top + (day * pitch), bottom = top + (pitch * (1 - GapFraction));
        double strip = top + (pitch * StripFraction);
        _texts.Add(new TextMark(TextRole.BillDate, DayText(day), _sheet.Date, field.Left - 8, top + ((pitch * (1 - GapFraction)) - _sheet.Date.HeightPx) / 2, Align.End));
        _bands.Add(new AreaMark(new Box(field.Left, strip, field.Right, bottom), Palette.Band));
        foreach (WantedSpan span in week.Spans.Where(s => s.Day == day)) Span(span, field, top, strip);
        // A day begins with what the day before ended with.
        IEnumerable<StoredPoint> own = week.Stored.Where(p => p.Day == day), before = week.Stored.Where(p => p.Day == day - 1).TakeLast(1).Select(p => p with { Minute = 0 });
        (double, double)[] points = [.. before.Concat(own).Select(p => (X(field, p.Minute), bottom - ((bottom - strip - 3) * Math.Clamp(p.Fraction, 0, 1))))];
        if (points.Length > 1) _curves.Add(new CurveMark(points, _sheet.IsNarrow ? 1.5 : 2, Palette.Ink));
    }

    private void Span(WantedSpan span, Box field, double top, double bottom)
    {
        (_, _, BarStyle style) = s_kinds.First(k => k.Wanted == span.Wanted);
        var box = new Box(X(field, span.FromMinute), top, X(field, span.ToMinute), bottom);
        _bars.Add(new BarMark((int)span.Wanted, span.Day, box, style));
        if (span.Wanted == Wanted.SolarOnly || _sheet.IsNarrow) return;
        string level = string.Create(CultureInfo.InvariantCulture, $"{(span.Wanted == Wanted.Charges ? "to" : span.Wanted == Wanted.Sells ? "down to" : "keeps")} {100 * span.Fraction:0} %");
        double width = _sheet.BillAmount.WidthPx(level);
        if (width + 10 > box.Width || _sheet.BillAmount.HeightPx > box.Height - 2) return;
        // On paper of its own, so that no pattern runs through the letters.
        double y = top + ((box.Height - _sheet.BillAmount.HeightPx) / 2);
        _samples.Add(new SampleMark((int)span.Wanted, new Box(box.MiddleX - (width / 2) - 4, y, box.MiddleX + (width / 2) + 4, y + _sheet.BillAmount.HeightPx), new BarStyle(Palette.Paper, Palette.Paper, Hatch.None, Palette.Paper)));
        _texts.Add(new TextMark(TextRole.BillAmount, level, _sheet.BillAmount, box.MiddleX, y, Align.Middle));
    }

    private void Hours(Box field)
    {
        int every = _sheet.IsNarrow ? 6 : 3;
        for (int h = 0; h <= 24; h += every)
            _texts.Add(new TextMark(TextRole.Tick, h.ToString(CultureInfo.InvariantCulture), _sheet.Scale, X(field, h * 60), field.Bottom + 3, h == 24 ? Align.End : Align.Middle));
    }

    private static double X(Box field, int minute) => field.Left + (field.Width * Math.Min(minute, DayMinutes) / DayMinutes);

    private string DayText(int day) => string.Create(CultureInfo.InvariantCulture, $"{week.First.PlusDays(day):ddd MMM d}");

    private string Description() => string.Join(" ", Enumerable.Range(0, Days).Where(d => week.Spans.Any(s => s.Day == d)).Select(d =>
        $"{DayText(d)}: {string.Join(", ", week.Spans.Where(s => s.Day == d).Select(s => $"{Clock(s.FromMinute)} to {Clock(s.ToMinute)} {s_kinds.First(k => k.Wanted == s.Wanted).Words}"))}."));

    private static string Clock(int minute) => string.Create(CultureInfo.InvariantCulture, $"{minute / 60:00}:{minute % 60:00}");

    private double Line(TextRole role, string text, Lettering lettering, double left, double top, double right)
    {
        _texts.Add(new TextMark(role, lettering.Shorten(text, right - left), lettering, left, top));
        return top + lettering.HeightPx;
    }
}
