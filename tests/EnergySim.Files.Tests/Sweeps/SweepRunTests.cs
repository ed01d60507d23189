using System.Globalization;
using Parquet;
using Parquet.Schema;

namespace EnergySim.Files.Tests.Sweeps;

public sealed class SweepRunTests : IDisposable
{
    private const int Rows = 9000;

    private readonly TempFolder _folder = new();
    private readonly SweepReading _reading;

    public SweepRunTests()
    {
        WriteHome(_folder);
        _reading = Read(1);
    }

    public void Dispose() => _folder.Dispose();

    /// <summary>The sample home with short names, and batteries beside today's inverter.</summary>
    internal static void WriteHome(TempFolder folder)
    {
        folder.Write("two-days.csv", Sample.Text("two-days.csv"));
        folder.Write("evening-peak.yaml", Sample.Text("evening-peak.yaml"));
        folder.Write("home.yaml", Sample.Text("home.yaml").Replace("One battery", "one", StringComparison.Ordinal).Replace("Two batteries", "two", StringComparison.Ordinal)
            .Replace("  ten:", "  box:", StringComparison.Ordinal).Replace("battery: ten", "battery: box", StringComparison.Ordinal).Replace("    replacesSolarInverter: true\n", "", StringComparison.Ordinal));
    }

    private SweepReading Read(int seed) => SweepFile.Read(_folder.Write(FormattableString.Invariant($"s{seed}.yaml"), FormattableString.Invariant($$$"""
        sweep: test
        homes: home.yaml
        design: latin-hypercube
        points: {{{Rows}}}
        seed: {{{seed}}}
        inputs:
          - {input: offers.*.strategy.reserve, name: reserve, uniform: {from: -0.01, to: 1}}
          - {input: batteries.box.capacityKwh, name: "capacity, kWh", uniform: {from: 2, to: 15}}
        outputs: [annualBill, annualSaving]
        """)));

    private string Table(string name) => Path.Combine(_folder.Path, name);

    [Fact]
    public void Run_StoppedAgainAndAgain_GivesTheSameBytes()
    {
        new SweepRun(_reading, Table("whole.csv")).Run(new SweepOptions { Cores = 2 });
        int stops = 0;
        SweepSummary summary;
        do
        {
            using var stop = new CancellationTokenSource();
            int stretches = 0;
            summary = new SweepRun(_reading, Table("cut.csv")).Run(new SweepOptions { Cores = 1, Stop = stop.Token, Progress = _ => { if (++stretches == 9) stop.Cancel(); } });
            if (summary.IsStopped) stops++;
        }
        while (summary.IsStopped && stops < 20);
        Assert.InRange(stops, 2, 10);
        Assert.True(summary.Found > 0);
        Assert.Equal(File.ReadAllBytes(Table("whole.csv")), File.ReadAllBytes(Table("cut.csv")));
        Assert.False(Directory.Exists(Table("cut.csv.parts")));
        Assert.Equal(Rows + 1, File.ReadLines(Table("cut.csv")).Count());
    }

    [Fact]
    public void Run_ADamagedPart_IsMadeAnew()
    {
        new SweepRun(_reading, Table("whole.csv")).Run(new SweepOptions());
        new SweepRun(_reading, Table("x.csv")).Run(new SweepOptions { Share = (1, 2) });
        string part = Directory.GetFiles(Table("x.csv.parts")).Order(StringComparer.Ordinal).First();
        byte[] bytes = File.ReadAllBytes(part);
        bytes[^3] ^= 1;
        File.WriteAllBytes(part, bytes);
        SweepSummary summary = new SweepRun(_reading, Table("x.csv")).Run(new SweepOptions());
        Assert.Equal((Rows, 0), (summary.Run, summary.Found));
        Assert.Equal(File.ReadAllBytes(Table("whole.csv")), File.ReadAllBytes(Table("x.csv")));
    }

