using System.Globalization;
using System.Text;
using EnergySim.Reports.Drawing;
using EnergySim.Reports.Months;
using EnergySim.Studies.Solar;

namespace EnergySim.Reports;

/// <summary>The sun on a home's roof by month and hour of the day: a field of shades with the mean power in each. It shows the record's figures and computes none.</summary>
public static class SolarChart
{
    /// <summary>The picture, named <c>sun-months</c>.</summary>
    /// <param name="solar">The yield.</param>
    /// <param name="size">Size; null = <see cref="ChartSize.Laptop"/>.</param>
    public static NamedChart Of(SolarYield solar, ChartSize? size = null) => new("sun-months", Layout(solar, size));

    /// <summary>Writes the picture as PNG.</summary>
    /// <param name="solar">The yield.</param>
    /// <param name="output">Where to; stays open.</param>
    /// <param name="size">Size; null = <see cref="ChartSize.Laptop"/>.</param>
    public static void WritePng(SolarYield solar, Stream output, ChartSize? size = null)
    {
        ArgumentNullException.ThrowIfNull(output);
        SkiaPainter.WritePng(Layout(solar, size), SavingsChart.PngScale, output);
    }

    /// <summary>Writes the picture as SVG with its letters embedded and its figures in words.</summary>
    /// <inheritdoc cref="WritePng"/>
    public static void WriteSvg(SolarYield solar, Stream output, ChartSize? size = null)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.Write(Encoding.UTF8.GetBytes(SvgPainter.Document(Layout(solar, size))));
    }

    internal static Picture Layout(SolarYield solar, ChartSize? size)
    {
        ArgumentNullException.ThrowIfNull(solar);
        string Number(double value, string form) => value.ToString(form, CultureInfo.InvariantCulture);
        string total = $"{Number(solar.Kwh, "#,0")} kWh {(solar.IsDc ? "DC" : "AC")}";
        string rated = solar.RatedKw is double kw ? $" from {Number(kw, "0.##")} kW, {Number(solar.Kwh / kw, "#,0")} kWh a kW" : "";
        string dates = string.Create(CultureInfo.InvariantCulture, $"{solar.From:uuuu-MM-dd} to {solar.To:uuuu-MM-dd}. Darker = more.");
        return new MonthLayout(new MonthField
        {
            Title = $"The sun on the roof · {solar.Home}",
            Lead = ($"{total}{rated} · mean power, kW", total),
            Means = solar.KwByMonthAndHour,
            Sums = [.. solar.KwhByMonth.Select(kwh => $"{Number(kwh, "#,0")} kWh")],
            Range = (0, solar.KwByMonthAndHour.SelectMany(m => m ?? []).DefaultIfEmpty(0).Max()),
            Shade = Palette.SolarShade,
            Form = "0.0",
            Unit = "kW",
            LeavesOutNothing = true,
            Footer = [Lettering.Clean($"{dates} {(solar.Notes.Count > 0 ? solar.Notes[0] : "")}")],
        }, size ?? ChartSize.Laptop).Lay();
    }
}
