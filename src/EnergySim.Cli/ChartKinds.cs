using System.Globalization;
using EnergySim.Files;
using EnergySim.Reports;
using EnergySim.Reports.Drawing;
using EnergySim.Studies;
using EnergySim.Studies.Bills;
using EnergySim.Studies.Causes;
using EnergySim.Studies.Days;
using EnergySim.Studies.Lifetime;
using EnergySim.Studies.Outages;
using EnergySim.Studies.Solar;
using EnergySim.Studies.WiringFit;
using NodaTime;

namespace EnergySim.Cli;

/// <summary>What is wanted of a picture.</summary>
internal sealed record ChartWish
{
    /// <summary>The offer's name or number; null = the last.</summary>
    public string? Offer { get; init; }

    /// <summary>A day.</summary>
    public LocalDate? Date { get; init; }

    /// <summary>A month, 1–12; null = all.</summary>
    public int? Month { get; init; }

    /// <summary>The size.</summary>
    public required ChartSize Size { get; init; }
}

/// <summary>A kind of picture that <c>energysim chart</c> draws.</summary>
/// <param name="Name">Its name on the command line.</param>
/// <param name="Words">What it shows.</param>
/// <param name="Draw">Draws it.</param>
internal sealed record ChartKind(string Name, string Words, Func<HomeReading, ChartWish, NamedChart> Draw);

/// <summary>The kinds.</summary>
internal static class ChartKinds
{
    /// <summary>All, the usual first.</summary>
    public static IReadOnlyList<ChartKind> All { get; } =
    [
        new("bills", "each bill as it is and with each offer", (reading, wish) => SavingsChart.Of(ComparisonStudy.Of(reading.Home), wish.Size)),
        new("causes", "where an offer's saving comes from", Causes),
        new("lines", "the bills line by line, as it is and with an offer", Lines),
        new("day", "one day hour by hour (--date)", Day),
        new("average-day", "the mean of all days, or of a month's (--month)", AverageDay),
        new("sun-months", "the sun on the roof by month and hour", (reading, wish) => SolarChart.Of(SolarStudy.Of(reading.Home), wish.Size)),
        .. Enum.GetValues<MonthFigure>().Select(f => new ChartKind(MonthChart.NameOf(f), MonthChart.WordsOf(f), (reading, wish) => Months(reading, wish, f))),
        new("stored", "what is stored through the home file's outage", (reading, wish) => Outage(reading, wish, "stored-energy")),
        new("lasting", "how many outages are lasted how long", (reading, wish) => Outage(reading, wish, "lasting")),
        new("starts", "what half the outages last, by month and hour of their start", (reading, wish) => Outage(reading, wish, "starts")),
        new("reserve", "money against hours as the reserve changes", (reading, wish) => Outage(reading, wish, "reserve")),
        new("cash", "what is out and what comes back over the years", (reading, wish) => LifetimeCharts.CashOf(Years(reading), wish.Size)),
        new("band", "what could make the years' worth more or less", (reading, wish) => LifetimeCharts.BandOf(Years(reading), wish.Size)),
        new("ways", "ways to connect an offer compared", Ways),
    ];

    private static NamedChart Causes(HomeReading reading, ChartWish wish)
    {
        int column = OfferColumn(reading.Home, wish);
        Home home = reading.Home;
        SavingCauses causes = CauseStudy.Of(home with { Offers = [home.Offers[column - 1]] })[0];
        return CausesChart.Of(ComparisonStudy.Of(home), column, causes, wish.Size);
    }

    private static NamedChart Lines(HomeReading reading, ChartWish wish) =>
        BillLinesChart.Of(OfferLines.Of(ComparisonStudy.Of(reading.Home), OfferColumn(reading.Home, wish)), wish.Size);

    private static NamedChart Day(HomeReading reading, ChartWish wish) => wish.Date is LocalDate date
        ? DayChart.Of(DayStudy.Of(reading.Home, Column(reading.Home, wish), date), wish.Size)
        : throw new ArgumentException("--kind day needs --date, such as 2025-07-15.");

    private static NamedChart AverageDay(HomeReading reading, ChartWish wish) =>
        DayChart.Of(DayStudy.Average(reading.Home, Column(reading.Home, wish), wish.Month), wish.Size);

    private static NamedChart Months(HomeReading reading, ChartWish wish, MonthFigure figure) =>
        MonthChart.Of(MonthHours.Of(reading.Home, Column(reading.Home, wish)), figure, wish.Size);

    private static LifetimeResult Years(HomeReading reading) => LifetimeStudy.Of(reading.Home, reading.Outage);

    private static NamedChart Outage(HomeReading reading, ChartWish wish, string name)
    {
        int column = OfferColumn(reading.Home, wish);
        ReserveFrontier? frontier = name == "reserve" ? ReserveFrontier.Of(reading.Home, reading.Outage) : null;
        IReadOnlyList<NamedChart> charts = OutageCharts.Of(OutageStudy.Of(reading.Home, reading.Outage), frontier, wish.Size);
        return charts.FirstOrDefault(c => c.Name == name) ?? charts.First(c => c.Name == FormattableString.Invariant($"{name}-offer-{column}"));
    }

    private static NamedChart Ways(HomeReading reading, ChartWish wish)
    {
        Home home = reading.Home;
        WiringComparison ways = WiringFitStudy.Of(home with { Offers = [home.Offers[OfferColumn(home, wish) - 1]] });
        return WiringChart.Of(ways, ways.Offers[0], wish.Size);
    }

    private static int OfferColumn(Home home, ChartWish wish) => Column(home, wish) is int column and > 0
        ? column
        : throw new ArgumentException(home.Offers.Count == 0 ? "The home has no offers." : "--offer: this picture is of an offer, not of the home as it is.");

    // 0 = as it is, then the offers.
    private static int Column(Home home, ChartWish wish)
    {
        if (wish.Offer is not string asked) return home.Offers.Count;
        string[] names = [Installation.AsItIs, .. home.Offers.Select(o => o.Name)];
        int column = Array.FindIndex(names, n => n.Equals(asked, StringComparison.OrdinalIgnoreCase));
        if (column < 0 && int.TryParse(asked, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number < names.Length) column = number;
        return column >= 0 ? column : throw new ArgumentException($"--offer: \"{asked}\" is none of {string.Join(", ", names)}.");
    }
}