    [Fact]
    public void Merge_Shares_MakeTheWholeTable()
    {
        new SweepRun(_reading, Table("whole.csv")).Run(new SweepOptions());
        var run = new SweepRun(_reading, Table("x.csv"));
        foreach (int share in (int[])[3, 1]) Assert.Null(run.Run(new SweepOptions { Share = (share, 3) }).Table);
        Assert.Equal("x.csv.parts: rows 4097 to 8192 are not there yet.", _folder.ProblemsOf(() => run.Merge()));
        run.Run(new SweepOptions { Share = (2, 3) });
        Assert.Equal(Rows, run.Merge().Found);
        Assert.Equal(File.ReadAllBytes(Table("whole.csv")), File.ReadAllBytes(Table("x.csv")));
    }

    [Fact]
    public void Merge_APartOfAnotherPlan_IsRefused()
    {
        new SweepRun(_reading, Table("x.csv")).Run(new SweepOptions { Share = (1, 3) });
        var other = new SweepRun(Read(2), Table("x.csv"));
        Assert.StartsWith("x.csv.parts/part-000001.csv line 1: this part is of another plan", _folder.ProblemsOf(() => other.Merge()), StringComparison.Ordinal);
        Assert.Throws<ProblemsException>(() => other.Run(new SweepOptions()));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(100)]
    public void StretchOf_Shares_CoverEveryPartOnce(int shares)
    {
        int end = 0;
        for (int k = 1; k <= shares; k++)
        {
            (int first, int until) = SweepRun.StretchOf((k, shares), 33);
            Assert.Equal(end, first);
            end = until;
        }
        Assert.Equal(33, end);
    }

    [Fact]
    public void Run_InMemory_HasTheTablesRows()
    {
        SweepSummary summary = new SweepRun(_reading, Table("x.csv")).Run(new SweepOptions { KeepsTable = true });
        string[] lines = File.ReadAllLines(Table("x.csv"));
        Assert.Equal("variant,home,tariff,reserve,\"capacity, kWh\",as-it-is.annualBill,one.annualBill,two.annualBill,one.annualSaving,two.annualSaving,error", lines[0]);
        Assert.Equal(summary.Errors, lines.Count(l => l.Contains("is below 0", StringComparison.Ordinal)));
        Assert.InRange(summary.Errors, 80, 98);
        for (int i = 0; i < Rows; i += 501)
        {
            string[] fields = lines[i + 1].Split(',');
            Assert.Equal(fields[3], summary.InMemory!.Input(0, 0, i).ToString(CultureInfo.InvariantCulture));
            double bill = summary.InMemory.Output(1, 0)[i];
            Assert.Equal(fields[6], double.IsNaN(bill) ? "" : bill.ToString(CultureInfo.InvariantCulture));
        }
    }

    [Fact]
    public async Task Run_Parquet_HoldsTheRowsOfTheCsv()
    {
        new SweepRun(_reading, Table("x.csv")).Run(new SweepOptions());
        new SweepRun(_reading, Table("x.parquet")).Run(new SweepOptions());
        List<string[]> rows = SweepTableReader.RowsOf(string.Join('\n', File.ReadLines(Table("x.csv")).Skip(1)));
        await using ParquetReader reader = await ParquetReader.CreateAsync(Table("x.parquet"), cancellationToken: TestContext.Current.CancellationToken);
        DataField[] fields = reader.Schema.DataFields;
        Assert.Equal(["variant", "home", "tariff", "reserve", "capacity, kWh", "as-it-is.annualBill", "one.annualBill", "two.annualBill", "one.annualSaving", "two.annualSaving", "error"], fields.Select(f => f.Name));
        Assert.Equal(3, reader.RowGroupCount);
        int from = 0;
        for (int g = 0; g < reader.RowGroupCount; g++)
        {
            using ParquetRowGroupReader group = reader.OpenRowGroupReader(g);
            var savings = new double?[group.RowCount];
            await group.ReadAsync<double>(fields[9], savings, cancellationToken: TestContext.Current.CancellationToken);
            for (int i = 0; i < savings.Length; i++) Assert.Equal(SweepTableReader.NumberIn(rows[from + i][9]), savings[i]);
            from += savings.Length;
        }
        Assert.Equal(Rows, from);
    }
}
