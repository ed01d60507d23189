using System.Globalization;
using EnergySim.Reports.Drawing;

namespace EnergySim.Reports.Months;

/// <summary>Lays the month-and-hour picture out: heading, field of cells, hours below, months at the side, foot.</summary>
internal sealed class MonthLayout(MonthField months, ChartSize size)
{
    private const double LeastShown = 0.005, GapPx = 1;
    private static readonly string[] s_months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

    private readonly Sheet _sheet = new(size);
    private readonly List<AreaMark> _cells = [];
    private readonly List<TextMark> _texts = [];

    public Picture Lay()
    {
        double left = _sheet.MarginPx, right = size.WidthPx - _sheet.MarginPx, y = 0.8 * _sheet.MarginPx;
        string title = Lettering.Clean(months.Title);
        y = Line(TextRole.Title, title, _sheet.Title, left, y, right) + 4;
        string lead = _sheet.IsNarrow ? months.Lead.Narrow : months.Lead.Wide;
        foreach (string line in _sheet.Lead.Wrap(lead.Split(' '), " ", right - left, 2)) y = Line(TextRole.Lead, line, _sheet.Lead, left, y, right);
        string[] foot = [.. months.Footer.SelectMany(f => _sheet.Footer.Wrap(f.Split(' '), " ", right - left, 2))];
        double step = 1.3 * _sheet.Footer.SizePx, footTop = size.HeightPx - (0.7 * _sheet.MarginPx) - (step * foot.Length);
        double side = s_months.Max(_sheet.Date.WidthPx) + 10, sums = HasSums ? months.Sums.Max(_sheet.Date.WidthPx) + 14 : 0;
        var field = new Box(left + side, y + (_sheet.IsNarrow ? 10 : 16), right - sums, footTop - (_sheet.IsNarrow ? 10 : 14) - (2 * _sheet.Scale.HeightPx));
        Cells(field, right);
        for (int i = 0; i < foot.Length; i++) Line(TextRole.Footer, foot[i], _sheet.Footer, left, footTop + (i * step), right);
        return new Picture
        {
            Size = size,
            Title = title,
            Description = Description(),
            Field = field,
            Bands = _cells,
            Guides = [],
            ZeroLine = new LineMark(field.Left, field.Right, field.Bottom, 1, Palette.QuietInk),
            Texts = _texts,
        };
    }

    private bool HasSums => !_sheet.IsNarrow && months.Sums.Count > 0;

    private void Cells(Box field, double right)
    {
        (int first, int last) = Shown();
        double width = field.Width / (last - first + 1), height = field.Height / 12;
        Lettering figure = _sheet.BillAmount with { SizePx = Math.Max(9.5, _sheet.BillAmount.SizePx) };
        double widest = months.Means.SelectMany(m => m ?? []).Select(v => figure.WidthPx(Number(v))).DefaultIfEmpty(0).Max();
        bool hasRoom = height > figure.HeightPx && width > widest + 3;
        for (int m = 0; m < 12; m++)
        {
            double top = field.Top + (m * height), middle = top + ((height - _sheet.Date.HeightPx) / 2);
            _texts.Add(new TextMark(TextRole.Tick, s_months[m], _sheet.Date, field.Left - 8, middle, Align.End));
            if (HasSums) _texts.Add(new TextMark(TextRole.ColumnAmount, months.Means[m] is null ? "–" : months.Sums[m], _sheet.Date, right, middle, Align.End));
            if (months.Means[m] is not IReadOnlyList<double> hours) continue;
            for (int h = first; h <= last; h++)
            {
                double x = field.Left + ((h - first) * width);
                var box = new Box(x, top, x + width - GapPx, top + height - GapPx);
                Colour shade = months.Shade(Share(hours[h]));
                _cells.Add(new AreaMark(box, shade));
                string words = Number(hours[h]);
                if (!hasRoom || IsNothing(words)) continue;
                Lettering inked = figure with { Colour = Palette.InkOn(shade) };
                _texts.Add(new TextMark(TextRole.BillAmount, words, inked, box.MiddleX, top + ((height - figure.HeightPx) / 2), Align.Middle));
            }
        }
        int every = width > _sheet.Scale.WidthPx("00") + 8 ? 1 : 3;
        for (int h = first; h <= last; h += every)
        {
            string hour = h.ToString(CultureInfo.InvariantCulture);
            _texts.Add(new TextMark(TextRole.BillDate, hour, _sheet.Scale, field.Left + ((h - first + 0.5) * width), field.Bottom + 4, Align.Middle));
        }
        const string Along = "hour of the day, local clock, from its start";
        _texts.Add(new TextMark(TextRole.ScaleTitle, Along, _sheet.Scale, field.MiddleX, field.Bottom + 6 + _sheet.Scale.HeightPx, Align.Middle));
    }

    private (int First, int Last) Shown()
    {
        if (!months.LeavesOutNothing) return (0, 23);
        int[] lit = [.. Enumerable.Range(0, 24).Where(h => months.Means.Any(m => m is not null && m[h] >= LeastShown))];
        return lit.Length == 0 ? (6, 18) : (lit[0], lit[^1]);
    }

    private double Share(double value) => months.Range.High > months.Range.Low ? (value - months.Range.Low) / (months.Range.High - months.Range.Low) : 0;

    private string Description() => string.Join(" ", Enumerable.Range(0, 12).Where(m => months.Means[m] is not null).Select(m =>
    {
        IReadOnlyList<double> hours = months.Means[m]!;
        int most = Enumerable.Range(0, 24).MaxBy(h => hours[h]), least = Enumerable.Range(0, 24).MinBy(h => hours[h]);
        string sums = months.Sums.Count > 0 ? $"{months.Sums[m]}, " : "";
        string low = months.LeavesOutNothing ? "" : string.Create(CultureInfo.InvariantCulture, $", least at {least} h with {Number(hours[least])}");
        return string.Create(CultureInfo.InvariantCulture, $"{s_months[m]}: {sums}most at {most} h with {Number(hours[most])} {months.Unit}{low}.");
    }).Append(string.Join(' ', months.Footer)));

    private double Line(TextRole role, string text, Lettering lettering, double left, double top, double right)
    {
        _texts.Add(new TextMark(role, lettering.Shorten(text, right - left), lettering, left, top));
        return top + lettering.HeightPx;
    }

    private string Number(double value) => value.ToString(months.Form, CultureInfo.InvariantCulture);

    private static bool IsNothing(string figure) => figure.All(c => c is '0' or '.' or '-' or ',');
}
