using System.Globalization;
using EnergySim.Engine;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Files.Tests.Tariffs;

/// <summary>The meter flows beside a plan of the catalogue; their form is told in tariffs/README.md.</summary>
internal sealed class CatalogueFlows
{
    private const string Header = "from,to,on,hours,import_kwh,export_kwh,load_kwh,solar_kwh";
    private readonly List<Row> _rows = [];
    private readonly List<LocalDate> _reads = [];
    private LocalDate? _anniversary;
    private int _minutes = 60;

    private CatalogueFlows(string path, DateTimeZone zone)
    {
        bool inRows = false;
        foreach (string line in File.ReadAllLines(path).Where(l => l.Length > 0))
        {
            if (line.StartsWith("# ", StringComparison.Ordinal)) ReadTerm(line[2..]);
            else if (inRows) _rows.Add(RowOf(line.Split(',')));
            else inRows = line == Header;
        }
        Assert.True(inRows, $"{path} has no header {Header}");
        Axis = TimeAxis.OfDates(zone, _rows.Min(r => r.From), _rows.Max(r => r.To).PlusDays(1), _minutes);
        double[][] kw = [new double[Axis.Count], new double[Axis.Count], new double[Axis.Count], new double[Axis.Count]];
        foreach (Row row in _rows) Lay(row, kw);
        Meter = MeterColumns.Of(kw[0], kw[1], kw[2], kw[3]);
    }

    public TimeAxis Axis { get; }

    public MeterColumns Meter { get; }

    public Account Account => new() { ReadDates = _reads, Anniversary = _anniversary };

    public static CatalogueFlows Read(string path, DateTimeZone zone) => new(path, zone);

    private void ReadTerm(string term)
    {
        string[] words = term.Split(' ');
        switch (words[0])
        {
            case "minutes:": _minutes = int.Parse(words[1], CultureInfo.InvariantCulture); break;
            case "reads:": _reads.AddRange(words[1..].Select(Date)); break;
            case "anniversary:": _anniversary = Date(words[1]); break;
            default: break;
        }
    }

    // So many kWh on each of the days, evenly over the intervals of the hours.
    private void Lay(Row row, double[][] kw)
    {
        var intervals = new Dictionary<int, List<int>>();
        for (int i = 0; i < Axis.Count; i++)
        {
            LocalDate date = Axis.LocalDateOf(i);
            bool weekend = date.DayOfWeek >= IsoDayOfWeek.Saturday;
            if (date < row.From || date > row.To || !row.Hours.Contains(Axis.LocalMinuteOf(i))) continue;
            if ((row.On == "mon-fri" && weekend) || (row.On == "sat-sun" && !weekend)) continue;
            if (!intervals.TryGetValue(Axis.LocalDayOf(i), out List<int>? day)) intervals[Axis.LocalDayOf(i)] = day = [];
            day.Add(i);
        }
        foreach (List<int> day in intervals.Values)
            foreach (int i in day)
                for (int column = 0; column < kw.Length; column++)
                    kw[column][i] += row.Kwh[column] / (day.Count * Axis.StepHours);
    }

    private static Row RowOf(string[] fields)
    {
        string[] hours = fields[3].Split('-');
        Assert.True(ClockWindow.TryParseMinute(hours[0], out int from), fields[3]);
        Assert.True(ClockWindow.TryParseMinute(hours[1], out int to), fields[3]);
        Assert.True(from < to, fields[3]);
        Assert.Contains(fields[2], new[] { "all", "mon-fri", "sat-sun" });
        double[] kwh = [.. fields[4..].Select(f => f.Length == 0 ? 0 : double.Parse(f, CultureInfo.InvariantCulture))];
        Assert.Equal(4, kwh.Length);
        return new Row(Date(fields[0]), Date(fields[1]), fields[2], new ClockWindow(from, to), kwh);
    }

    private static LocalDate Date(string text) => LocalDatePattern.Iso.Parse(text).Value;

    private sealed record Row(LocalDate From, LocalDate To, string On, ClockWindow Hours, double[] Kwh);
}
