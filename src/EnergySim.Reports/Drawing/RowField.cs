using EnergySim.Reports.Savings;

namespace EnergySim.Reports.Drawing;

/// <summary>Rows of money under one another: words at the left, the amount at the right, and between or below them bars on one scale.</summary>
internal sealed class RowField
{
    private readonly List<Row> _rows = [];
    private readonly PlotFrame _frame;
    private readonly bool _isChain;

    /// <param name="size">Size of the picture.</param>
    /// <param name="words">Its words.</param>
    /// <param name="isChain">True where each row's bar begins where the one before ended.</param>
    public RowField(ChartSize size, PlotWords words, bool isChain = false)
    {
        _isChain = isChain;
        _frame = new PlotFrame(size, words, [""], alongLines: 0);
    }

    /// <summary>Adds a row of one bar.</summary>
    public void Add(string words, string amount, decimal from, decimal to, BarStyle style, bool isBold = false) => _rows.Add(new Row(words, amount, isBold, [(from, to, style)]));

    /// <summary>Adds a row of several bars from zero, one under the other.</summary>
    public void Add(string words, string amount, IReadOnlyList<(decimal To, BarStyle Style)> bars, bool isBold = false) =>
        _rows.Add(new Row(words, amount, isBold, [.. bars.Select(b => (0m, b.To, b.Style))]));

    /// <param name="description">The figures in words.</param>
    public Picture Lay(string description)
    {
        Sheet sheet = _frame.Sheet;
        Box all = _frame.Field with { Left = sheet.MarginPx };
        double em = sheet.Date.SizePx, pitch = all.Height / _rows.Count, amounts = _rows.Max(r => Of(r).WidthPx(r.Amount)) + em;
        // Words stand beside the bars where there is room, else above them.
        double wanted = _rows.Max(r => Of(r).WidthPx(r.Words)) + em;
        bool isBeside = !sheet.IsNarrow && wanted < 0.4 * all.Width;
        double words = isBeside ? wanted : 0;
        Box field = all with { Left = all.Left + words, Right = all.Right - (isBeside ? amounts : 0) };
        decimal low = Math.Min(0, _rows.SelectMany(r => r.Bars).DefaultIfEmpty().Min(b => Math.Min(b.From, b.To))), high = Math.Max(0, _rows.SelectMany(r => r.Bars).DefaultIfEmpty().Max(b => Math.Max(b.From, b.To)));
        double perUnit = high > low ? field.Width / (double)(high - low) : 0;
        double X(decimal amount) => field.Left + ((double)(amount - low) * perUnit);
        double line = isBeside ? 0 : 1.25 * em;
        for (int r = 0; r < _rows.Count; r++)
        {
            Row row = _rows[r];
            double top = all.Top + (r * pitch), y = isBeside ? top + ((pitch - Of(row).HeightPx) / 2) : top + (0.05 * pitch);
            if (r % 2 == 0) _frame.Area(new Box(all.Left - (0.3 * sheet.MarginPx), top, all.Right + (0.3 * sheet.MarginPx), top + pitch), Palette.Band);
            _frame.Text(TextRole.BillDate, Of(row).Shorten(row.Words, (isBeside ? words : all.Width - amounts) - (0.5 * em)), Of(row), all.Left, y);
            _frame.Text(TextRole.BillAmount, row.Amount, Of(row), all.Right, y, Align.End);
            double room = pitch - line - (0.2 * pitch), each = Math.Min(room / Math.Max(1, row.Bars.Count), 2.2 * em);
            double bar = top + line + (0.1 * pitch) + (isBeside ? (room - (each * row.Bars.Count)) / 2 : 0);
            for (int b = 0; b < row.Bars.Count; b++)
            {
                (decimal from, decimal to, BarStyle style) = row.Bars[b];
                var box = new Box(X(Math.Min(from, to)), bar + (b * each), X(Math.Max(from, to)), bar + (b * each) + (0.9 * each));
                if (box.Width > 0) _frame.Bar(new BarMark(b, r, box, style));
                // Where one bar ends the next begins.
                if (!_isChain || r + 1 == _rows.Count) continue;
                // No line through words.
                _frame.Thin(X(to), box.Bottom, isBeside ? box.Top + pitch : top + pitch, Palette.QuietInk);
            }
            if (!isBeside && row.Bars.Count > 0) _frame.Thin(X(0), bar - (0.05 * pitch), bar + (each * row.Bars.Count), Palette.Ink);
        }
        if (isBeside) _frame.Thin(X(0), all.Top, all.Bottom, Palette.Ink);
        return _frame.Picture(description, new LineMark(all.Left, all.Right, all.Bottom, 1, Palette.Guide));

        Lettering Of(Row row) => row.IsBold ? sheet.Date with { IsBold = true } : sheet.Date;
    }

    private sealed record Row(string Words, string Amount, bool IsBold, IReadOnlyList<(decimal From, decimal To, BarStyle Style)> Bars);
}
