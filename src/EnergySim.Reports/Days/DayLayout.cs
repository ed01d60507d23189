using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Days;

namespace EnergySim.Reports.Days;

/// <summary>Lays a day out: stacked powers around zero, then the stored energy, then the price band.</summary>
internal sealed class DayLayout
{
    private const double LeastKw = 0.005;

    private readonly DayFlows _day;
    private readonly DayWords _words;
    private readonly PlotFrame _frame;
    private readonly BillScale _scale;
    private readonly double _em, _storedHeight;

    public DayLayout(DayFlows day, ChartSize size)
    {
        (_day, _words) = (day, new DayWords(day));
        double most = Math.Max(day.Moments.Max(m => m.UseKw), day.Moments.Max(m => m.SunKw));
        double least = -day.Moments.Max(m => m.IntoBatteryKw + m.SoldKw);
        _scale = BillScale.Of([(decimal)most, (decimal)least], size.HeightPx < 560 ? 4 : 6);
        _em = new Sheet(size).Scale.SizePx;
        _storedHeight = HasBattery ? Math.Clamp(0.12 * size.HeightPx, 32, 240) : 0;
        _frame = new PlotFrame(size, new PlotWords
        {
            Title = _words.Title,
            Lead = _words.Lead,
            Legend = _words.Legend,
            Up = _words.Up,
            Along = "hour of the day, local clock",
            Footer = _words.Footer,
        }, [.. _scale.Ticks.Select(Label), Number(day.HighestKwh)], rowsBelow: (HasBattery ? _storedHeight + (2.1 * _em) : 0) + PriceRows);
    }

    private bool HasBattery => _day.HighestKwh > 0;

    private double PriceRows => 4.1 * _em;

    public Picture Lay()
    {
        _frame.ZeroY = Y(0);
        foreach (decimal tick in _scale.Ticks) _frame.Up(Y((double)tick), Label(tick), tick != 0);
        Hours();
        Stack(1, [(m => m.SunToHomeKw, Palette.SolarFlow), (m => m.BatteryToHomeKw, Palette.BatteryFlow), (m => m.GridToHomeKw, Palette.GridFlow)]);
        Stack(-1, [(m => m.IntoBatteryKw, Palette.BatteryFlow), (m => m.SoldKw, Palette.GridFlow)]);
        if (_day.SunKwh > 0) _frame.Curve(Steps(m => Y(m.SunKw)), Palette.SolarFlow, isThin: true);
        _frame.Curve(Steps(m => Y(m.UseKw)), Palette.LoadFlow, isThin: true);
        double top = _frame.RowsTop + (0.5 * _em);
        if (HasBattery) top = Stored(top);
        Prices(top);
        return _frame.Picture(_words.Description);
    }

    private void Hours()
    {
        int every = _frame.Sheet.IsNarrow ? 6 : 3;
        for (int i = 0; i <= _day.Moments.Count; i++)
        {
            int minute = i == _day.Moments.Count ? _day.Moments[^1].LocalMinute + (int)Math.Round(_day.StepHours * 60) : _day.Moments[i].LocalMinute;
            // An hour that the clock repeats is named once.
            if (minute % (every * 60) != 0 || (i > 0 && i < _day.Moments.Count && _day.Moments[i - 1].LocalMinute >= minute)) continue;
            _frame.Along(X(i), (minute / 60).ToString(CultureInfo.InvariantCulture));
            if (i > 0 && i < _day.Moments.Count) _frame.Upright(X(i));
        }
    }

    // Areas laid on one another, away from zero.
    private void Stack(int direction, (Func<DayMoment, double> Kw, BarStyle Style)[] parts)
    {
        var below = new double[_day.Moments.Count];
        foreach ((Func<DayMoment, double> kw, BarStyle style) in parts)
        {
            double[] above = [.. below.Select((b, i) => b + (direction * kw(_day.Moments[i])))];
            for (int i = 0; i < above.Length; i++)
            {
                if (Math.Abs(above[i] - below[i]) < LeastKw) continue;
                int from = i;
                while (i < above.Length && Math.Abs(above[i] - below[i]) >= LeastKw) i++;
                _frame.Shape([.. Steps(above, from, i), .. Steps(below, from, i).Reverse()], style);
            }
            below = above;
        }
    }

