using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Sweeps;

namespace EnergySim.Reports.Sweeps;

/// <summary>An output over two inputs: a cell a variant, green above zero and clay below, deeper the farther, and the line where it is zero.</summary>
internal static class ContourChart
{
    // Kept free beside the line, px.
    private const double LineRoom = 6;

    public static Picture Of(OutputMatters output, ChartSize size)
    {
        BreakEvenContour contour = output.Contour!;
        string[] ups = [.. contour.UpAt.Select(SweepWords.Number)];
        string lead = contour.Zero.Count > 0 ? "Green: above zero. Clay: below. The line: zero, where it begins to pay."
            : contour.Output.SelectMany(r => r).All(v => !(v < 0)) ? "Nowhere below zero in this range." : "Nowhere above zero in this range.";
        var frame = new PlotFrame(size, new PlotWords
        {
            Title = SweepWords.Title(output, $"{contour.Along} and {contour.Up}"),
            Lead = $"{SweepWords.Figure(output)}. {lead}",
            Up = Lettering.Clean(contour.Up),
            Along = Lettering.Clean(contour.Along),
            Footer = SweepWords.Foot(output, "Between the values of the grid the line is drawn straight."),
        }, ups);
        Box field = frame.Field;
        IReadOnlyList<double> x = contour.AlongAt, y = contour.UpAt;
        double width = field.Width / x.Count, height = field.Height / y.Count;
        double most = contour.Output.SelectMany(r => r).Where(double.IsFinite).Select(Math.Abs).DefaultIfEmpty(1).Max();
        Lettering figure = frame.Sheet.BillAmount;
        string Figure(double value) => value.ToString(most >= 100 ? "#,0;−#,0;0" : "0.##;−0.##;0", CultureInfo.InvariantCulture);
        bool writes = contour.Output.SelectMany(r => r).Max(v => figure.WidthPx(Figure(v))) < width - 8 && height > 2.6 * figure.HeightPx;
        int every = Math.Max(1, (int)Math.Ceiling(x.Max(v => frame.Sheet.Date.WidthPx(SweepWords.Number(v))) * 1.3 / width)), everyUp = Math.Max(1, (int)Math.Ceiling(1.3 * frame.Sheet.Scale.HeightPx / height));
        // Values stand in the middle of their cells.
        double Across(double value) => field.Left + ((PlaceOf(x, value) + 0.5) * width);
        double Upwards(double value) => field.Bottom - ((PlaceOf(y, value) + 0.5) * height);
        var lines = contour.Zero.Select(z => (From: (Across(z.Item1.Along), Upwards(z.Item1.Up)), To: (Across(z.Item2.Along), Upwards(z.Item2.Up)))).ToList();
        for (int r = 0; r < y.Count; r++)
        {
            double top = field.Bottom - ((r + 1) * height);
            if (r % everyUp == 0) frame.Up(top + (height / 2), ups[r], withGuide: false);
            for (int c = 0; c < x.Count; c++)
            {
                double value = contour.Output[r][c], left = field.Left + (c * width);
                if (!double.IsFinite(value)) continue;
                double depth = most > 0 ? Math.Abs(value) / most : 0;
                Colour ground = Palette.Shade(value < 0 ? Palette.FourthOffer.Fill : Palette.OneBattery.Fill, 0.15 + (0.85 * depth));
                frame.Area(new Box(left, top, left + width, top + height).Inset(0.5), ground);
                if (!writes) continue;
                double half = figure.WidthPx(Figure(value)) / 2, middle = left + (width / 2);
                Box At(double share) => new(middle - half, top + (share * height) - (figure.HeightPx / 2), middle + half, top + (share * height) + (figure.HeightPx / 2));
                // Below the middle, where the line does not go through it; else above.
                double place = lines.Any(l => Meets(At(0.75).Inset(-LineRoom), l.From, l.To)) ? 0.25 : 0.75;
                frame.Text(TextRole.BillAmount, Figure(value), figure with { Colour = Palette.InkOn(ground) }, middle, At(place).Top, Align.Middle);
            }
        }
        for (int c = 0; c < x.Count; c += every) frame.Along(field.Left + ((c + 0.5) * width), SweepWords.Number(x[c]));
        foreach (((double X, double Y) from, (double X, double Y) to) in lines) frame.Curve([from, to], Palette.AsItIs);
        return frame.Picture(string.Join(' ', y.Select((up, r) => string.Create(CultureInfo.InvariantCulture,
            $"{Lettering.Clean(contour.Up)} {up:0.####}: {string.Join(", ", contour.Output[r].Select(SweepWords.Number))}."))));
    }

    // True where a straight line goes through a box.
    private static bool Meets(Box box, (double X, double Y) from, (double X, double Y) to)
    {
        double enters = 0, leaves = 1;
        foreach ((double along, double least, double most) in (ReadOnlySpan<(double, double, double)>)
            [(to.X - from.X, box.Left - from.X, box.Right - from.X), (to.Y - from.Y, box.Top - from.Y, box.Bottom - from.Y)])
        {
            if (along == 0 && (least > 0 || most < 0)) return false;
            if (along == 0) continue;
            enters = Math.Max(enters, Math.Min(least / along, most / along));
            leaves = Math.Min(leaves, Math.Max(least / along, most / along));
        }
        return enters <= leaves;
    }

    // A value's place among rising values, between two of them in proportion.
    private static double PlaceOf(IReadOnlyList<double> values, double value)
    {
        int below = 0;
        while (below < values.Count - 2 && values[below + 1] <= value) below++;
        return below + ((value - values[below]) / (values[below + 1] - values[below]));
    }
}
