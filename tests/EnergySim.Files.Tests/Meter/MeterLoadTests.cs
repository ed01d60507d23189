using System.Globalization;
using System.Text;
using NodaTime;

namespace EnergySim.Files.Tests.Meter;

public sealed class MeterLoadTests : IDisposable
{
    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private static readonly MeterOptions s_denver = new() { Zone = DateTimeZoneProviders.Tzdb["America/Denver"] };

    private MeterData Read(string name, string text, MeterOptions? options = null) => MeterFile.Read(_folder.Write(name, text), options ?? s_denver);

    private const string Net = "Start,Import (kWh),Export (kWh)\n2025-06-01 00:00,0.5,0\n2025-06-01 01:00,0.2,0.1\n2025-06-01 02:00,0,1.5\n2025-06-01 03:00,0.4,0\n";

    // load = import − export + solar, and a load below 0 is told by row: acceptance case 4 of shared/reference/TRADE.md.
    [Fact]
    public void Of_ImportExportAndSolar_AddsTheSolarBack()
    {
        MeterData solar = Read("solar.csv", "start,solar_ac_kw\n2025-06-01T00:00:00-06:00,0\n2025-06-01T01:00:00-06:00,0.4\n2025-06-01T02:00:00-06:00,2\n2025-06-01T03:00:00-06:00,0\n", s_denver with { IsSolarRecord = true });
        MeterLoadResult load = MeterLoad.Of(Read("net.csv", Net), solar);
        Assert.Equal([0.5, 0.5, 0.5, 0.4], load.Load.Kw.ToArray().Select(v => Math.Round(v, 12)));
        Assert.Empty(load.Notes);
    }