    private double Stored(double top)
    {
        Box field = _frame.Field;
        _frame.Text(TextRole.ScaleTitle, "in the battery, kWh", _frame.Sheet.Scale, field.Left, top);
        var panel = new Box(field.Left, top + (1.5 * _em), field.Right, top + (1.5 * _em) + _storedHeight);
        _frame.Area(panel, Palette.Band);
        double At(double kwh) => panel.Bottom - (panel.Height * kwh / _day.HighestKwh);
        foreach (double tick in (double[])[0, _day.HighestKwh])
            _frame.Text(TextRole.Tick, Number(tick), _frame.Sheet.Scale, field.Left - (0.6 * _em), At(tick) - (tick == 0 ? 0.9 * _em : 0.3 * _em), Align.End);
        (double, double)[] line = [(X(0), At(_day.StartKwh)), .. _day.Moments.Select((m, i) => (X(i + 1), At(m.StoredKwh)))];
        _frame.Shape([(X(0), panel.Bottom), .. line, (X(_day.Moments.Count), panel.Bottom)], Palette.BatteryFlow);
        _frame.Curve(line, Palette.BatteryFlow, isThin: true);
        return panel.Bottom + (0.6 * _em);
    }

    // Stretches of one price; the dearer, the darker.
    private void Prices(double top)
    {
        _frame.Text(TextRole.ScaleTitle, "a kWh bought costs", _frame.Sheet.Scale, _frame.Field.Left, top);
        double low = _day.Moments.Min(m => m.BuyPerKwh), high = _day.Moments.Max(m => m.BuyPerKwh);
        var band = new Box(0, top + (1.5 * _em), 0, top + (3.3 * _em));
        Lettering letters = _frame.Sheet.BillAmount;
        for (int i = 0; i < _day.Moments.Count;)
        {
            DayMoment first = _day.Moments[i];
            int from = i;
            while (i < _day.Moments.Count && IsSamePrice(_day.Moments[i], first)) i++;
            double share = high > low ? (first.BuyPerKwh - low) / (high - low) : 0.25;
            Box box = band with { Left = X(from), Right = X(i) };
            _frame.Area(box with { Left = box.Left + (from == 0 ? 0 : 0.75) }, Palette.PriceShade(share));
            string? words = _words.Price(first).FirstOrDefault(w => letters.WidthPx(w) + 6 <= box.Width);
            if (words is null) continue;
            Lettering inked = letters with { Colour = Palette.InkOn(Palette.PriceShade(share)) };
            _frame.Text(TextRole.BillAmount, words, inked, box.MiddleX, box.Top + ((box.Height - letters.HeightPx) / 2), Align.Middle);
        }
    }

    private static bool IsSamePrice(DayMoment a, DayMoment b) => a.Period == b.Period && Math.Abs(a.BuyPerKwh - b.BuyPerKwh) < 0.0005;

    private IReadOnlyList<(double, double)> Steps(Func<DayMoment, double> y) =>
        [.. _day.Moments.SelectMany((m, i) => new[] { (X(i), y(m)), (X(i + 1), y(m)) })];

    private IEnumerable<(double, double)> Steps(double[] kw, int from, int until)
    {
        for (int i = from; i < until; i++)
        {
            yield return (X(i), Y(kw[i]));
            yield return (X(i + 1), Y(kw[i]));
        }
    }

    private double X(int moment) => _frame.Field.Left + (_frame.Field.Width * moment / _day.Moments.Count);

    private double Y(double kw) => _frame.Field.Top + (_frame.Field.Height * ((double)_scale.Highest - kw) / (double)(_scale.Highest - _scale.Lowest));

    // Powers are never below zero: what lies below the line goes the other way.
    private static string Label(decimal tick) => Math.Abs(tick).ToString("0.##", CultureInfo.InvariantCulture);

    private static string Number(double kwh) => kwh.ToString("0.#", CultureInfo.InvariantCulture);
}
