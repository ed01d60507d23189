using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Outages;

namespace EnergySim.Reports.Outages;

/// <summary>What half the starts last, by month and hour of the start: a cell each, darker = shorter.</summary>
internal static class StartsChart
{
    // Upper ends of the classes of hours, and their colours from dark (short) to light (long).
    private static readonly double[] s_ends = [2, 8, 24, 72, double.PositiveInfinity];
    private static readonly Colour[] s_colours = [Colour.Of(0x4a2032), Colour.Of(0x93602f), Colour.Of(0xd39a4e), Colour.Of(0xecd09a), Colour.Of(0xfaf3e0)];

    public static Picture Of(OutageResult result, int index, ChartSize size)
    {
        OfferOutages offer = result.Offers[index];
        string[] months = [.. Enumerable.Range(1, 12).Select(m => CultureInfo.InvariantCulture.DateTimeFormat.GetAbbreviatedMonthName(m))];
        string[] classes = ["under 2 h", "2–8 h", "8–24 h", "24–72 h", "72 h and more"];
        var frame = new PlotFrame(size, new PlotWords
        {
            Title = $"When the grid may fail · {Lettering.Clean(offer.Name)} · {Lettering.Clean(result.Home)}",
            Lead = "What half the outages that begin in a month at an hour last, hours; the darker, the shorter.",
            Legend = [.. classes.Select((name, i) => new LegendLine(name, new BarStyle(s_colours[i], Palette.AsItIs.Edge, Hatch.None, Palette.Paper)))],
            Up = "month of the start",
            Along = "local hour of the start",
            Footer = Footers.Of(result),
        }, months);
        Box field = frame.Field;
        double width = field.Width / 24, height = field.Height / 12;
        Lettering figure = frame.Sheet.BillAmount with { SizePx = Math.Min(frame.Sheet.BillAmount.SizePx, width / 2.1) };
        for (int m = 0; m < 12; m++)
        {
            double top = field.Top + (m * height);
            frame.Up(top + (height / 2), months[m], withGuide: false);
            for (int h = 0; h < 24; h++)
            {
                if (offer.HalfLastByMonthAndHour[m][h] is not double hours) continue;
                int kind = Array.FindIndex(s_ends, end => hours < end);
                double left = field.Left + (h * width);
                frame.Area(new Box(left, top, left + width, top + height).Inset(0.75), s_colours[kind]);
                if (figure.SizePx < 9.5 || height < figure.HeightPx) continue;
                // Cut, not rounded: so long they last.
                double shown = hours < 10 ? Math.Floor(hours * 10) / 10 : Math.Floor(hours);
                string text = (hours >= offer.Any.HorizonHours ? "≥" : "") + shown.ToString("0.#", CultureInfo.InvariantCulture);
                frame.Text(TextRole.BillAmount, text, figure with { Colour = kind < 2 ? Palette.Paper : Palette.Ink }, left + (width / 2), top + (height / 2) - (figure.HeightPx / 2), Align.Middle);
            }
        }
        int every = width >= 2.2 * frame.Sheet.Date.SizePx ? 1 : width >= 1.2 * frame.Sheet.Date.SizePx ? 2 : 4;
        for (int h = 0; h < 24; h += every) frame.Along(field.Left + ((h + 0.5) * width), h.ToString("00", CultureInfo.InvariantCulture));
        return frame.Picture(Description(offer, months));
    }

    private static string Description(OfferOutages offer, string[] months) => string.Join(' ', months.Select((month, m) => (month, Cells: offer.HalfLastByMonthAndHour[m]))
        .Where(row => row.Cells.Any(c => c is not null))
        .Select(row => $"{row.month}, from midnight on: {string.Join(", ", row.Cells.Select(c => c is double h ? h.ToString("0.#", CultureInfo.InvariantCulture) : "none"))} h."));
}
