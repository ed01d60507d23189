
namespace EnergySim.Reports.Drawing;

/// <summary>A row of money: words at the left, the amount at the right, bars on the scale that all rows share.</summary>
/// <param name="Words">What it is.</param>
/// <param name="Amount">The amount in words.</param>
/// <param name="Bars">Its bars, one under the other.</param>
/// <param name="IsBold">True where it stands out.</param>
internal sealed record MoneyRow(string Words, string Amount, IReadOnlyList<MoneyBar> Bars, bool IsBold = false);

/// <summary>A bar from one amount to another.</summary>
internal sealed record MoneyBar(decimal From, decimal To, BarStyle Style);

/// <summary>Lays rows of money under one another: words beside the bars where there is room, else above them.</summary>
internal sealed class RowField
{
    private readonly PlotFrame _frame;
    private readonly IReadOnlyList<MoneyRow> _rows;
    private readonly bool _isChain, _isBeside;
    private readonly Box _all, _field;
    private readonly double _pitch, _line, _wordsWidth;
    private readonly decimal _low, _high;

    /// <param name="size">Size of the picture.</param>
    /// <param name="words">Its words.</param>
    /// <param name="rows">The rows, at least one.</param>
    /// <param name="isChain">True where each row's bar begins where the one before ended.</param>
    public RowField(ChartSize size, PlotWords words, IReadOnlyList<MoneyRow> rows, bool isChain = false)
    {
        (_rows, _isChain) = (rows, isChain);
        _frame = new PlotFrame(size, words, [""], alongLines: 0);
        Sheet sheet = _frame.Sheet;
        _all = _frame.Field with { Left = sheet.MarginPx };
        double em = sheet.Date.SizePx, wanted = rows.Max(r => Of(r).WidthPx(r.Words)) + em, amounts = rows.Max(r => Of(r).WidthPx(r.Amount)) + em;
        _isBeside = !sheet.IsNarrow && wanted < 0.4 * _all.Width;
        _wordsWidth = (_isBeside ? wanted : _all.Width - amounts) - (0.5 * em);
        _field = _isBeside ? _all with { Left = _all.Left + wanted, Right = _all.Right - amounts } : _all;
        _pitch = _all.Height / rows.Count;
        _line = _isBeside ? 0 : 1.25 * em;
        foreach (MoneyBar bar in rows.SelectMany(r => r.Bars))
        {
            _low = Math.Min(_low, Math.Min(bar.From, bar.To));
            _high = Math.Max(_high, Math.Max(bar.From, bar.To));
        }
    }

    /// <param name="description">The figures in words.</param>
    public Picture Lay(string description)
    {
        double beyond = 0.3 * _frame.Sheet.MarginPx;
        for (int r = 0; r < _rows.Count; r++)
        {
            MoneyRow row = _rows[r];
            double top = _all.Top + (r * _pitch), y = _isBeside ? top + ((_pitch - Of(row).HeightPx) / 2) : top + (0.05 * _pitch);
            if (r % 2 == 0) _frame.Area(new Box(_all.Left - beyond, top, _all.Right + beyond, top + _pitch), Palette.Band);
            _frame.Text(TextRole.BillDate, Of(row).Shorten(row.Words, _wordsWidth), Of(row), _all.Left, y);
            _frame.Text(TextRole.BillAmount, row.Amount, Of(row), _all.Right, y, Align.End);
            if (row.Bars.Count > 0) Bars(row, r, top);
        }
        if (_isBeside) _frame.Thin(X(0), _all.Top, _all.Bottom, Palette.Ink);
        return _frame.Picture(description, new LineMark(_all.Left, _all.Right, _all.Bottom, 1, Palette.Guide));
    }

    private void Bars(MoneyRow row, int index, double top)
    {
        double room = (0.8 * _pitch) - _line, each = Math.Min(room / row.Bars.Count, 2.2 * _frame.Sheet.Date.SizePx);
        double first = top + _line + (0.1 * _pitch) + (_isBeside ? (room - (each * row.Bars.Count)) / 2 : 0);
        for (int b = 0; b < row.Bars.Count; b++)
        {
            MoneyBar bar = row.Bars[b];
            double y = first + (b * each);
            var box = new Box(X(Math.Min(bar.From, bar.To)), y, X(Math.Max(bar.From, bar.To)), y + (0.9 * each));
            if (box.Width > 0) _frame.Bar(new BarMark(b, index, box, bar.Style));
            // Where one bar ends the next begins; no line through words.
            if (_isChain && index + 1 < _rows.Count) _frame.Thin(X(bar.To), box.Bottom, _isBeside ? box.Top + _pitch : top + _pitch, Palette.QuietInk);
        }
        if (!_isBeside) _frame.Thin(X(0), first - (0.05 * _pitch), first + (each * row.Bars.Count), Palette.Ink);
    }

    private Lettering Of(MoneyRow row) => row.IsBold ? _frame.Sheet.Date with { IsBold = true } : _frame.Sheet.Date;

    private double X(decimal amount) => _field.Left + (_high > _low ? _field.Width * (double)((amount - _low) / (_high - _low)) : 0);
}
