using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Tariffs;
using EnergySim.TestData;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Files.Tests.Tariffs;

/// <summary>
/// Sixteen weeks of a real home in Ontario with the period of each hour flagged by the source; the sums, clock, holidays and prices are those
/// that shared/data/load/PROVENANCE.md states.
/// </summary>
public sealed class OntarioHomeTests : IDisposable
{
    private readonly TempFolder _folder = new();

    private static readonly DateTimeZone s_toronto = DateTimeZoneProviders.Tzdb["America/Toronto"];

    // Stamps name the end of the hour on the local clock: on 2012-03-11 the label 02:00 is absent.
    private static readonly ProfileColumn s_column = new()
    {
        Column = "Consumption kWh",
        Unit = ProfileUnit.KWh,
        StampColumns = ["DateTime"],
        Stamp = StampMark.End,
        Clock = new ProfileClock.Local(),
        Pattern = "MM/DD/YYYY HH:mm:ss",
    };

    // "On-peak weekday labels 8-11 and 18-19, mid 12-17": hours from 7 to 11 and from 17 to 19, and from 11 to 17.
    private const string Plan = """
        name: Three prices
        publisher: written for this test
        currency: CAD
        zone: America/Toronto
        effective: 2011-11-01
        holidays: [{date: 2011-12-26}, {date: 2011-12-27}, {date: 2012-01-02}, {date: 2012-02-20}]
        periods:
          - {period: on, days: [weekday], from: "07:00", to: "11:00"}
          - {period: mid, days: [weekday], from: "11:00", to: "17:00"}
          - {period: on, days: [weekday], from: "17:00", to: "19:00"}
          - {period: off, days: [weekday], from: "19:00", to: "07:00"}
          - {period: off, days: [weekend]}
        energy:
          - {period: on, price: 0.108}
          - {period: mid, price: 0.092}
          - {period: off, price: 0.062}
        """;

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Read_MidnightUnderTheDateThatEnds_IsRefused()
    {
        // The source writes the end of 25 November as 11/25 00:00, which is its beginning: no clock runs so, and the reader says where.
        ProblemsException e = Assert.Throws<ProblemsException>(() => ProfileFile.Read(SharedData.DataPath("load", "ca-ontario-hourly-tou.csv"), s_column, s_toronto));
        Assert.Contains("\"2011-11-25 00:00\" comes after 2011-11-25 23:00; rows go forward in time", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Calendar_OfEveryHour_AgreesWithTheSourcesFlag()
    {
        TariffCalendar calendar = CalendarOf(ReadHome());
        string[] names = ["off", "mid", "on"];
        var rows = new Dictionary<string, int>();
        int i = 0;
        foreach (string[] row in Rows())
        {
            string flagged = names[Array.IndexOf(row, "1", 2) - 2];
            Assert.True(flagged == calendar.Buckets[calendar.BucketOf[i]].Period, $"{calendar.Axis.OffsetStartOf(i)}: flagged {flagged}");
            rows[flagged] = rows.GetValueOrDefault(flagged) + 1;
            i++;
        }
        Assert.Equal(calendar.Axis.Count, i);
        Assert.Equal((1788, 462, 462), (rows["off"], rows["mid"], rows["on"]));
    }

    [Fact]
    public void Bill_OfTheSixteenWeeks_HasTheStatedSumsAndEnergyCharge()
    {
        ProfileReading home = ReadHome();
        Assert.Equal(2712, home.Rows);
        Assert.Equal(1209.42, home.EnergyKwh, 6);
        Bill bill = Assert.Single(Biller.Bill(MeterSums.Of(CalendarOf(home), MeterOf(home))).Bills);
        Assert.Equal([("mid", 201.10m, 18.50m), ("off", 815.65m, 50.57m), ("on", 192.67m, 20.81m)], bill.Lines.Select(l => (l.Name.Split(',')[0], l.Quantity, l.Amount)));
        // 815.65 × 0.062 + 201.10 × 0.092 + 192.67 × 0.108 = 89.88.
        Assert.Equal(89.88m, bill.Total);
        Assert.Equal((new LocalDate(2011, 11, 25), new LocalDate(2012, 3, 17)), (bill.From, bill.To));
    }

    private static IEnumerable<string[]> Rows() =>
        File.ReadLines(SharedData.DataPath("load", "ca-ontario-hourly-tou.csv")).Skip(1).Where(l => l.Length > 0).Select(l => l.Split(','));

    // As published, but for the midnights: the end of a date is written 24:00 of it.
    private ProfileReading ReadHome()
    {
        string text = File.ReadAllText(SharedData.DataPath("load", "ca-ontario-hourly-tou.csv"));
        return ProfileFile.Read(_folder.Write("home.csv", text.Replace(" 00:00:00,", " 24:00:00,", StringComparison.Ordinal)), s_column, s_toronto);
    }

    private TariffCalendar CalendarOf(ProfileReading home)
    {
        var account = new Account { ReadDates = [new LocalDate(2011, 11, 25), new LocalDate(2012, 3, 18)] };
        return new TariffCalendar(TariffFile.Read(_folder.Write("plan.yaml", Plan)), home.Profile.Axis, account);
    }

    // A home without a plant: what the house draws is bought.
    private static MeterColumns MeterOf(ProfileReading home) =>
        new Run(home.Profile, null, null, new Plant { HighestKwh = 0 }, new SiteLimits(), null).Sums().Meter;
}
