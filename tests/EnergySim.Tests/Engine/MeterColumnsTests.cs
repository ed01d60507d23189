using EnergySim.Engine;

namespace EnergySim.Tests.Engine;

public class MeterColumnsTests
{
    [Fact]
    public void Of_Columns_KeepsEachApart()
    {
        MeterColumns meter = MeterColumns.Of([1, 2], [3, 4], [5, 6], [7, 8]);
        Assert.Equal([1d, 2, 3, 4, 5, 6, 7, 8], [.. meter.ImportKw, .. meter.ExportKw, .. meter.LoadKw, .. meter.SolarKw]);
    }

    [Fact]
    public void Of_ColumnsOfTwoLengths_IsRefused() => Assert.Throws<ArgumentException>(() => MeterColumns.Of([1, 2], [3, 4], [5, 6], [7]));
}
