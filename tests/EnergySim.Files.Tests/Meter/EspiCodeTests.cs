using System.Globalization;
using EnergySim.TestData;

namespace EnergySim.Files.Tests.Meter;

/// <summary>
/// Every code of espi_codes.csv (NAESB REQ.21 schema) in a file of its own: what becomes of a reading of 2,000 in a quarter of an hour is told by the table's words, not by the number.
/// </summary>
public class EspiCodeTests
{
    private const string Refused = "refused";

    [Fact]
    public void Read_EveryCodeOfTheTable_DoesAsItsMeaningSays()
    {
        string[][] rows = [.. File.ReadAllLines(SharedData.Reference("espi_codes.csv")).Skip(1).Where(l => l.Length > 0).Select(l => l.Split(',', 3))];
        Assert.True(rows.Length > 70, $"{rows.Length} codes");
        Assert.All(rows, row => Assert.Equal((string.Join(',', row), Expected(row[0], row[2])), (string.Join(',', row), Read(row[0], row[1]))));
    }

    // Words of the standard: real energy in Wh, a mean of real power in W, of electricity, in either direction or the difference of both, for each interval.
    private static string Expected(string field, string meaning)
    {
        bool Says(params string[] words) => words.Any(word => meaning.StartsWith(word, StringComparison.Ordinal));
        return field switch
        {
            "uom" => Says("Wh (real energy)") ? "bought 2.000" : Says("W (real power)") ? "bought 0.500" : Refused,
            "powerOfTenMultiplier" => Says("milli") ? "bought 0.002" : Says("none") ? "bought 2.000" : Says("kilo") ? "bought 2000.000" : Says("mega") ? "bought 2000000.000" : "bought 2000000000.000",
            "flowDirection" => Says("forward", "none", "net") ? "bought 2.000" : Says("reverse") ? "sold 2.000" : Refused,
            "accumulationBehaviour" => Says("bulkQuantity", "continuousCumulative", "cumulative", "latchingQuantity", "boundedQuantity") ? Refused : "bought 2.000",
            "commodity" => Says("natural gas", "potable water") ? Refused : "bought 2.000",
            "ServiceCategory kind" => Says("electricity") ? "bought 2.000" : Refused,
            "quality" => Says("estimated", "projected") ? "bought 2.000, estimated" : "bought 2.000",
            // Says what was measured, not how much: the unit and the direction already do.
            "kind (MeasurementKind)" or "dataQualifier" or "measuringPeriod (TimeAttribute)" or "phase" or "currency" => "bought 2.000",
            _ => "a field that this test does not know",
        };
    }

    private static string Read(string field, string code)
    {
        string Of(string name, string usual) => field.Split(' ')[0] == name || field.Contains($"({name})", StringComparison.OrdinalIgnoreCase) ? code : usual;
        string service = field == "ServiceCategory kind" ? code : "0", kind = field == "kind (MeasurementKind)" ? code : "12";
        string quality = field == "quality" ? $"<ReadingQuality><quality>{code}</quality></ReadingQuality>" : "";
        string type = $"<accumulationBehaviour>{Of("accumulationBehaviour", "4")}</accumulationBehaviour><commodity>{Of("commodity", "1")}</commodity><currency>{Of("currency", "840")}</currency>"
            + $"<dataQualifier>{Of("dataQualifier", "12")}</dataQualifier><flowDirection>{Of("flowDirection", "1")}</flowDirection><intervalLength>900</intervalLength><kind>{kind}</kind>"
            + $"<measuringPeriod>{Of("measuringPeriod", "2")}</measuringPeriod><phase>{Of("phase", "769")}</phase><powerOfTenMultiplier>{Of("powerOfTenMultiplier", "0")}</powerOfTenMultiplier><uom>{Of("uom", "72")}</uom>";
        const string point = "RetailCustomer/1/UsagePoint/1", meter = $"{point}/MeterReading/1";
        string text = $"""
            <?xml version="1.0" encoding="UTF-8"?>
            <feed xmlns="http://www.w3.org/2005/Atom">
            {Entry(point, [], $"<UsagePoint xmlns=\"http://naesb.org/espi\"><ServiceCategory><kind>{service}</kind></ServiceCategory></UsagePoint>")}
            {Entry(meter, [$"{meter}/IntervalBlock", "ReadingType/1"], "<MeterReading xmlns=\"http://naesb.org/espi\"/>")}
            {Entry("ReadingType/1", [], $"<ReadingType xmlns=\"http://naesb.org/espi\">{type}</ReadingType>")}
            {Entry($"{meter}/IntervalBlock/1", [], $"<IntervalBlock xmlns=\"http://naesb.org/espi\"><IntervalReading>{quality}<timePeriod><duration>900</duration><start>1746072000</start></timePeriod><value>2000</value></IntervalReading></IntervalBlock>")}
            </feed>
            """;
        using var folder = new TempFolder();
        string path = Path.Combine(folder.Path, "one.xml");
        File.WriteAllText(path, text);
        try
        {
            MeterData data = MeterFile.Read(path);
            string flow = data.ExportKwh > 0 ? $"sold {data.ExportKwh.ToString("0.000", CultureInfo.InvariantCulture)}" : $"bought {data.ImportKwh.ToString("0.000", CultureInfo.InvariantCulture)}";
            return data.EstimatedCount > 0 ? $"{flow}, estimated" : flow;
        }
        catch (ProblemsException)
        {
            return Refused;
        }
    }

    private static string Entry(string self, string[] related, string content) =>
        $"<entry><id>urn:{self}</id><link rel=\"self\" href=\"{self}\"/><link rel=\"up\" href=\"{self[..self.LastIndexOf('/')]}\"/>"
        + string.Concat(related.Select(link => $"<link rel=\"related\" href=\"{link}\"/>")) + $"<title>Sample</title><content>{content}</content></entry>";
}
