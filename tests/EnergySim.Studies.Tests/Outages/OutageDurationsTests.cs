using System.Globalization;
using EnergySim.Studies.Outages;
using EnergySim.TestData;

namespace EnergySim.Studies.Tests.Outages;

public class OutageDurationsTests
{
    [Fact]
    public void CarriedFraction_OfEqualStarts_IsTheExponentialLaw()
    {
        // Mean 4 h: P(> 4 h) = 0.367879, P(> 8 h) = 0.135335 (REFERENCE §6.2).
        var kind = new OutageKind("all", 1, 4);
        Assert.Equal(1 - 0.367879, OutageDurations.CarriedFraction(kind, [4.0, 4.0]), 6);
        Assert.Equal(1 - ((0.367879 + 0.135335) / 2), OutageDurations.CarriedFraction(kind, [4.0, 8.0]), 6);
        Assert.Equal(0, OutageDurations.CarriedFraction(kind, [0.0]));
    }

    [Fact]
    public void OfIndices_OfTheUnitedStates_HasTheAverageLengthsOfTheTable()
    {
        // EIA, Electric Power Annual, Table 11.1 (reference/eia_reliability_us.csv): CAIDI printed beside SAIDI and SAIFI, within 0.2 min.
        string[][] rows = [.. File.ReadAllLines(SharedData.Reference("eia_reliability_us.csv")).Skip(1).Where(l => l.Length > 0).Select(l => l.Split(','))];
        Assert.NotEmpty(rows);
        foreach (double?[] n in rows.Select(r => r.Select(t => t.Length == 0 ? (double?)null : double.Parse(t, CultureInfo.InvariantCulture)).ToArray()))
        {
            OutageKind all = Assert.Single(OutageDurations.OfIndices("t", n[1]!.Value, n[2]!.Value).Kinds);
            Assert.InRange(all.MeanHours * 60, n[3]!.Value - 0.2, n[3]!.Value + 0.2);
            if (n[5] is not double count) continue;
            OutageDurations both = OutageDurations.OfIndices("t", n[1]!.Value, n[2]!.Value, n[4], count);
            Assert.InRange(both.Kinds[0].MeanHours * 60, n[6]!.Value - 0.2, n[6]!.Value + 0.2);
            // The two kinds together are all events again.
            Assert.Equal(n[2]!.Value, both.Kinds.Sum(k => k.PerYear), 9);
            Assert.Equal(n[1]!.Value, both.Kinds.Sum(k => k.PerYear * k.MeanHours * 60), 6);
        }
    }

    [Fact]
    public void OfIndices_OfTheStates_AgreeWithTheirAverages()
    {
        // Form EIA-861 by state and year (data/outage): |SAIDI ÷ SAIFI − CAIDI| ≤ 1 min in every filled row.
        int rows = 0;
        foreach (string line in File.ReadLines(SharedData.DataPath("outage", "us-state-reliability-2013-2023.csv")))
        {
            string[] cells = line.Split(',');
            if (cells.Length < 9 || !double.TryParse(cells[2], CultureInfo.InvariantCulture, out double caidi) || !double.TryParse(cells[5], CultureInfo.InvariantCulture, out double saidi)
                || !double.TryParse(cells[8], CultureInfo.InvariantCulture, out double saifi)) continue;
            rows++;
            Assert.InRange(OutageDurations.OfIndices(cells[0], saidi, saifi).Kinds[0].MeanHours * 60, caidi - 1, caidi + 1);
        }
        Assert.InRange(rows, 550, 561);
    }

    [Theory]
    [InlineData(300.0, 1.0)]
    [InlineData(120.0, 1.4)]
    [InlineData(301.0, 1.0)]
    [InlineData(120.0, 1.5)]
    [InlineData(null, 1.0)]
    [InlineData(120.0, null)]
    public void OfIndices_WhereNothingIsLeftForMajorEvents_IsOneKind(double? minutes, double? count) =>
        Assert.Equal(new OutageKind("all", 1.4, 300 / 1.4 / 60), Assert.Single(OutageDurations.OfIndices("t", 300, 1.4, minutes, count).Kinds));

    [Fact]
    public void Study_WithDurations_TellsTheShareOfEachKindCarried()
    {
        // 10 kWh full, 1 kW: every start lasts 10 h. Kinds of 2 h and of 10 h on average.
        OutageDurations durations = OutageDurations.OfIndices("invented", 300, 1.4, 120, 1);
        OutageResult result = OutageStudy.Of(SmallHome.Of(SmallHome.Axis(5), _ => 1), new OutageTerms { HorizonHours = 48, StartCharge = StartCharge.Full, Durations = durations });
        Assert.Equal([1 - Math.Exp(-5), 1 - Math.Exp(-10 / 7.5)], result.Offers[0].Carried.Select(c => Math.Round(c.CarriedFraction, 12)), (a, b) => Math.Abs(a - b) < 1e-9);
        Assert.Contains(result.Notes, n => n.Contains("invented", StringComparison.Ordinal) && n.Contains("exponentially", StringComparison.Ordinal));
    }
}
