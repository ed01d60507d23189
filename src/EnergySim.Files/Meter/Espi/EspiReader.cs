using System.Globalization;
using NodaTime;

namespace EnergySim.Files;

/// <summary>Concludes from an ESPI file what the electricity meter counted: which readings are energy, of which meter, in which direction.</summary>
internal sealed class EspiReader
{
    private readonly string _file;
    private readonly EspiFeed _feed;
    private readonly MeterOptions _options;
    private readonly ProblemList _problems = new();
    private readonly MeterRows _rows = new();

    private EspiReader(string file, EspiFeed feed, MeterOptions options) => (_file, _feed, _options) = (file, feed, options);

    /// <summary>Reads the file's electricity, and the zone that its local-time parameters describe.</summary>
    public static (MeterRows Rows, DateTimeZone? Zone) Read(TextReader text, string file, MeterOptions options)
    {
        var reader = new EspiReader(file, EspiFeedReader.Read(text, file), options);
        return (reader.Rows(), reader.Zone());
    }

    private MeterRows Rows()
    {
        List<EspiSeries> electric = Electric();
        string[] points = [.. electric.Select(s => s.Point).Distinct(StringComparer.Ordinal)];
        _rows.Found("format", "open energy-usage standard (NAESB REQ.21 ESPI)", "its elements", 1);
        if (electric.Count == 0 && _rows.Notes.Count > 0)
            _problems.Add(new Problem { File = _file, Rule = $"the file holds no electricity that can be read: {string.Join(" ", _rows.Notes.Take(5))}".TrimEnd('.') });
        else if (electric.Count == 0)
            _problems.Add(new Problem { File = _file, Rule = "the file holds no interval readings" });
        _problems.ThrowIfAny();
        bool sums = _options.Meter == "sum";
        string[] wanted = sums || points.Length == 1 ? points : [.. points.Where(IsWanted)];
        if (_options.Meter is string asked && !sums && !points.Any(IsWanted))
            throw new ArgumentException($"--meter {asked}: the file has {string.Join(", ", points.Select(NameOf))}.");
        if (wanted.Length != 1 && !sums)
        {
            _rows.Ask("--meter", $"The file holds {points.Length} electricity meters ({string.Join("; ", points.Select(p => Describe(p, electric)))}); which is wanted?", [.. points.Select(NameOf), "sum"]);
            return _rows;
        }
        if (points.Length > 1) _rows.Found("meter", sums ? $"the sum of {points.Length}" : NameOf(wanted[0]), "as asked", 1);
        var meters = new List<List<MeterRow>>();
        foreach (string point in wanted) meters.Add(RowsOf(electric.FindAll(s => s.Point == point)));
        _problems.ThrowIfAny();
        _rows.Rows = MeterSum.Of(_file, meters, _rows);
        return _rows;
    }

    private DateTimeZone? Zone()
    {
        if (_options.Zone is DateTimeZone stated)
        {
            _rows.Found("zone", stated.Id, "as said; stamps are seconds of UTC", 1);
            return stated;
        }
        if (_feed.LocalTime is not EspiLocalTime local || _rows.Rows.Count == 0)
        {
            _rows.Found("zone", "not known; times are given in UTC", "the file has no local-time parameters; --zone says it", 1);
            return null;
        }
        DateTimeZone? zone = local.ZoneIn(Instant.FromUnixTimeSeconds(_rows.Rows[0].StartSecond).InUtc().Year);
        if (zone is null) _rows.Found("zone", "not known; times are given in UTC", "no zone that was tried keeps the file's daylight-saving rules; --zone says it", 1);
        else _rows.Found("zone", local.IsFixed ? zone.Id : $"a clock like that of {zone.Id}", "the file's local-time parameters", 0.95);
        return zone;
    }

    private List<EspiSeries> Electric()
    {
        var electric = new List<EspiSeries>();
        var left = new SortedDictionary<string, int>(StringComparer.Ordinal);
        foreach ((string owner, List<EspiReading[]> readings) in _feed.Readings)
        {
            EspiReadingType? type = TypeOf(owner);
            (string point, int? kind) = PointOf(owner);
            string? why = kind switch
            {
                1 => "gas: left out, only electricity is read",
                2 => "water: left out, only electricity is read",
                not (null or 0) => string.Create(CultureInfo.InvariantCulture, $"service kind {kind}: left out, only electricity is read"),
                _ => null,
            };
            why ??= type?.Commodity switch
            {
                7 => "gas: left out, only electricity is read",
                9 => "water: left out, only electricity is read",
                _ => null,
            };
            why ??= type is null ? "no ReadingType says what the numbers are: their unit is unknown" : type.Unusable;
            if (why is null) electric.Add(new EspiSeries(point, type!, readings));
            else left[why] = left.GetValueOrDefault(why) + readings.Sum(piece => piece.Length);
        }
        foreach ((string why, int count) in left) _rows.Notes.Add(string.Create(CultureInfo.InvariantCulture, $"{count:N0} readings are not used: {why}."));
        return electric;
    }

