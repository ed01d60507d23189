using EnergySim.Solar;

namespace EnergySim.Files;

/// <summary>Reads one plane of a roof.</summary>
internal static class PlaneReader
{
    private static readonly Bounds s_tilt = new(0, 90, "a tilt runs from 0 (flat) to 90 (upright) degrees");
    private static readonly Bounds s_coefficient = new(-0.01, 0, "a module loses power as it warms: a share a kelvin such as -0.0035");

    public static RoofPlane Read(YamlMap map)
    {
        if (map.Has("mounting") && map.Has("nominalCelsius")) map.ReportHere("mounting and nominalCelsius exclude each other");
        Mounting mounting = map.Text("mounting")?.Choice(("close", Mounting.CloseToRoof), ("open", Mounting.Open)) ?? Mounting.CloseToRoof;
        if (map.Number("nominalCelsius", new Bounds(30, 80, "a nominal operating temperature is about 45 °C")) is double nominal) mounting = Mounting.OfNominalTemperature(nominal);
        double[] shade = [.. map.Texts("monthlyShade").Select(t => t.Share(Bounds.Share) ?? 0)];
        if (shade.Length is not (0 or 12)) map.ReportWhole("monthlyShade", FormattableString.Invariant($"there are {shade.Length} shares; a year has twelve months, January first"));
        return new RoofPlane
        {
            Name = map.Name("plane"),
            TiltDegrees = map.Number("tilt", s_tilt) ?? 0,
            AzimuthDegrees = ReadAzimuth(map),
            RatedKw = map.Number("kw", Bounds.AboveZero) ?? 1,
            TemperatureCoefficientPerK = map.Text("temperatureCoefficient")?.Share(s_coefficient) ?? RoofPlane.UsualTemperatureCoefficientPerK,
            Mounting = mounting,
            Horizon = ReadHorizon(map),
            MonthlyShadeFractions = shade,
            Strings = map.Text("strings")?.Whole(1, 50) ?? 1,
        };
    }

    private static double ReadAzimuth(YamlMap map)
    {
        if (map.Text("azimuth") is not YamlText text || text.Number(new Bounds(-360, 720)) is not double azimuth) return 0;
        if (azimuth is >= 0 and < 360) return azimuth;
        text.Report(azimuth < 0 && azimuth >= -180
            ? FormattableString.Invariant($"is below 0; an azimuth runs from north clockwise: east 90, south 180, west 270. Where south is 0 and west positive, this is {azimuth + 180:0.##} here")
            : "is not from 0 to below 360; an azimuth runs from north clockwise: east 90, south 180, west 270");
        return 0;
    }

    private static HorizonLine? ReadHorizon(YamlMap map)
    {
        if (!map.Has("horizon")) return null;
        var points = new List<(double, double)>();
        foreach (IReadOnlyList<YamlText> row in map.Rows("horizon"))
        {
            if (row.Count != 2)
            {
                map.ReportWhole("horizon", "a horizon is a list of pairs, [azimuth, height], in degrees");
                return null;
            }
            if (row[0].Number(new Bounds(0, 359.999)) is double azimuth && row[1].Number(new Bounds(0, 90)) is double height) points.Add((azimuth, height));
        }
        try
        {
            return new HorizonLine(points);
        }
        catch (ArgumentException)
        {
            map.ReportWhole("horizon", points.Count == 0 ? "there is no point" : "its azimuths do not rise");
            return null;
        }
    }
}
