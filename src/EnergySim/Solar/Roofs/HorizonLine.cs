namespace EnergySim.Solar;

/// <summary>What stands between a plane and the sky: the height of hills, trees and houses by compass direction, linear between its points and around.</summary>
public sealed class HorizonLine
{
    private readonly (double AzimuthDegrees, double ElevationDegrees)[] _points;

    /// <param name="points">At least one; azimuth from north clockwise 0 to below 360, rising; elevation 0–90.</param>
    /// <exception cref="ArgumentException">No point, an angle out of range, or azimuths that do not rise.</exception>
    public HorizonLine(IReadOnlyList<(double AzimuthDegrees, double ElevationDegrees)> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        if (points.Count == 0) throw new ArgumentException("A horizon line has at least one point.", nameof(points));
        for (int i = 0; i < points.Count; i++)
        {
            if (points[i] is not { AzimuthDegrees: >= 0 and < 360, ElevationDegrees: >= 0 and <= 90 })
                throw new ArgumentException("A horizon's azimuths lie from 0 to below 360, its elevations from 0 to 90 degrees.", nameof(points));
            if (i > 0 && !(points[i].AzimuthDegrees > points[i - 1].AzimuthDegrees))
                throw new ArgumentException("A horizon's azimuths must rise.", nameof(points));
        }
        _points = [.. points];
    }

    /// <summary>The points.</summary>
    public IReadOnlyList<(double AzimuthDegrees, double ElevationDegrees)> Points => _points;

    /// <summary>Height of the line in a direction, degrees.</summary>
    public double ElevationDegreesAt(double azimuthDegrees)
    {
        double azimuth = GeocentricSun.Turn(azimuthDegrees);
        int next = 0;
        while (next < _points.Length && _points[next].AzimuthDegrees <= azimuth) next++;
        (double fromAzimuth, double fromElevation) = next == 0 ? (_points[^1].AzimuthDegrees - 360, _points[^1].ElevationDegrees) : _points[next - 1];
        (double toAzimuth, double toElevation) = next == _points.Length ? (_points[0].AzimuthDegrees + 360, _points[0].ElevationDegrees) : _points[next];
        return fromElevation + ((toElevation - fromElevation) * (azimuth - fromAzimuth) / (toAzimuth - fromAzimuth));
    }

    /// <summary>Share of an evenly bright sky's light on a plane that still comes past the line, 0–1.</summary>
    /// <param name="tiltDegrees">Of the plane.</param>
    /// <param name="azimuthDegrees">That it faces.</param>
    public double SkyFraction(double tiltDegrees, double azimuthDegrees)
    {
        const int Directions = 360, Heights = 90;
        (double sinTilt, double cosTilt) = Math.SinCos(tiltDegrees * GeocentricSun.Radian);
        double open = 0, all = 0;
        for (int d = 0; d < Directions; d++)
        {
            double azimuth = (d + 0.5) * 360 / Directions, line = ElevationDegreesAt(azimuth);
            double across = Math.Cos((azimuth - azimuthDegrees) * GeocentricSun.Radian);
            for (int h = 0; h < Heights; h++)
            {
                double elevation = (h + 0.5) * 90 / Heights;
                (double sin, double cos) = Math.SinCos(elevation * GeocentricSun.Radian);
                double light = Math.Max(0, (sin * cosTilt) + (cos * sinTilt * across)) * cos;
                all += light;
                if (elevation >= line) open += light;
            }
        }
        return open / all;
    }
}
