namespace EnergySim.Solar;

/// <summary>
/// From sky to DC power on one plane: rated power × (what reaches the cells / 1,000 W/m²) × (1 + coefficient × (cells − 25 °C)) × what losses leave. The linear form of Evans, Simplified method for
/// predicting photovoltaic array output, Solar Energy 27 (1981).
/// </summary>
internal sealed class PlaneModel
{
    private readonly RoofPlane _plane;
    private readonly double _east, _north, _up, _sinTilt, _cosTilt, _throughSky, _throughGround, _skyFraction;

    public PlaneModel(RoofPlane plane)
    {
        _plane = plane;
        (_sinTilt, _cosTilt) = Math.SinCos(plane.TiltDegrees * GeocentricSun.Radian);
        (double sin, double cos) = Math.SinCos(plane.AzimuthDegrees * GeocentricSun.Radian);
        (_east, _north, _up) = (_sinTilt * sin, _sinTilt * cos, _cosTilt);
        _throughSky = IncidenceLoss.OfSky(plane.TiltDegrees);
        _throughGround = IncidenceLoss.OfGround(plane.TiltDegrees);
        _skyFraction = plane.Horizon?.SkyFraction(plane.TiltDegrees, plane.AzimuthDegrees) ?? 1;
    }

    /// <summary>Irradiance on the plane, W/m², and DC power before losses, kW, of every interval.</summary>
    public void Fill(SkySeries sky, Span<double> incidentWPerM2, Span<double> dcKw)
    {
        ReadOnlySpan<double> east = sky.Track.East, north = sky.Track.North, up = sky.Track.Up, diffuse = sky.DiffuseWPerM2;
        for (int i = 0; i < dcKw.Length; i++)
        {
            if (diffuse[i] <= 0 && sky.GlobalWPerM2[i] <= 0)
            {
                incidentWPerM2[i] = dcKw[i] = 0;
                continue;
            }
            double cosIncidence = (_east * east[i]) + (_north * north[i]) + (_up * up[i]);
            var flat = new FlatSky(sky.GlobalWPerM2[i], sky.DirectNormalWPerM2[i], diffuse[i], sky.AlbedoFraction[i]);
            PlaneSky on = PlaneSky.Of(flat, sky.Sky[i], cosIncidence, up[i], _cosTilt, _sinTilt);
            if (_plane.Horizon is HorizonLine line) on = Shade(on, line, east[i], north[i], up[i]);
            double fromSun = on.BeamWPerM2 + on.CircumsolarWPerM2;
            double reaching = on.SkyWPerM2 * _throughSky + (on.GroundWPerM2 * _throughGround);
            if (fromSun > 0) reaching += fromSun * IncidenceLoss.Of(cosIncidence);
            double incident = on.TotalWPerM2;
            double cells = _plane.Mounting.CellCelsius(sky.AirCelsius[i], incident, sky.WindMPerS[i]);
            incidentWPerM2[i] = incident;
            dcKw[i] = PowerKw(_plane.RatedKw, _plane.TemperatureCoefficientPerK, reaching, cells);
        }
    }

    /// <summary>DC power, kW, of modules that light reaches so much, W/m², at cells of a temperature, °C.</summary>
    internal static double PowerKw(double ratedKw, double coefficientPerK, double reachingWPerM2, double cellCelsius) =>
        Math.Max(0, ratedKw * reachingWPerM2 * 1e-3 * (1 + (coefficientPerK * (cellCelsius - 25))));

    private PlaneSky Shade(in PlaneSky on, HorizonLine line, double east, double north, double up)
    {
        double elevation = Math.Atan2(up, Math.Sqrt((east * east) + (north * north))) / GeocentricSun.Radian;
        double azimuth = Math.Atan2(east, north) / GeocentricSun.Radian;
        bool hidden = elevation < line.ElevationDegreesAt(azimuth);
        return new PlaneSky(hidden ? 0 : on.BeamWPerM2, hidden ? 0 : on.CircumsolarWPerM2, on.SkyWPerM2 * _skyFraction, on.GroundWPerM2);
    }
}
