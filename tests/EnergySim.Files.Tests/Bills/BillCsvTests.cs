using EnergySim.Billing;
using EnergySim.Studies.Bills;
using NodaTime;

namespace EnergySim.Files.Tests.Bills;

public sealed class BillCsvTests : IDisposable
{
    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Write_Read_GivesTheSameBills()
    {
        BillLine[] lines =
        [
            new() { Kind = "supply", Name = "summer, \"peak\"", Quantity = 162.594512m, Unit = "kWh", UnitPrice = 0.300125m, Unrounded = 48.798678m },
            new() { Kind = "credit", Name = "credit", Quantity = 1, Unit = "USD", UnitPrice = -27.76m, Unrounded = -27.76m },
        ];
        var bills = new BillSet
        {
            Currency = "USD",
            Bills = [new Bill { From = new(2025, 7, 1), To = new(2025, 7, 31), Lines = lines }, new Bill { From = new(2025, 8, 1), To = new(2025, 8, 31), Lines = lines[..1] }],
            Notes = [],
        };
        string path = Path.Combine(_folder.Path, "bills.csv");
        BillCsv.Write(path, bills);
        IReadOnlyList<StatedBill> read = BillCsv.Read(path);
        Assert.Equal(bills.Bills.Select(b => (b.From, b.To, b.Total)), read.Select(b => (b.From, b.To, b.Total)));
        Assert.Equal(lines.Select(l => new StatedLine(l.Kind, l.Name, l.Quantity, l.Unit, l.UnitPrice, l.Amount)), read[0].Lines);
    }

    [Fact]
    public void Read_OnlyTotals_HasNoLines()
    {
        StatedBill bill = Assert.Single(BillCsv.Read(_folder.Write("t.csv", "bill_from,bill_to,amount\r\n2025-06-12,2025-07-11,130.5\r\n")));
        Assert.Empty(bill.Lines);
        Assert.Equal((new LocalDate(2025, 6, 12), 130.5m), (bill.From, bill.Total));
    }

    [Fact]
    public void Read_LinesWithoutTotal_AreSummed() =>
        Assert.Equal(12.5m, BillCsv.Read(_folder.Write("l.csv", "bill_from,bill_to,line,amount\n2025-06-01,2025-06-30,energy,10.00\n2025-06-01,2025-06-30,service,2.50\n"))[0].Total);

    [Theory]
    [InlineData("", "b.csv: the file is empty")]
    [InlineData("bill_from,bill_to,amount\n", "b.csv: there is no bill in it")]
    [InlineData("bill_from,bill_to,amont\n", "b.csv line 1, amont: is no column of a bill; the nearest is amount.")]
    [InlineData("bill_from,amount\n", "b.csv line 1, bill_to: the column is missing")]
    [InlineData("bill_from,bill_to,amount\n2025-06-31,2025-07-11,1\n", "b.csv line 2, bill_from: \"2025-06-31\" is no date; write YYYY-MM-DD")]
    [InlineData("bill_from,bill_to,amount\n2025-06-30,2025-06-11,1\n", "b.csv line 2, bill_to: \"2025-06-11\" comes before bill_from, 2025-06-30")]
    [InlineData("bill_from,bill_to,amount\n2025-06-01,2025-06-30,\"1,234\"\n", "b.csv line 2, amount: \"1,234\" is no number such as -12.34")]
    [InlineData("bill_from,bill_to,amount\n2025-06-01,2025-06-30,\n", "b.csv line 2, amount: \"\" is missing")]
    [InlineData("bill_from,bill_to,kind,amount\n2025-06-01,2025-06-30,total,1\n2025-06-01,2025-06-30,total,2\n", "b.csv line 3, line: \"total\" stands twice for one bill")]
    [InlineData("bill_from,bill_to,amount\n2025-06-01,2025-06-30,1\n2025-06-15,2025-07-15,1\n", "b.csv line 3, bill_from: \"2025-06-15\" lies in the bill before it, which ends on 2025-06-30")]
    public void Read_WhatDoesNotFit_SaysWhere(string text, string problem) =>
        Assert.StartsWith(problem, _folder.ProblemsOf(() => BillCsv.Read(_folder.Write("b.csv", text))), StringComparison.Ordinal);

    [Fact]
    public void Read_NoSuchFile_SaysSo() =>
        Assert.Equal("none.csv: there is no such file.", _folder.ProblemsOf(() => BillCsv.Read(Path.Combine(_folder.Path, "none.csv"))));
}
