using System.Globalization;
using EnergySim.Solar;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Files;

/// <summary>Reads a home's roof planes with their weather, and works out their power on the axis of its load.</summary>
internal static class RoofReader
{
    private const double UsualInverterEfficiency = 0.96;

    /// <summary>The solar of a roof; null, with problems, when something of it does not fit.</summary>
    public static HomeSolar? Read(YamlMap map, DateTimeZone zone, TimeAxis? axis, ProblemList problems, List<string> told)
    {
        int before = map.Reported;
        Place? own = RoofPlace.Read(map, zone);
        WeatherReading? reading = map.Map("weather", HomeSections.Weather) is YamlMap w ? WeatherSection.Read(w, own, problems) : null;
        Roof roof = ReadRoof(map, own ?? reading?.Weather.Place ?? default, told);
        double? inverterKw = map.Number("inverterKw", Bounds.AboveZero);
        double? efficiency = map.Text("inverterEfficiency")?.Share(Bounds.Efficiency);
        List<(double LoadFraction, double Efficiency)> curve = ReadCurve(map);
        if (map.Has("inverterEfficiency") && map.Has("inverterCurve")) map.ReportHere("inverterEfficiency and inverterCurve exclude each other");
        if (reading is not null) RoofPlace.CheckWeather(map, roof.Place, reading.Weather, told);
        if (map.Reported > before || reading is null || axis is null) return null;
        told.AddRange(reading.Repairs);
        told.AddRange(reading.Notes);
        if (RoofPlace.NoteOnAzimuths(roof) is string note) told.Add(note);
        if (efficiency is null && curve.Count == 0) told.Add("Assumed, because the home does not say: today's inverter turns 96 % of its DC into AC.");
        RoofOutput output;
        try
        {
            output = RoofOutput.Of(roof, reading.Weather, axis);
        }
        catch (ArgumentException fault)
        {
            map.ReportHere(fault.Message.TrimEnd('.'));
            return null;
        }
        var solar = new HomeSolar
        {
            Profile = output.Dc,
            IsDc = true,
            InverterKw = inverterKw,
            InverterEfficiency = efficiency ?? UsualInverterEfficiency,
            InverterCurve = curve,
            Modelled = new ModelledRoof(roof, reading.Weather, output),
        };
        return curve.Count == 0 ? solar : solar with { InverterEfficiency = MeanEfficiency(solar) };
    }

    private static Roof ReadRoof(YamlMap map, Place place, List<string> told)
    {
        RoofPlane[] planes = [.. map.Maps("planes", HomeSections.Plane).Select(PlaneReader.Read)];
        if (map.Has("planes") && planes.Length == 0) map.ReportWhole("planes", "there is no plane");
        foreach (string twice in planes.GroupBy(p => p.Name).Where(g => g.Count() > 1).Select(g => g.Key)) map.ReportWhole("planes", $"two planes are called {twice}");
        NamedLoss[] losses = [.. map.Maps("losses", HomeSections.Loss).Select(l => new NamedLoss(l.Name("loss"), l.Share("share") ?? 0, l.Name("source")))];
        int[] snow = [.. map.Texts("snowDays").Select(t => t.Whole(0, 31) ?? 0)];
        if (snow.Length is not (0 or 12)) map.ReportWhole("snowDays", string.Create(CultureInfo.InvariantCulture, $"there are {snow.Length} numbers; a year has twelve months, January first"));
        if (!map.Has("losses"))
            told.Add($"Assumed losses of the panels, because the home states none: {string.Join("; ", NamedLoss.Usual.Select(l => string.Create(CultureInfo.InvariantCulture, $"{l.Name} {l.Fraction * 100:0.##} % ({l.Source})")))}.");
        if (!map.Has("degradationPerYear") && map.Has("ageYears"))
            told.Add("Assumed, because the home does not say: the panels lose 0.5 % a year (median of Jordan and Kurtz, NREL/JA-5200-51664, 2012).");
        if (planes.Length > 0 && map.Maps("planes", HomeSections.Plane).Any(p => !p.Has("temperatureCoefficient")))
            told.Add("Assumed where a plane does not say: its power falls by 0.35 % a kelvin above 25 °C (common practice: 0.3 to 0.5 %).");
        return new Roof
        {
            Place = place,
            Planes = planes,
            SkyModel = map.Text("sky")?.Choice(("perez", SkyModel.Perez), ("isotropic", SkyModel.Isotropic)) ?? SkyModel.Perez,
            AlbedoFraction = map.Share("albedo"),
            Losses = map.Has("losses") ? losses : NamedLoss.Usual,
            SnowDays = snow,
            DegradationPerYear = map.Text("degradationPerYear")?.Share(new Bounds(0, 0.2, "panels lose a few thousandths a year, such as 0.005")) ?? Roof.UsualDegradationPerYear,
            AgeYears = map.Number("ageYears", new Bounds(0, 100)) ?? 0,
        };
    }

    private static List<(double LoadFraction, double Efficiency)> ReadCurve(YamlMap map)
    {
        var points = new List<(double LoadFraction, double Efficiency)>();
        foreach (IReadOnlyList<YamlText> row in map.Rows("inverterCurve"))
        {
            if (row.Count != 2)
            {
                map.ReportWhole("inverterCurve", "a curve is a list of pairs, [share of the rating, efficiency]");
                return [];
            }
            if (row[0].Share(Bounds.NotNegative) is double load && row[1].Share(Bounds.Efficiency) is double efficiency) points.Add((load, efficiency));
        }
        for (int i = 1; i < points.Count; i++)
            if (points[i].LoadFraction <= points[i - 1].LoadFraction) map.ReportWhole("inverterCurve", "its shares of the rating do not rise");
        return points;
    }

    private static double MeanEfficiency(HomeSolar solar)
    {
        double ac = solar.Inverter().Convert(solar.Profile, out double clippedAcKwh, out _).EnergyKwh + clippedAcKwh;
        return solar.Profile.EnergyKwh > 0 ? ac / solar.Profile.EnergyKwh : solar.InverterCurve[^1].Efficiency;
    }
}