    private EspiReadingType? TypeOf(string owner)
    {
        if (_feed.MeterReadings.TryGetValue(owner, out List<string>? related))
            foreach (string link in related)
                if (_feed.ReadingTypes.TryGetValue(link, out EspiReadingType? type)) return type;
        if (_feed.ReadingTypes.Count != 1) return null;
        EspiReadingType only = _feed.ReadingTypes.Values.First();
        if (related is null || related.Count == 0) _rows.Found("unit", "that of the only reading type", "the readings' own link leads nowhere", 0.8);
        return only;
    }

    private (string Point, int? Kind) PointOf(string owner)
    {
        foreach ((string link, (int? kind, string _)) in _feed.UsagePoints)
            if (link.Length > 0 && (owner == link || owner.StartsWith(link + "/", StringComparison.Ordinal))) return (link, kind);
        int at = owner.IndexOf("/MeterReading", StringComparison.Ordinal);
        if (_feed.UsagePoints.Count == 1) return (_feed.UsagePoints.Keys.First(), _feed.UsagePoints.Values.First().Kind);
        return (at < 0 ? owner : owner[..at], null);
    }

    private bool IsWanted(string point) =>
        _options.Meter is string meter && (string.Equals(NameOf(point), meter, StringComparison.OrdinalIgnoreCase) || point == meter);

    private static string NameOf(string point) => point[(point.LastIndexOf('/') + 1)..] is { Length: > 0 } name ? name : "1";

    private string Describe(string point, List<EspiSeries> all)
    {
        string title = _feed.UsagePoints.TryGetValue(point, out (int? Kind, string Title) found) && found.Title.Length > 0 ? $" \"{SafeText.Of(found.Title)}\"" : "";
        return $"{NameOf(point)}{title}: {string.Join(", ", all.Where(s => s.Point == point).Select(s => s.FlowText).Distinct())}";
    }

    private List<MeterRow> RowsOf(List<EspiSeries> point)
    {
        var wanted = new List<EspiSeries>();
        bool hasBoth = point.Exists(s => s.Type.Flow == MeterFlow.Import) && point.Exists(s => s.Type.Flow == MeterFlow.Export);
        bool hasNet = point.Exists(s => s.Type.Flow == MeterFlow.Net);
        if (hasNet && point.Exists(s => s.Type.Flow != MeterFlow.Net))
            _rows.Notes.Add(hasBoth ? "A net series was left out: the directions stand apart as well." : "The net series was taken; the other holds one direction only.");
        foreach (IGrouping<MeterFlow, EspiSeries> flow in point.GroupBy(s => s.Type.Flow))
        {
            if (hasNet && (flow.Key == MeterFlow.Net) == hasBoth) continue;
            int finest = flow.Min(s => s.TypicalSeconds);
            EspiSeries[] fine = [.. flow.Where(s => s.TypicalSeconds == finest)];
            bool isEnergy = fine.Any(s => s.Type.Uom == 72);
            fine = [.. fine.Where(s => (s.Type.Uom == 72) == isEnergy)];
            if (fine.Length < flow.Count()) _rows.Notes.Add($"Of {flow.Count()} series {flow.First().FlowText}, the finest was taken ({finest / 60} minutes, {(isEnergy ? "energy" : "mean power")}).");
            wanted.AddRange(fine);
        }
        EspiReadingType first = wanted[0].Type;
        _rows.Found("unit", first.Uom == 72 ? $"Wh × 10^{first.PowerOfTenMultiplier} of each interval" : $"W × 10^{first.PowerOfTenMultiplier}, mean over each interval", "the reading type", 1);
        _rows.Found("channels", string.Join(", ", wanted.Select(s => s.FlowText).Distinct()), "flowDirection", wanted.Exists(s => s.Type.FlowDirection is null or 0) ? 0.8 : 1);
        var rows = new List<MeterRow>(wanted.Sum(s => s.Count));
        foreach (EspiSeries series in wanted) series.MoveTo(rows, _file, _problems);
        return rows;
    }
}
