using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Reports.Months;
using EnergySim.Studies.Days;

namespace EnergySim.Reports;

/// <summary>A figure that <see cref="MonthChart"/> shows.</summary>
public enum MonthFigure
{
    /// <summary>What the home uses.</summary>
    Use,

    /// <summary>What is bought.</summary>
    Bought,

    /// <summary>What is sold.</summary>
    Sold,

    /// <summary>Energy in the battery.</summary>
    Stored,

    /// <summary>What a kWh bought costs.</summary>
    Price,
}

/// <summary>One figure of a home by month and hour of the day: a field of shades with the mean in each. It shows the record's figures and computes none.</summary>
public static class MonthChart
{
    /// <summary>The picture, named as <see cref="NameOf"/> says.</summary>
    /// <param name="months">The year of one column.</param>
    /// <param name="figure">Which figure.</param>
    /// <param name="size">Size; null = <see cref="ChartSize.Laptop"/>.</param>
    /// <exception cref="ArgumentException">The stored energy of a column without a battery is asked for.</exception>
    public static NamedChart Of(MonthHours months, MonthFigure figure, ChartSize? size = null) => new(NameOf(figure), Layout(months, figure, size ?? ChartSize.Laptop));

    /// <summary>The picture's name, such as <c>bought-months</c>.</summary>
    public static string NameOf(MonthFigure figure) => figure.ToString().ToLowerInvariant() + "-months";

    /// <summary>What the picture shows, in a few words.</summary>
    public static string WordsOf(MonthFigure figure) => figure switch
    {
        MonthFigure.Use => "what the home uses by month and hour",
        MonthFigure.Bought => "what is bought by month and hour",
        MonthFigure.Sold => "what is sold by month and hour",
        MonthFigure.Stored => "what is in the battery by month and hour",
        _ => "what a kWh bought costs by month and hour",
    };

    internal static Picture Layout(MonthHours months, MonthFigure figure, ChartSize size)
    {
        ArgumentNullException.ThrowIfNull(months);
        if (figure == MonthFigure.Stored && months.HighestKwh == 0) throw new ArgumentException($"\"{months.Column}\" has no battery, so nothing is stored.", nameof(months));
        HourTable table = TableOf(months, figure);
        double[] all = [.. table.Means.SelectMany(m => m ?? [])];
        string column = Lettering.Clean(months.Column), unit = UnitOf(months, figure);
        string total = table.KwhByMonth is IReadOnlyList<double> kwh ? $", {Number(kwh.Sum())} kWh in all" : "";
        string means = figure switch { MonthFigure.Stored => "mean energy, kWh", MonthFigure.Price => $"mean of weekdays and weekends, {unit}", _ => "mean power, kW" };
        return new MonthLayout(new MonthField
        {
            Title = $"{Capital(WordsOf(figure).Replace(" by month and hour", "", StringComparison.Ordinal))} · {months.Home}",
            Lead = ($"{column}{total} · {means}", $"{column}{total} · {RangeWords(months, figure, all)}"),
            Means = table.Means,
            Sums = [.. table.KwhByMonth?.Select(k => $"{Number(k)} kWh") ?? []],
            Range = figure switch
            {
                MonthFigure.Stored => (0, months.HighestKwh),
                MonthFigure.Price => (all.Min(), all.Max()),
                _ => (0, all.Max()),
            },
            Shade = ShadeOf(figure),
            Form = figure == MonthFigure.Price ? "0.00" : "0.0",
            Unit = unit,
            Footer = Footer(months),
        }, size).Lay();
    }

    // A narrow picture has no room for figures in its cells.
    private static string RangeWords(MonthHours months, MonthFigure figure, double[] all)
    {
        if (figure == MonthFigure.Price) return $"{new Money(months.Currency).PerKwh((decimal)all.Min())} to {new Money(months.Currency).PerKwh((decimal)all.Max())}";
        return string.Create(CultureInfo.InvariantCulture, $"{all.Min():0.0} to {all.Max():0.0} {UnitOf(months, figure)}");
    }

    private static HourTable TableOf(MonthHours months, MonthFigure figure) => figure switch
    {
        MonthFigure.Use => months.Use,
        MonthFigure.Bought => months.Bought,
        MonthFigure.Sold => months.Sold,
        MonthFigure.Stored => months.Stored,
        _ => months.BuyPerKwh,
    };

    private static Func<double, Colour> ShadeOf(MonthFigure figure) => figure switch
    {
        MonthFigure.Use => share => Palette.Shade(Palette.Load, share),
        MonthFigure.Stored => share => Palette.Shade(Palette.Battery, share),
        MonthFigure.Price => Palette.PriceShade,
        _ => share => Palette.Shade(Palette.Grid, share),
    };

    private static string UnitOf(MonthHours months, MonthFigure figure) => figure switch
    {
        MonthFigure.Stored => "kWh",
        MonthFigure.Price => $"{new Money(months.Currency).Symbol} a kWh",
        _ => "kW",
    };

    private static IReadOnlyList<string> Footer(MonthHours months)
    {
        string dates = string.Create(CultureInfo.InvariantCulture, $"{months.From:uuuu-MM-dd} to {months.To:uuuu-MM-dd}; tariff {Lettering.Clean(months.Tariff)}. Darker = more.");
        return months.Note.Length > 0 ? [dates, Lettering.Clean(months.Note)] : [dates];
    }

    private static string Number(double kwh) => kwh.ToString("#,0", CultureInfo.InvariantCulture);

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}
