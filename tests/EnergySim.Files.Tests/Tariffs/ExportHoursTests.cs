using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Files.Tests.Tariffs;

public sealed class ExportHoursTests : IDisposable
{
    private const string Plan = """
        name: Hours
        zone: America/Boise
        effective: 2025-01-01
        periods: [{ period: any }]
        energy: [{ price: 0.1 }]
        export: { terms: net-billing, hours: h.csv }
        """;

    private const string Sound = "start,supply,delivery\n2025-03-09T01:00-07:00,0.05,0.01\n2025-03-09T03:00-06:00,-0.02,0\n";
    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Read_HoursOverAClockChange_KeepsEveryHourInUtc()
    {
        ExportHours hours = Hours(Sound);
        Assert.Equal(Instant.FromUtc(2025, 3, 9, 8, 0), hours.First);
        Assert.Equal(Instant.FromUtc(2025, 3, 9, 10, 0), hours.End);
        Assert.Equal(["supply", "delivery"], hours.Parts);
        Assert.Equal([[0.05m, 0.01m], [-0.02m, 0m]], hours.PricesPerKwh);
    }

    [Fact]
    public void Calendar_OfDataBeyondTheHours_IsRefused()
    {
        Hours(Sound);
        Tariff tariff = TariffFile.Read(Path.Combine(_folder.Path, "t.yaml"));
        TimeAxis axis = TimeAxis.OfDates(tariff.Zone, new LocalDate(2025, 3, 9), new LocalDate(2025, 3, 10), 60);
        string message = Assert.Throws<ArgumentException>(() => new TariffCalendar(tariff, axis)).Message;
        Assert.Equal("The hourly export prices run from 2025-03-09T08:00:00Z to 2025-03-09T10:00:00Z; the data hold 2025-03-09T07:00:00Z.", message);
    }

    [Theory]
    [InlineData("start,", "begin,", "h.csv line 1: the header is start, then a name for each part of the price.")]
    [InlineData("supply,delivery", "supply,supply", "h.csv line 1: \"supply\" is empty, or names two columns.")]
    [InlineData("T03:00-06:00", "T03:00-07:00", "h.csv line 3, start: \"2025-03-09T03:00-07:00\" is not one hour after the row before.")]
    [InlineData("2025-03-09T03:00-06:00", "9 March", "h.csv line 3, start: \"9 March\" is no hour; write 2025-01-31T16:00-07:00.")]
    [InlineData("-0.02", "low", "h.csv line 3, supply: \"low\" is not an amount of money.")]
    [InlineData("-0.02,0", "-0.02", "h.csv line 3: the row has 1 prices, the header 2.")]
    public void Read_FileThatDoesNotFit_SaysIt(string sound, string bad, string sentence) =>
        Assert.Contains(sentence, _folder.ProblemsOf(() => Hours(Sound.Replace(sound, bad, StringComparison.Ordinal))), StringComparison.Ordinal);

    [Fact]
    public void Read_HoursAndPrices_ExcludeEachOther()
    {
        _folder.Write("h.csv", Sound);
        string text = Plan.Replace("hours: h.csv", "hours: h.csv, prices: [{ price: 1 }]", StringComparison.Ordinal);
        Assert.Contains("hours hold every price", _folder.ProblemsOf(() => TariffFile.Read(_folder.Write("t.yaml", text))), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_NoSuchFile_SaysSo() =>
        Assert.Equal("h.csv: there is no such file.", _folder.ProblemsOf(() => TariffFile.Read(_folder.Write("t.yaml", Plan))));

    private ExportHours Hours(string csv)
    {
        _folder.Write("h.csv", csv);
        return Assert.IsType<ExportTerms.NetBilling>(TariffFile.Read(_folder.Write("t.yaml", Plan)).Versions[0].Export).Hours!;
    }
}
