using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Reports.Savings;
using EnergySim.Studies.Solar;

namespace EnergySim.Reports.Solar;

/// <summary>Lays the month-and-hour picture out: heading, field of cells, hours below, months at the side, foot.</summary>
internal sealed class SolarLayout(SolarYield solar, ChartSize size)
{
    private const double LeastShownKw = 0.005, GapPx = 1;
    private static readonly string[] s_months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

    private readonly Sheet _sheet = new(size);
    private readonly List<AreaMark> _cells = [];
    private readonly List<TextMark> _texts = [];

    public Picture Lay()
    {
        double left = _sheet.MarginPx, right = size.WidthPx - _sheet.MarginPx, y = _sheet.MarginPx;
        string title = Lettering.Clean($"The sun on the roof · {solar.Home}");
        y = Line(TextRole.Title, title, _sheet.Title, left, y, right) + 4;
        y = Line(TextRole.Lead, Lead(), _sheet.Lead, left, y, right) + (_sheet.IsNarrow ? 10 : 16);
        double foot = size.HeightPx - _sheet.MarginPx - _sheet.Footer.HeightPx;
        double side = s_months.Max(_sheet.Date.WidthPx) + 10;
        double total = _sheet.IsNarrow ? 0 : _sheet.Date.WidthPx("10,000 kWh") + 14;
        var field = new Box(left + side, y, right - total, foot - (_sheet.IsNarrow ? 10 : 14) - (2 * _sheet.Scale.HeightPx));
        Cells(field, right);
        Line(TextRole.Footer, Foot(), _sheet.Footer, left, foot, right);
        return new Picture
        {
            Size = size,
            Title = title,
            Description = Description(),
            Field = field,
            Bands = _cells,
            Guides = [],
            ZeroLine = new LineMark(field.Left, field.Right, field.Bottom, 1, Palette.QuietInk),
            Bars = [],
            Samples = [],
            Texts = _texts,
        };
    }

    private void Cells(Box field, double right)
    {
        double most = solar.KwByMonthAndHour.SelectMany(m => m ?? []).DefaultIfEmpty(0).Max();
        int[] lit = [.. Enumerable.Range(0, 24).Where(h => solar.KwByMonthAndHour.Any(m => m is not null && m[h] >= LeastShownKw))];
        (int first, int last) = lit.Length == 0 ? (6, 18) : (lit[0], lit[^1]);
        double width = field.Width / (last - first + 1), height = field.Height / 12;
        bool hasRoom = width > _sheet.BillAmount.WidthPx("10.0") + 4 && height > _sheet.BillAmount.HeightPx;
        for (int m = 0; m < 12; m++)
        {
            double top = field.Top + (m * height);
            _texts.Add(new TextMark(TextRole.Tick, s_months[m], _sheet.Date, field.Left - 8, top + ((height - _sheet.Date.HeightPx) / 2), Align.End));
            if (!_sheet.IsNarrow)
                _texts.Add(new TextMark(TextRole.ColumnAmount, solar.KwByMonthAndHour[m] is null ? "–" : $"{Number(solar.KwhByMonth[m], "#,0")} kWh", _sheet.Date, right, top + ((height - _sheet.Date.HeightPx) / 2), Align.End));
            if (solar.KwByMonthAndHour[m] is not IReadOnlyList<double> hours) continue;
            for (int h = first; h <= last; h++)
            {
                double share = most > 0 ? hours[h] / most : 0, x = field.Left + ((h - first) * width);
                var box = new Box(x, top, x + width - GapPx, top + height - GapPx);
                _cells.Add(new AreaMark(box, Palette.SolarShade(share)));
                if (!hasRoom || hours[h] < 0.05) continue;
                Lettering letters = _sheet.BillAmount with { Colour = share > 0.7 ? Palette.Paper : Palette.Ink };
                _texts.Add(new TextMark(TextRole.BillAmount, Number(hours[h], "0.0"), letters, box.MiddleX, top + ((height - letters.HeightPx) / 2), Align.Middle));
            }
        }
        int every = width > _sheet.Scale.WidthPx("00") + 8 ? 1 : 3;
        for (int h = first; h <= last; h += every)
            _texts.Add(new TextMark(TextRole.Tick, h.ToString(CultureInfo.InvariantCulture), _sheet.Scale, field.Left + ((h - first + 0.5) * width), field.Bottom + 4, Align.Middle));
        _texts.Add(new TextMark(TextRole.ScaleTitle, "hour of the day, local clock, from its start", _sheet.Scale, field.Left + (field.Width / 2), field.Bottom + 6 + _sheet.Scale.HeightPx, Align.Middle));
    }

    private string Lead()
    {
        string rated = solar.RatedKw is double kw && !_sheet.IsNarrow ? $" from {Number(kw, "0.##")} kW, {Number(solar.Kwh / kw, "#,0")} kWh a kW" : "";
        return $"{Number(solar.Kwh, "#,0")} kWh {(solar.IsDc ? "DC" : "AC")}{rated}{(_sheet.IsNarrow ? "" : " · mean power, kW")}";
    }

    private string Foot() => Lettering.Clean(string.Create(CultureInfo.InvariantCulture,
        $"{solar.From:uuuu-MM-dd} to {solar.To:uuuu-MM-dd}. Darker = more. {(solar.Notes.Count > 0 ? solar.Notes[0] : "")}"));

    private string Description() => string.Join(" ", Enumerable.Range(0, 12).Where(m => solar.KwByMonthAndHour[m] is not null).Select(m =>
    {
        IReadOnlyList<double> hours = solar.KwByMonthAndHour[m]!;
        int best = Enumerable.Range(0, 24).MaxBy(h => hours[h]);
        return $"{s_months[m]}: {Number(solar.KwhByMonth[m], "#,0")} kWh, most at {best} h with {Number(hours[best], "0.0")} kW.";
    }));

    private double Line(TextRole role, string text, Lettering lettering, double left, double top, double right)
    {
        _texts.Add(new TextMark(role, lettering.Shorten(text, right - left), lettering, left, top));
        return top + lettering.HeightPx;
    }

    private static string Number(double value, string form) => value.ToString(form, CultureInfo.InvariantCulture);
}
