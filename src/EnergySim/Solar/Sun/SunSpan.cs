namespace EnergySim.Solar;

/// <summary>
/// The sun's way through a span of hour angles, cut at sunrise and sunset (without refraction): the integrals of Duffie and Beckman, Solar Engineering
/// of Thermal Processes (2013), eq. 1.10.4, so that coarse intervals carry no error of their middle.
/// </summary>
/// <param name="UpFraction">Share of the span in which the sun is up, 0–1.</param>
/// <param name="MeanCosHour">Mean cosine of the hour angle while the sun is up; 0 when it is not.</param>
/// <param name="MeanSinHour">Mean sine of the hour angle while the sun is up; 0 when it is not.</param>
public readonly record struct SunSpan(double UpFraction, double MeanCosHour, double MeanSinHour)
{
    /// <summary>The span between two hour angles, radians (0 at noon, afternoon positive); <paramref name="toHour"/> is the larger, by up to a turn.</summary>
    /// <param name="a">Product of the sines of latitude and declination.</param>
    /// <param name="b">Product of their cosines.</param>
    /// <param name="fromHour">Hour angle at the start, −π to π.</param>
    /// <param name="toHour">Hour angle at the end.</param>
    public static SunSpan Of(double a, double b, double fromHour, double toHour)
    {
        double sunset = Math.Acos(Math.Clamp(-a / b, -1, 1));
        double up = 0, cos = 0, sin = 0;
        // The span may begin in yesterday's turn or end in tomorrow's.
        for (int turn = -1; turn <= 1; turn++)
        {
            double noon = turn * 2 * Math.PI;
            double first = Math.Max(fromHour, noon - sunset), last = Math.Min(toHour, noon + sunset);
            if (last <= first) continue;
            (double sinFirst, double cosFirst) = Math.SinCos(first);
            (double sinLast, double cosLast) = Math.SinCos(last);
            up += last - first;
            cos += sinLast - sinFirst;
            sin += cosFirst - cosLast;
        }
        return up <= 0 ? default : new SunSpan(Math.Min(1, up / (toHour - fromHour)), cos / up, sin / up);
    }
}
