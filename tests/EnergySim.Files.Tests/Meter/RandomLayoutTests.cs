using EnergySim.TestData;

namespace EnergySim.Files.Tests.Meter;

/// <summary>Any series, written in any layout that the generator knows, reads back as it was.</summary>
public class RandomLayoutTests
{
    [Fact]
    public void Read_AnySeriesInAnyLayout_ComesBack()
    {
        using var folder = new TempFolder();
        FixedSeed.Check(RandomLayout.Any, 250, layout => ComesBack(System.IO.Path.Combine(folder.Path, "export.csv"), layout));
    }

    private static void ComesBack(string path, RandomLayout layout)
    {
        layout.Write(path);
        MeterData data;
        try
        {
            data = MeterFile.Read(path, layout.Options());
        }
        catch (Exception e) when (e is ProblemsException or MeterQuestionsException or ArgumentException)
        {
            throw new InvalidOperationException($"{layout}: {e.Message[..Math.Min(600, e.Message.Length)]}\n{string.Join('\n', File.ReadLines(path).Take(9))}", e);
        }
        string text = layout.ToString() + "\n" + string.Join('\n', File.ReadLines(path).Take(9));
        Assert.True(layout.Axis.Count == data.Spans.Count, $"{layout.Axis.Count} became {data.Spans.Count}: {text}");
        Assert.True(layout.Axis.StepMinutes == data.StepMinutes, text);
        for (int i = 0; i < data.Spans.Count; i++)
        {
            Assert.True(layout.Axis.StartOf(i) == data.Spans[i].Start, $"interval {i}: {data.Spans[i].Start}: {text}");
            Assert.True(Math.Abs(layout.ImportWh(i) / 1000.0 - (data.Spans[i].ImportKwh ?? -9)) < 1e-6, $"interval {i}: {layout.ImportWh(i)} Wh became {data.Spans[i].ImportKwh} kWh: {text}");
            if (layout.Channels != "one")
                Assert.True(Math.Abs(layout.ExportWh(i) / 1000.0 - (data.Spans[i].ExportKwh ?? -9)) < 1e-6, $"interval {i}: {layout.ExportWh(i)} Wh sold became {data.Spans[i].ExportKwh} kWh: {text}");
        }
    }
}
