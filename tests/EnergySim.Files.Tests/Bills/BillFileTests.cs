using EnergySim.Profiles.Shapes;
using EnergySim.TestData;
using NodaTime;

namespace EnergySim.Files.Tests.Bills;

public sealed class BillFileTests : IDisposable
{
    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Read_Months_AreTheirDays()
    {
        IReadOnlyList<MeteredBill> bills = BillFile.Read(_folder.Write("b.csv", "month,kwh,peak_kw\n2025-01,900,7.5\n2025-02,800,\n"));
        Assert.Equal(2, bills.Count);
        Assert.Equal((new LocalDate(2025, 1, 1), new LocalDate(2025, 1, 31), 900.0, 7.5), (bills[0].From, bills[0].To, bills[0].Kwh, bills[0].PeakKw));
        Assert.Equal(28, bills[1].Days);
        Assert.Null(bills[1].PeakKw);
    }

    [Theory]
    [InlineData("month,kwh\n2025-01,900\n2025-03,800\n", "b.csv from: \"2025-03-01\" is not the day after the bill before it ends (2025-01-31); bills follow one another.")]
    [InlineData("month,kwh\n2025-13,900\n", "b.csv line 2, month: \"2025-13\" is not a month such as 2025-01.")]
    [InlineData("month,kwh\n2025-01,-4\n", "b.csv line 2, kwh: \"-4\" is not a number ≥ 0.")]
    [InlineData("from,to,kwh\n2025-02-01,2025-01-01,4\n", "b.csv line 2, to: \"2025-01-01\" is before the bill's first day.")]
    [InlineData("month,kw\n2025-01,4\n", "b.csv line 1, header: \"kw\" is no column of a file of bills (month,kwh or from,to,kwh, and perhaps peak_kw); the nearest is kwh.\nb.csv line 1, header: the column kwh is missing.")]
    [InlineData("month,kwh\n", "b.csv: the file has no bills below its header.")]
    public void Read_WrongFile_SaysWhatIsWrong(string text, string message) =>
        Assert.Equal(message, _folder.ProblemsOf(() => BillFile.Read(_folder.Write("b.csv", text))));

    // Readings and their sum: shared/data/espi/PROVENANCE.md.
    [Fact]
    public void Of_MonthsOfAMeterFile_AreBills()
    {
        IReadOnlyList<MeteredBill> bills = BillFile.Of(MeterFile.Read(SharedData.DataPath("espi", "sample-monthly-powerOfTen3.xml")));
        Assert.Equal(14, bills.Count);
        Assert.Equal(9567, bills.Sum(b => b.Kwh));
        Assert.Equal(new LocalDate(2011, 8, 26), bills[0].From);
    }
}
