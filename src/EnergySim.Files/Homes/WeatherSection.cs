using EnergySim.Solar;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Files;

/// <summary>Reads the weather that a home names, with the columns of a plain file where it declares them.</summary>
internal static class WeatherSection
{
    private static readonly string[] s_plain = ["stamp", "clock", "stampColumns", "pattern", "global", "directNormal", "diffuse", "air", "airUnit", "wind", "albedo", "snow", "missing"];

    public static WeatherReading? Read(YamlMap map, Place? place, ProblemList problems)
    {
        int before = map.Reported;
        bool isPlain = s_plain.Any(map.Has);
        var options = new WeatherOptions
        {
            Columns = isPlain ? ReadColumns(map, place) : null,
            RepeatsForLeapDay = map.Text("leapDay")?.Choice(("repeat", true)) ?? false,
            FillsGapHours = map.Number("fillsGapHours", new Bounds(0, 24)) ?? 0,
        };
        return map.Reported == before && map.Text("file") is YamlText file ? WeatherFile.Read(HomeFile.Beside(map.File, file.Value), options, problems) : null;
    }

    private static WeatherColumns? ReadColumns(YamlMap map, Place? place)
    {
        foreach (string key in (string[])["stamp", "clock", "global", "air"])
            if (!map.Has(key)) map.ReportHere($"{key} is missing; a plain file's stamp, clock, global and air are declared");
        if (place is not Place at)
        {
            map.ReportHere("a plain file does not say where it is from; the roof's latitude and longitude are needed");
            return null;
        }
        WeatherMark? mark = map.Text("stamp")?.Choice(("start", WeatherMark.Start), ("middle", WeatherMark.Middle), ("end", WeatherMark.End));
        YamlMap? missing = map.Map("missing", HomeSections.Missing);
        WeatherColumn? Column(string key) => map.Text(key) is YamlText header
            ? new WeatherColumn(header.Value) { MissingCodes = missing?.Numbers(key, new Bounds(double.NegativeInfinity)) ?? [] }
            : null;
        if (mark is not WeatherMark known || Clock(map) is not Offset offset || Column("global") is not WeatherColumn global || Column("air") is not WeatherColumn air) return null;
        return new WeatherColumns
        {
            Place = at,
            StandardOffset = offset,
            StampColumns = [.. map.Texts("stampColumns").Select(t => t.Value)],
            Pattern = map.Text("pattern")?.Value,
            Mark = known,
            Global = global,
            DirectNormal = Column("directNormal"),
            Diffuse = Column("diffuse"),
            Air = air,
            IsAirFahrenheit = map.Text("airUnit")?.Choice(("C", false), ("F", true)) ?? false,
            Wind = Column("wind"),
            Albedo = Column("albedo"),
            Snow = Column("snow"),
        };
    }

    private static Offset? Clock(YamlMap map)
    {
        if (map.Text("clock") is not YamlText text) return null;
        ParseResult<Offset> offset = OffsetPattern.CreateWithInvariantCulture("+HH:mm").Parse(text.Value);
        if (offset.Success) return offset.Value;
        text.Report("is no offset of standard time; write \"-07:00\"");
        return null;
    }
}
