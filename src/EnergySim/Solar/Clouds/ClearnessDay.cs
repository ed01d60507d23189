using NodaTime;

namespace EnergySim.Solar;

/// <summary>The sky of one day: its sun on the flat against that above the air.</summary>
/// <param name="Date">Date in the file's standard time.</param>
/// <param name="Source">Which of the weather series it is of.</param>
/// <param name="FirstInterval">Its first interval in that series.</param>
/// <param name="GlobalWhPerM2">Global irradiation on the flat, Wh/m².</param>
/// <param name="ExtraterrestrialWhPerM2">Irradiation on the flat above the air, Wh/m².</param>
/// <param name="FollowsPrevious">True when the day before it in the list is the day before it in the sky.</param>
public readonly record struct ClearnessDay(
    LocalDate Date, int Source, int FirstInterval, double GlobalWhPerM2, double ExtraterrestrialWhPerM2, bool FollowsPrevious)
{
    // Below this the sun hardly rises and the ratio means nothing.
    private const double LeastWhPerM2 = 100;

    /// <summary>
    /// Daily clearness index, global over extraterrestrial (Duffie and Beckman, Solar Engineering of Thermal Processes, 2013, eq. 2.9.2), 0 to about 0.85;
    /// null where the sun hardly rises (less than 100 Wh/m² above the air).
    /// </summary>
    public double? Clearness => ExtraterrestrialWhPerM2 < LeastWhPerM2 ? null : GlobalWhPerM2 / ExtraterrestrialWhPerM2;
}
