using System.Globalization;
using System.Text;
using EnergySim.Files;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Benchmarks;

/// <summary>A made-up year of quarter-hours, as a portal's table and as energy-usage XML.</summary>
internal sealed class YearOfMeter : IDisposable
{
    private static readonly MeterOptions s_options = new() { Zone = DateTimeZoneProviders.Tzdb["America/Denver"] };
    private readonly string _table = Path.GetTempFileName();
    private readonly string _xml = Path.GetTempFileName();

    public YearOfMeter()
    {
        TimeAxis axis = TimeAxis.OfYear(s_options.Zone!, 2025, 15);
        var table = new StringBuilder("Account,0000\n\nDate,Start time,End time,Import (kWh),Export (kWh),Notes\n");
        var xml = new StringBuilder("<?xml version=\"1.0\"?><feed xmlns=\"http://www.w3.org/2005/Atom\"><entry><link rel=\"self\" href=\"U/1/MeterReading/1\"/><link rel=\"related\" href=\"ReadingType/1\"/><content><MeterReading xmlns=\"http://naesb.org/espi\"/></content></entry><entry><link rel=\"self\" href=\"ReadingType/1\"/><content><ReadingType xmlns=\"http://naesb.org/espi\"><accumulationBehaviour>4</accumulationBehaviour><commodity>1</commodity><flowDirection>1</flowDirection><intervalLength>900</intervalLength><uom>72</uom></ReadingType></content></entry>");
        for (int i = 0; i < axis.Count; i++)
        {
            ZonedDateTime start = axis.StartOf(i).InZone(axis.Zone), end = (axis.StartOf(i) + Duration.FromMinutes(14)).InZone(axis.Zone);
            int wh = 40 + (i * 7919 % 2900);
            table.Append(CultureInfo.InvariantCulture, $"{start:M/d/uuuu},{start:HH:mm},{end:HH:mm},{wh / 1000.0:0.000},0.000,\n");
            if (i % 96 == 0) xml.Append(i > 0 ? "</IntervalBlock></content></entry>" : "").Append("<entry><link rel=\"up\" href=\"U/1/MeterReading/1/IntervalBlock\"/><content><IntervalBlock xmlns=\"http://naesb.org/espi\">");
            xml.Append(CultureInfo.InvariantCulture, $"\n<IntervalReading>\n  <cost>974</cost>\n  <timePeriod>\n    <duration>900</duration>\n    <start>{axis.StartOf(i).ToUnixTimeSeconds()}</start>\n  </timePeriod>\n  <value>{wh}</value>\n</IntervalReading>");
        }
        xml.Append("</IntervalBlock></content></entry></feed>");
        File.WriteAllText(_table, table.ToString());
        File.WriteAllText(_xml, xml.ToString());
    }

    public void Dispose()
    {
        File.Delete(_table);
        File.Delete(_xml);
    }

    public MeterData Table() => MeterFile.Read(_table, s_options);

    public MeterData Xml() => MeterFile.Read(_xml, s_options);
}