    [Fact]
    public void Of_SolarBelowWhatWasSold_ListsTheIntervals()
    {
        MeterData data = Read("net.csv", Net), solar = Read("solar.csv", "Start,Generation (kWh)\n2025-06-01 00:00,0\n2025-06-01 01:00,0.4\n2025-06-01 02:00,1.2\n2025-06-01 03:00,0\n", s_denver with { IsSolarRecord = true });
        string message = _folder.ProblemsOf(() => MeterLoad.Of(data, solar));
        Assert.Equal("net.csv import − export + solar: \"2025-06-01 02:00\" gives -0.300 kWh; more was sold than the roof gave, so one of the records is wrong, shifted or incomplete (--negatives zero takes 0).", message);
        MeterLoadResult zero = MeterLoad.Of(data, solar, NegativeRule.Zero);
        Assert.Equal(0, zero.Load.Kw[2]);
        Assert.Contains("Below 0: 2025-06-01 02:00, -0.300 kWh.", zero.Notes);
        MeterLoadResult model = MeterLoad.WithModel(data, solar);
        Assert.Contains("In 1 intervals it is lower than what was sold, by 0.3 kWh in all", model.Notes[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Of_ExportsWithoutSolar_IsRefused() =>
        Assert.Contains("1.6 kWh were sold, so the house used more than it bought", _folder.ProblemsOf(() => MeterLoad.Of(Read("net.csv", Net))), StringComparison.Ordinal);

    [Fact]
    public void Of_SolarRecordTooShort_IsRefused()
    {
        MeterData solar = Read("solar.csv", "Start,Generation (kWh)\n2025-06-01 00:00,0\n2025-06-01 01:00,0.4\n", s_denver with { IsSolarRecord = true });
        Assert.Contains("lacks 2 of the meter's 4 intervals, the first at 2025-06-01 02:00", _folder.ProblemsOf(() => MeterLoad.Of(Read("net.csv", Net), solar)), StringComparison.Ordinal);
    }

    [Fact]
    public void Write_LoadOfAYear_IsReadByTheProfileReader()
    {
        var text = new StringBuilder("Start,Usage (Wh)\n");
        for (int h = 0; h < 24 * 40; h++)
            text.Append(CultureInfo.InvariantCulture, $"{new LocalDateTime(2025, 6, 1, 0, 0).PlusHours(h):uuuu-MM-dd HH:mm},{100 + (h * 37 % 900)}\n");
        MeterLoadResult load = MeterLoad.Of(Read("year.csv", text.ToString()));
        string path = Path.Combine(_folder.Path, "load.csv");
        ProfileCsv.Write(path, ("load_kw", load.Load));
        ProfileReading back = ProfileFile.Read(path, ProfileColumn.Ours("load_kw"), s_denver.Zone!, load.Load.Axis);
        for (int i = 0; i < load.Load.Kw.Length; i++) Assert.Equal(load.Load.Kw[i], back.Profile.Kw[i], 1e-9);
    }

    // Two doublings by hand. Quarter-hours +1, −1, +1, +1 kWh: netted in halves 0 and +2; in the hour +2.
    [Fact]
    public void Resolution_SignedQuarterHours_ShowsWhatNettingHides()
    {
        MeterData data = Read("q.csv", "Start,Net (kWh)\n2025-06-01 00:00,1\n2025-06-01 00:15,-1\n2025-06-01 00:30,1\n2025-06-01 00:45,1\n");
        MeterResolution resolution = MeterResolution.Of(data);
        Assert.Equal([15, 30, 60], resolution.Rows.Select(r => r.Minutes));
        Assert.Equal([3, 2, 2], resolution.Rows.Select(r => r.ImportKwh));
        Assert.Equal([1, 0, 0], resolution.Rows.Select(r => r.ExportKwh));
        Assert.Equal([4, 4, 2], resolution.Rows.Select(r => r.PeakKw));
        Assert.True(data.IsNetted);
    }

    [Fact]
    public void Fill_GapAmongLikeDays_TakesTheMedianOfTheSameHour()
    {
        var text = new StringBuilder("Start,Usage (kWh)\n");
        // Sunday the first of June 2025 on: working days take 1 kWh plus a tenth of the day's number, weekends 5.
        for (int h = 0; h < 24 * 21; h++)
        {
            LocalDateTime at = new LocalDateTime(2025, 6, 1, 0, 0).PlusHours(h);
            if (at.Day == 11 && at.Hour == 7) continue;
            double kwh = at.DayOfWeek is IsoDayOfWeek.Saturday or IsoDayOfWeek.Sunday ? 5 : 1 + (at.Day / 10.0);
            text.Append(CultureInfo.InvariantCulture, $"{at:uuuu-MM-dd HH:mm},{kwh}\n");
        }
        MeterData data = Read("gap.csv", text.ToString(), s_denver with { FillsGaps = true });
        MeterSpan span = data.Spans.Single(s => s.Mark == SpanMark.Filled);
        Assert.Equal(Instant.FromUtc(2025, 6, 11, 13, 0), span.Start);
        // Working days 2–6, 9, 10, 12, 13, 16–20: fourteen values, the middle two those of the 10th and 12th.
        Assert.Equal(1 + ((1.0 + 1.2) / 2), span.ImportKwh!.Value, 12);
        Assert.Contains("Filled: 2025-06-11 07:00 to 2025-06-11 08:00 (1 interval), from like days: import 2.100 kWh, export 0.000 kWh.", data.Notes);
    }

    [Fact]
    public void Read_FormulaInACell_IsNotEchoedAsOne()
    {
        string message = _folder.ProblemsOf(() => Read("f.csv", "Start,Usage (kWh)\n2025-06-01 00:00,1\n2025-06-01 01:00,=HYPERLINK(1)\n2025-06-01 02:00,1\n2025-06-01 03:00,1.5\n2025-06-01 04:00,1.5\n2025-06-01 05:00,1.5\n"));
        Assert.Equal("f.csv line 3, Usage (kWh): \"'=HYPERLINK(1)\" is not a number.", message);
    }

    [Fact]
    public void Read_LongLine_IsRefused() =>
        Assert.Contains("longer than a million letters", _folder.ProblemsOf(() => Read("l.csv", "Start,Usage (kWh)\n" + new string('1', 1_100_000))), StringComparison.Ordinal);

    [Fact]
    public void Read_GzipBomb_IsRefused()
    {
        string path = Path.Combine(_folder.Path, "bomb.csv");
        using (var stream = new System.IO.Compression.GZipStream(File.Create(path), System.IO.Compression.CompressionLevel.Fastest))
        {
            var block = new byte[1 << 20];
            Array.Fill(block, (byte)'1');
            for (int i = 0; i < 300; i++) stream.Write(block);
        }
        Assert.Contains("holds more than ", _folder.ProblemsOf(() => MeterFile.Read(path)), StringComparison.Ordinal);
    }

    private const string TwoHours = "Start,Usage (kWh)\n2025-06-01 00:00,1\n2025-06-01 01:00,2\n";

    [Fact]
    public void Read_ZipOfOneTable_IsUnpacked() =>
        Assert.Equal([1, 2], MeterFile.Read(Zip(("notes.pdf", "%PDF"), ("usage/", ""), ("usage/.hidden.csv", "x"), ("usage/data.CSV", TwoHours)), new MeterOptions { Zone = DateTimeZone.Utc }).Spans.Select(s => s.ImportKwh!.Value));

    [Fact]
    public void Read_ZipOfSeveral_NamesThem() =>
        Assert.Contains("holds 2 tables (a.csv, b.xml); unpack it", _folder.ProblemsOf(() => MeterFile.Read(Zip(("a.csv", TwoHours), ("b.xml", "<feed/>")))), StringComparison.Ordinal);

    [Theory]
    [InlineData("[Content_Types].xml", "<Types/>", "save the sheet as CSV")]
    [InlineData("data.bin", "1", "holds no CSV or XML file")]
    [InlineData("data.csv", "PK\u0003\u0004", "packed twice")]
    public void Read_ZipWithoutATable_IsRefused(string name, string text, string rule) =>
        Assert.Contains(rule, _folder.ProblemsOf(() => MeterFile.Read(Zip((name, text)))), StringComparison.Ordinal);

    [Fact]
    public void Read_ZipBomb_IsRefused() =>
        Assert.Contains("holds more than ", _folder.ProblemsOf(() => MeterFile.Read(Zip(("bomb.csv", new string('1', 64 << 20))))), StringComparison.Ordinal);

    [Fact]
    public void Read_ZipCutOff_IsRefused()
    {
        string path = Zip(("a.csv", TwoHours));
        File.WriteAllBytes(path, File.ReadAllBytes(path)[..60]);
        Assert.Contains("damaged zip archive", _folder.ProblemsOf(() => MeterFile.Read(path)), StringComparison.Ordinal);
    }

    private string Zip(params (string Name, string Text)[] members)
    {
        string path = Path.Combine(_folder.Path, "packed.zip");
        using var zip = new System.IO.Compression.ZipArchive(File.Create(path), System.IO.Compression.ZipArchiveMode.Create);
        foreach ((string name, string text) in members)
        {
            using var writer = new StreamWriter(zip.CreateEntry(name).Open());
            writer.Write(text);
        }
        return path;
    }

    [Theory]
    [InlineData("Start,Register (kWh)\n2025-06-01 00:00,1000.0\n2025-06-01 00:15,1000.2\n2025-06-01 00:30,1000.5\n2025-06-01 01:00,1000.9\n2025-06-01 01:15,0.1\n2025-06-01 01:30,0.4\n")]
    public void Read_Register_IsTheDifferenceSplitAndResetMissing(string text)
    {
        MeterData data = Read("r.csv", text);
        Assert.Equal([0.2, 0.3, 0.2, 0.2, null, 0.3], data.Spans.Select(s => s.ImportKwh is double k ? Math.Round(k, 9) : (double?)null));
        Assert.Equal([SpanMark.Measured, SpanMark.Measured, SpanMark.Split, SpanMark.Split, SpanMark.Missing, SpanMark.Measured], data.Spans.Select(s => s.Mark));
    }

    [Fact]
    public void Merge_MonthsOfOneMeter_JoinsThem()
    {
        MeterData june = Read("a.csv", "Start,Usage (kWh)\n2025-06-01 00:00,1\n2025-06-01 01:00,2\n"), later = Read("b.csv", "Start,Usage (kWh)\n2025-06-01 01:00,2\n2025-06-01 02:00,3\n");
        MeterData merged = MeterMerge.Of([june, later], new MeterOptions());
        Assert.Equal([1, 2, 3], merged.Spans.Select(s => s.ImportKwh!.Value));
    }
}
