using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Outages;

namespace EnergySim.Reports.Outages;

/// <summary>Money against hours as the reserve goes from 0 to 100 %: what nine starts in ten last, and what half of them last.</summary>
internal static class FrontierChart
{
    public static Picture Of(ReserveFrontier frontier, int index, BarStyle style, ChartSize size)
    {
        OfferFrontier offer = frontier.Offers[index];
        BillScale money = BillScale.Of(frontier.Offers.SelectMany(o => o.Points).Select(p => p.AnnualSaving), 5);
        // The same scale of hours for each offer, so that their pictures can be laid side by side.
        BillScale along = BillScale.Of(frontier.Offers.SelectMany(o => o.Points).Select(p => (decimal)p.Lasting.HoursLastedBy(0.5)), 8);
        string[] labels = [.. money.Ticks.Select(money.Label)];
        var frame = new PlotFrame(size, new PlotWords
        {
            Title = $"Money or hours · {Lettering.Clean(offer.Name)} · {Lettering.Clean(frontier.Home)}",
            Lead = Advice(frontier, offer),
            Legend = [new LegendLine("nine outages in ten last", style), new LegendLine("half the outages last", style, IsDashed: true)],
            Up = $"saved a year, {frontier.Currency}",
            Along = "hours lasted",
            Footer = [.. frontier.Note.Length > 0 ? new[] { Lettering.Clean(frontier.Note) } : [], "Each point is a reserve, from 0 to 100 %. Each outage starts with what the everyday run holds.", "A computation on these data, not a promise. Nobody should rely on it for medical equipment."],
        }, labels);
        Box field = frame.Field;
        double X(double hours) => field.Left + (field.Width * hours / (double)along.Highest);
        double Y(decimal saving) => field.Bottom - (field.Height * (double)((saving - money.Lowest) / (money.Highest - money.Lowest)));
        foreach (decimal tick in money.Ticks) frame.Up(Y(tick), money.Label(tick), tick != money.Lowest);
        foreach (decimal tick in along.Ticks) frame.Along(X((double)tick), tick.ToString("0.##", CultureInfo.InvariantCulture));
        foreach (decimal tick in along.Ticks.Skip(1)) frame.Upright(X((double)tick));
        (double, double) At(FrontierPoint p, double share) => (X(p.Lasting.HoursLastedBy(share)), Y(p.AnnualSaving));
        frame.Curve([.. offer.Points.Select(p => At(p, 0.5))], style, isDashed: true);
        frame.Curve([.. offer.Points.Select(p => At(p, 0.9))], style);
        double dot = 0.55 * frame.Sheet.Name.SizePx, em = frame.Sheet.Scale.SizePx;
        Box last = default;
        foreach (FrontierPoint point in offer.Points)
        {
            bool isRecommended = point == offer.Recommended;
            (double x, double y) = At(point, 0.9);
            foreach (double share in (ReadOnlySpan<double>)[0.5, 0.9])
                frame.Dot(At(point, share), isRecommended ? 1.7 * dot : dot, isRecommended ? Palette.Solar : style.Fill, style.Edge);
            // The curve falls to the right, so above and right of a point there is room; a label stands only where the one before leaves it.
            string text = string.Create(CultureInfo.InvariantCulture, $"{point.ReserveFraction:0 %}");
            double left = x + (0.5 * em), top = y - (1.25 * em);
            var box = new Box(left, top, left + frame.Sheet.Scale.WidthPx(text), top + frame.Sheet.Scale.HeightPx);
            if (box.Overlaps(last) && !isRecommended) continue;
            frame.Text(TextRole.BillAmount, text, isRecommended ? frame.Sheet.Scale with { IsBold = true, Colour = Palette.Ink } : frame.Sheet.Scale, left, top);
            last = box;
        }
        return frame.Picture(string.Join(' ', offer.Points.Select(p => string.Create(CultureInfo.InvariantCulture,
            $"Reserve {p.ReserveFraction:0 %}: saves {p.AnnualSaving:0.00} {frontier.Currency} a year, nine in ten last {p.Lasting.HoursLastedBy(0.9):0.##} h, half {p.Lasting.HoursLastedBy(0.5):0.##} h."))));
    }

    private static string Advice(ReserveFrontier frontier, OfferFrontier offer)
    {
        string wish = string.Create(CultureInfo.InvariantCulture, $"{frontier.Wish.ShareOfStarts:0.# %} of outages of {frontier.Wish.Hours:0.##} h");
        return offer.Recommended is FrontierPoint point
            ? string.Create(CultureInfo.InvariantCulture, $"To last {wish}: a reserve of {point.ReserveFraction:0 %}. Today's is {offer.ReserveFraction:0 %}.")
            : $"No reserve of this offer lasts {wish}.";
    }
}
