using EnergySim.Billing;
using EnergySim.Studies.Bills;
using EnergySim.Tariffs;
using NodaTime;

namespace EnergySim.Studies.Tests.Bills;

public class BillRecreationTests
{
    private static readonly Lazy<IReadOnlyList<Bill>> s_asItIs = new(() => ComparisonStudy.Of(Demo.Home).Columns[0].Bills.Bills);

    private static Bill July => s_asItIs.Value[6];

    private static StatedBill Stated(Bill bill) => new()
    {
        From = bill.From,
        To = bill.To,
        Lines = [.. bill.Lines.Select(l => new StatedLine(l.Kind, l.Name, l.Quantity, l.Unit, l.UnitPrice, l.Amount))],
        Total = bill.Total,
    };

    private static BillMatch Match(StatedBill stated) => Assert.Single(BillRecreation.Of(Demo.Home, [stated], Installation.AsItIs));

    [Fact]
    public void Of_OurOwnBill_AgreesToTheCent()
    {
        BillMatch match = Match(Stated(July));
        Assert.True(match.Agrees);
        Assert.Empty(match.Hints);
        Assert.Equal(July.Lines.Count, match.Lines.Count);
    }

    [Fact]
    public void Of_OneLineWithMoreKwh_NamesItAndTheKwh()
    {
        StatedBill stated = Stated(July);
        StatedLine peak = stated.Lines[4];
        var lines = stated.Lines.ToList();
        lines[4] = peak with { Quantity = peak.Quantity + 10, Amount = peak.Amount + 1.90m };
        BillMatch match = Match(stated with { Lines = lines, Total = stated.Total + 1.90m });
        MatchedLine differs = Assert.Single(match.Lines, l => l.Difference != 0);
        Assert.Equal("summer peak, delivery", differs.Computed!.Name);
        Assert.Equal((-1.90m, -10m, 0m), (differs.Difference, differs.QuantityDifference, differs.PriceDifference));
        Assert.Equal(-1.90m, match.Difference);
    }

    [Fact]
    public void Of_LinesUnderOtherNames_AreMatchedByWhatTheySay()
    {
        StatedBill stated = Stated(July);
        BillMatch match = Match(stated with { Lines = [.. stated.Lines.Select((l, i) => l with { Kind = "", Name = $"their line {i}" })] });
        Assert.True(match.Agrees);
    }

    [Fact]
    public void Of_ALineTheyLack_IsTold()
    {
        StatedBill stated = Stated(July);
        StatedLine service = stated.Lines.Single(l => l.Kind == "fixed");
        BillMatch match = Match(stated with { Lines = [.. stated.Lines.Where(l => l != service)], Total = stated.Total - service.Amount });
        Assert.Equal("service, a day", Assert.Single(match.Lines, l => l.Stated is null).Computed!.Name);
        Assert.Contains(match.Hints, h => h.Contains("our whole line \"service, a day\"", StringComparison.Ordinal));
    }

    [Fact]
    public void Of_OnlyATotalOneDayOff_SuspectsTheReadDates()
    {
        BillMatch match = Match(Stated(July) with { Lines = [], Total = July.Total - 0.45m });
        Assert.Empty(match.Lines);
        Assert.Equal(0.45m, match.Difference);
        Assert.Contains(match.Hints, h => h.Contains("1 day(s) of \"service, a day\"", StringComparison.Ordinal));
    }

    [Fact]
    public void Of_BillsBetweenOtherDates_AreBilledFromTheirDates()
    {
        var june = new StatedBill { From = new LocalDate(2025, 6, 12), To = new LocalDate(2025, 7, 11), Lines = [], Total = 100 };
        var july = new StatedBill { From = new LocalDate(2025, 7, 12), To = new LocalDate(2025, 8, 12), Lines = [], Total = 100 };
        IReadOnlyList<BillMatch> matches = BillRecreation.Of(Demo.Home, [june, july], "One battery");
        Assert.Equal([30, 32], matches.Select(m => (int)m.Computed.Lines.Single(l => l.Kind == "fixed").Quantity));
        Assert.Equal([june.From, july.From], matches.Select(m => m.Computed.From));
        Account account = new() { ReadDates = [new LocalDate(2025, 1, 1), june.From, july.From, july.To.PlusDays(1), new LocalDate(2026, 1, 1)] };
        Assert.Equal(ComparisonStudy.Of(Demo.Home with { Account = account }).Columns[1].Bills.Bills[1].Total, matches[0].Computed.Total);
    }

    [Fact]
    public void Of_BillOutsideTheData_SaysWhatTheDataAre()
    {
        var old = new StatedBill { From = new LocalDate(2024, 12, 12), To = new LocalDate(2025, 1, 11), Lines = [], Total = 100 };
        ArgumentException fault = Assert.Throws<ArgumentException>(() => BillRecreation.Of(Demo.Home, [old], Installation.AsItIs));
        Assert.Contains("from 2024-12-12 to 2025-01-11 lies outside the home's data, which run from 2025-01-01 to 2025-12-31", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_NoSuchOffer_SaysSo() =>
        Assert.Contains("\"Three\" is no offer", Assert.Throws<ArgumentException>(() => BillRecreation.Of(Demo.Home, [Stated(July)], "Three")).Message, StringComparison.Ordinal);
}
