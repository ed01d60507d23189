using EnergySim.Time;

namespace EnergySim.Profiles.Shapes;

/// <summary>A vehicle that is charged at home.</summary>
/// <param name="KwhPerWeek">Energy a week at the wall, kWh.</param>
/// <param name="FromMinute">Local minute of the day from which it may charge.</param>
/// <param name="ToMinute">Local minute until which; before <paramref name="FromMinute"/> = the next morning.</param>
/// <param name="ChargerKw">Power of the charger, kW.</param>
public sealed record VehicleCharging(double KwhPerWeek, int FromMinute, int ToMinute, double ChargerKw);

/// <summary>What will come to a house's load, laid out over an axis.</summary>
public static class AddedLoads
{
    /// <summary>A vehicle: a seventh of the week's energy each day, at full power from the beginning of the window until it is in.</summary>
    /// <exception cref="ArgumentException">The window is too short for the energy.</exception>
    public static Profile Vehicle(TimeAxis axis, VehicleCharging vehicle)
    {
        ArgumentNullException.ThrowIfNull(axis);
        ArgumentNullException.ThrowIfNull(vehicle);
        int window = (((vehicle.ToMinute - vehicle.FromMinute) % 1440) + 1440) % 1440;
        if (window == 0) window = 1440;
        double daily = vehicle.KwhPerWeek / 7;
        if (!(vehicle.ChargerKw > 0) || daily > vehicle.ChargerKw * window / 60)
            throw new ArgumentException(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{vehicle.KwhPerWeek} kWh a week do not fit into {window / 60.0:0.##} hours a day at {vehicle.ChargerKw} kW."));
        var kw = new double[axis.Count];
        double left = 0;
        bool wasIn = false;
        for (int i = 0; i < kw.Length; i++)
        {
            int since = (axis.LocalMinuteOf(i) - vehicle.FromMinute + 1440) % 1440;
            bool isIn = since < window;
            // The night in which the data begin is charged too, as far as it lies within them.
            if (isIn && (!wasIn || since < axis.StepMinutes)) left = daily;
            wasIn = isIn;
            if (!isIn || left <= 0) continue;
            kw[i] = Math.Min(vehicle.ChargerKw, left / axis.StepHours);
            left -= kw[i] * axis.StepHours;
        }
        return new Profile(axis, kw.AsSpan());
    }

    /// <summary>A heat pump: a year's energy, following the cold.</summary>
    /// <param name="axis">The intervals.</param>
    /// <param name="kwh">Its energy over the axis, kWh.</param>
    /// <param name="house">Climate and seed.</param>
    public static Profile HeatPump(TimeAxis axis, double kwh, HouseShape house)
    {
        ArgumentNullException.ThrowIfNull(house);
        var noise = new ShapeNoise(house.Seed);
        return Scaled(axis, kwh, (day, minute) => EndUse.Heating(house.Climate.CelsiusAt(day, minute, noise)));
    }

    /// <summary>Induction cooking: a year's energy at meals.</summary>
    public static Profile Induction(TimeAxis axis, double kwh, HouseShape house)
    {
        ArgumentNullException.ThrowIfNull(house);
        return Scaled(axis, kwh, (day, minute) => EndUse.Cooking(house, day, minute));
    }

    /// <summary>A pool pump: a year's energy, from nine to fifteen in the warm half of the year.</summary>
    public static Profile Pool(TimeAxis axis, double kwh) => Scaled(axis, kwh, EndUse.Pool);

    private static Profile Scaled(TimeAxis axis, double kwh, Func<int, int, double> shape)
    {
        ArgumentNullException.ThrowIfNull(axis);
        ArgumentOutOfRangeException.ThrowIfNegative(kwh);
        var kw = new double[axis.Count];
        double sum = 0;
        for (int i = 0; i < kw.Length; i++) sum += kw[i] = shape(axis.LocalDayOf(i), axis.LocalMinuteOf(i));
        if (sum <= 0 && kwh > 0) throw new ArgumentException("The days given have nothing of that kind (no cold, no warm day); its energy has no place.", nameof(axis));
        for (int i = 0; i < kw.Length; i++) kw[i] *= sum > 0 ? kwh / axis.StepHours / sum : 0;
        return new Profile(axis, kw.AsSpan());
    }
}
