using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Sweeps;

namespace EnergySim.Reports.Sweeps;

/// <summary>Each input moved alone: a bar from the least to the greatest output, the longest on top.</summary>
internal static class TornadoChart
{
    private const int MostBars = 14;

    public static Picture Of(OutputMatters output, ChartSize size)
    {
        Tornado tornado = output.Tornado!;
        TornadoBar[] bars = [.. tornado.Bars.Take(MostBars)];
        NumberScale scale = NumberScale.Of([tornado.Likely, .. bars.SelectMany(b => new[] { b.Low, b.High })], size.WidthPx < 560 ? 3 : 6);
        double most = 0.32 * size.WidthPx;
        var sheet = new Sheet(size);
        string[] names = [.. bars.Select(b => sheet.Scale.Shorten(Lettering.Clean(b.Input), most))];
        var frame = new PlotFrame(size, new PlotWords
        {
            Title = SweepWords.Title(output, "what moves it"),
            Lead = $"{SweepWords.Figure(output)}. Each input is moved alone; the upright line is the home as its file has it, {SweepWords.Number(tornado.Likely)}.",
            Up = "input",
            Along = SweepWords.Figure(output),
            Footer = SweepWords.Foot(output, "A distribution is moved to its tenth and its nine tenths; all else to its stated values."),
        }, names);
        Box field = frame.Field;
        double X(double value) => field.Left + (field.Width * scale.ShareOf(value));
        double height = field.Height / bars.Length;
        foreach (double tick in scale.Ticks)
        {
            // Behind the bars, so that no line crosses their words.
            frame.Area(new Box(X(tick) - 0.5, field.Top, X(tick) + 0.5, field.Bottom), Palette.Guide);
            frame.Along(X(tick), scale.Label(tick));
        }
        for (int i = 0; i < bars.Length; i++)
        {
            double top = field.Top + (i * height), thick = Math.Min(0.6 * height, 34), middle = top + (height / 2);
            frame.Up(middle, names[i], withGuide: false);
            var bar = new Box(X(bars[i].Low), middle - (thick / 2), X(bars[i].High), middle + (thick / 2));
            double likely = X(tornado.Likely);
            if (likely > bar.Left) frame.Area(bar with { Right = likely }, Palette.TwoBatteries.Fill);
            if (bar.Right > likely) frame.Area(bar with { Left = likely }, Palette.OneBattery.Fill);
            Ends(frame, bars[i], bar);
        }
        frame.Curve([(X(tornado.Likely), field.Top), (X(tornado.Likely), field.Bottom)], Palette.AsItIs, isDashed: true);
        return frame.Picture(string.Join(' ', bars.Select(b => string.Create(CultureInfo.InvariantCulture, $"{Lettering.Clean(b.Input)}: {SweepWords.Number(b.Low)} at {Lettering.Clean(b.LowAt)} to {SweepWords.Number(b.High)} at {Lettering.Clean(b.HighAt)}{(b.Elasticity is double e ? $", elasticity {e:0.00}" : "")}."))));
    }

    // The values stand inside their ends where the bar is long enough, else not at all: the description says them.
    private static void Ends(PlotFrame frame, TornadoBar bar, Box box)
    {
        Lettering small = frame.Sheet.BillAmount;
        if (box.Height < small.HeightPx) return;
        double top = (box.Top + box.Bottom - small.HeightPx) / 2, pad = 0.4 * small.SizePx;
        string low = Lettering.Clean(bar.LowAt), high = Lettering.Clean(bar.HighAt);
        if (small.WidthPx(low) + small.WidthPx(high) + (5 * pad) > box.Width) return;
        if (low != high) frame.Text(TextRole.BillAmount, low, small, box.Left + pad, top);
        frame.Text(TextRole.BillAmount, high, small with { Colour = Palette.Paper, IsBold = true }, box.Right - pad, top, Align.End);
    }
}
