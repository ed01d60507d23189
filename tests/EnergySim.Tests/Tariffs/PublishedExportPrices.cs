using System.Globalization;
using EnergySim.Tariffs;
using EnergySim.TestData;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Tariffs;

/// <summary>One hour of the published file: its start, the part of the price, the label and the price.</summary>
internal sealed record PublishedHour(Instant Start, string Part, string Label, int DayNumber, decimal PricePerKwh);

/// <summary>
/// Hourly export prices of a utility in Northern and Central California for 2026, published under CPUC Resolution E-5301, and their reduction to
/// month × hour × kind of day (shared/data/export/PROVENANCE.md).
/// </summary>
internal static class PublishedExportPrices
{
    public static DateTimeZone Zone { get; } = DateTimeZoneProviders.Tzdb["America/Los_Angeles"];

    /// <summary>The holidays priced as weekend in 2026, as PROVENANCE.md lists them.</summary>
    public static IReadOnlyList<LocalDate> Holidays { get; } =
        [new(2026, 1, 1), new(2026, 2, 16), new(2026, 5, 25), new(2026, 7, 3), new(2026, 9, 7), new(2026, 11, 11), new(2026, 11, 26), new(2026, 12, 25)];

    /// <summary>The reduction as net-billing prices: 576 entries of two parts.</summary>
    public static IReadOnlyList<ExportPrice> Table() =>
    [
        .. Rows("export-credit-2026-month-hour-daytype.csv")
            .GroupBy(r => (Month: Whole(r[1]), Hour: Whole(r[3]), Day: Enum.Parse<DayType>(r[2], ignoreCase: true)))
            .Select(g => new ExportPrice { Month = g.Key.Month, Hour = g.Key.Hour, Day = g.Key.Day, Parts = [.. g.Select(r => new PricePart(r[0], Money(r[4])))] }),
    ];

    /// <summary>The published rows.</summary>
    public static IReadOnlyList<PublishedHour> Hours() =>
    [
        .. Rows("export-credit-2026-as-published.csv").Select(r => new PublishedHour(
            Start(r[2], r[3]), r[0].Split('-')[1].StartsWith("XX", StringComparison.Ordinal) ? "generation" : "delivery", r[8], Whole(r[6]), Money(r[9]))),
    ];

    private static IEnumerable<string[]> Rows(string file) => File.ReadLines(SharedData.DataPath("export", file)).Skip(1).Select(l => l.Split(','));

    private static Instant Start(string date, string time)
    {
        int[] day = [.. date.Split('/').Select(Whole)];
        return Instant.FromUtc(day[2], day[0], day[1], Whole(time.Split(':')[0]), 0);
    }

    private static int Whole(string text) => int.Parse(text, CultureInfo.InvariantCulture);

    private static decimal Money(string text) => decimal.Parse(text, CultureInfo.InvariantCulture);
}
