namespace EnergySim.Profiles.Shapes;

/// <summary>
/// Shapes of what uses electricity in a house: relative power by local time. They are ours, put together from how homes are known to behave (common
/// practice): something always on, light when people are awake and it is dark, meals, hot water, heating below 16 °C and cooling above 21 °C.
/// </summary>
internal static class EndUse
{
    private const double HeatBelowCelsius = 16, CoolAboveCelsius = 21;

    // Shares of a mild day's energy: always on, light, cooking, appliances.
    private const double BaseShare = 0.38, LightShare = 0.17, CookShare = 0.13, ApplianceShare = 0.32, WaterShare = 0.35, PoolShare = 0.3;

    private static readonly double[] s_cook = Hours((6.5, 1, 0.5), (12.25, 0.7, 0.6), (18.25, 0.9, 1.6));
    private static readonly double[] s_water = Hours((7, 1.1, 1.3), (13, 2, 0.3), (20, 1.7, 1));
    private static readonly double[] s_appliances = Hours((9, 2, 0.6), (14, 3, 0.6), (19.5, 2, 1.5));

    /// <summary>Relative power of all that does not hang on the weather; its mean over a mild day is near 1.</summary>
    public static double Habits(HouseShape house, int day, int minute, ShapeNoise noise)
    {
        bool isWeekend = IsWeekend(day);
        double light = Awake(house, minute, isWeekend) * Dark(day, minute);
        double out_ = Out(house, minute, isWeekend);
        double slot = noise.At((day * 96L) + (minute / 15), 20);
        // Appliances run for a quarter-hour or not at all: twice the power half of the time, on average the same.
        double burst = slot < 0.3 ? 2.2 : slot < 0.6 ? 0.9 : 0.175;
        double appliances = At(s_appliances, Shifted(house, minute)) * (isWeekend ? 1.25 : 0.9) * (1 - (0.6 * out_)) * burst;
        double cook = At(s_cook, Shifted(house, minute)) * (1 - (0.7 * out_)) * (0.6 + (0.8 * noise.At((day * 96L) + (minute / 15), 21)));
        double all = BaseShare + (LightShare * 2.6 * light) + (CookShare * cook) + (ApplianceShare * appliances);
        if (house.HeatsWater) all += WaterShare * At(s_water, minute) * (noise.At((day * 96L) + (minute / 15), 22) < 0.4 ? 2.5 : 0);
        if (house.HasPool) all += Pool(day, minute) * PoolShare;
        return all;
    }

    /// <summary>Relative power of cooking alone.</summary>
    public static double Cooking(HouseShape house, int day, int minute) => At(s_cook, Shifted(house, minute)) * (1 - (0.7 * Out(house, minute, IsWeekend(day))));

    /// <summary>Relative power of heating.</summary>
    public static double Heating(double celsius) => Math.Max(0, HeatBelowCelsius - celsius);

    /// <summary>Relative power of cooling.</summary>
    public static double Cooling(double celsius) => Math.Max(0, celsius - CoolAboveCelsius);

    /// <summary>A pool pump: from nine to fifteen in the warm half of the year.</summary>
    public static double Pool(int day, int minute)
    {
        bool isWarm = Math.Cos(2 * Math.PI * (day - 15) / 365.25) < 0.25;
        return isWarm && minute is >= 540 and < 900 ? 4 : 0;
    }

    // 1970-01-01 was a Thursday.
    private static bool IsWeekend(int day) => (((day + 3) % 7) + 7) % 7 >= 5;

    private static double Out(HouseShape house, int minute, bool isWeekend) =>
        house.Presence == Presence.HomeByDay || isWeekend ? 0 : minute is >= 510 and < 1020 ? 1 : 0;

    private static int Shifted(HouseShape house, int minute) => house.Presence == Presence.LateEvenings && minute >= 600 ? Math.Max(600, minute - 90) : minute;

    private static double Awake(HouseShape house, int minute, bool isWeekend)
    {
        int up = isWeekend ? 450 : 375, down = house.Presence == Presence.LateEvenings ? 1440 : 1365;
        if (minute < up || minute >= down) return 0.06;
        return 1 - (0.8 * Out(house, minute, isWeekend));
    }

    // Light is wanted before sunrise and after sunset; days of 9 to 15 hours around noon, as at a middle latitude.
    private static double Dark(int day, int minute)
    {
        double half = 60 * (6 - (1.5 * Math.Cos(2 * Math.PI * (day + 10) / 365.25)));
        double from = Math.Abs(minute - 735) - half;
        return Math.Clamp(0.15 + (from / 60), 0.15, 1);
    }

    // Bells over the hours of a day, scaled to a mean of 1.
    private static double[] Hours(params (double Hour, double Width, double Height)[] bells)
    {
        var shape = new double[96];
        for (int i = 0; i < shape.Length; i++)
            foreach ((double hour, double width, double height) in bells)
            {
                double off = (i / 4.0) - hour;
                off -= 24 * Math.Round(off / 24);
                shape[i] += height * Math.Exp(-off * off / (2 * width * width));
            }
        double mean = shape.Average();
        for (int i = 0; i < shape.Length; i++) shape[i] /= mean;
        return shape;
    }

    private static double At(double[] shape, int minute) => shape[Math.Clamp(minute / 15, 0, 95)];
}
