using System.Globalization;
using NodaTime.Text;

namespace EnergySim.Files.Tests.Meter;

/// <summary>The answers that lie beside the sample files: start, minutes, kWh bought and sold, flag.</summary>
internal static class ExpectedSeries
{
    /// <summary>Asserts that the data are those of the answers: every start, every length, every number to the watt-hour, every flag.</summary>
    public static void AssertSame(string path, MeterData data)
    {
        string[] lines = File.ReadAllLines(path);
        Assert.Equal(lines.Length - 1, data.Spans.Count);
        for (int i = 1; i < lines.Length; i++)
        {
            string[] fields = lines[i].Split(',');
            MeterSpan span = data.Spans[i - 1];
            Assert.True(InstantPattern.General.Parse(fields[0]).Value == span.Start, $"line {i + 1}: {fields[0]} but {span.Start}");
            Assert.True(int.Parse(fields[1], CultureInfo.InvariantCulture) * 60 == span.Seconds, $"line {i + 1}: {span.Seconds} s");
            string flag = span.Mark switch { SpanMark.Missing => "missing", SpanMark.Estimated => "estimated", SpanMark.Split => "split", _ => "ok" };
            Assert.True(fields[4] == flag, $"line {i + 1}: {fields[4]} but {flag}");
            if (flag == "missing") continue;
            Same(i, fields[2], span.ImportKwh);
            if (data.HasExport) Same(i, fields[3], span.ExportKwh);
            else Assert.Equal("0", fields[3]);
        }
    }

    private static void Same(int line, string wanted, double? got) =>
        Assert.True(Math.Abs(double.Parse(wanted, CultureInfo.InvariantCulture) - got!.Value) < 0.0005, $"line {line + 1}: {wanted} but {got}");
}
