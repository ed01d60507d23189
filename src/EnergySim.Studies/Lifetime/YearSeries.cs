using EnergySim.Economics;
using EnergySim.Profiles;
using EnergySim.Time;

namespace EnergySim.Studies.Lifetime;

/// <summary>Load and solar of one year after another: the data's, grown, faded, with what has arrived by then.</summary>
internal sealed class YearSeries(Home home, MoneyTerms terms, PlanByYear plans, double solarFactor, double loadFactor)
{
    private double _solarNow = double.NaN;

    /// <summary>The house's load.</summary>
    public Profile Load { get; private set; } = home.Load;

    /// <summary>No power: one for all runs.</summary>
    public Profile None { get; } = Profile.Zero(home.Load.Axis);

    /// <summary>Solar before any inverter; null = none, or metered behind one.</summary>
    public Profile? SolarDc { get; private set; }

    /// <summary>Solar behind today's inverter; null = none.</summary>
    public Profile? WallAc { get; private set; }

    /// <summary>The year's load, kWh.</summary>
    public double LoadKwh { get; private set; }

    /// <summary>What the panels give in the year, kWh in the measure of the profile.</summary>
    public double SolarKwh { get; private set; }

    /// <summary>Goes to a year, counted from 1.</summary>
    public void Move(int year)
    {
        Load = WithAdded(home.Load.Scaled(loadFactor * Math.Pow(1 + terms.LoadGrowthFraction, year - 1)), year);
        LoadKwh = Load.EnergyKwh;
        if (home.Solar is not HomeSolar solar) return;
        double now = solarFactor * Math.Pow(1 - terms.SolarFadeFraction, year - 1);
        if (now == _solarNow) return;
        _solarNow = now;
        Profile faded = solar.Profile.Scaled(now);
        SolarKwh = faded.EnergyKwh;
        SolarDc = solar.IsDc ? faded : null;
        WallAc = WallSolar.Of(solar with { Profile = faded }).Ac;
    }

    private Profile WithAdded(Profile load, int year)
    {
        int shift = plans.ShiftOf(year);
        AddedLoad[] here = [.. terms.AddedLoads.Where(a => a.From.PlusYears(-shift) <= load.Axis.LocalDateOf(load.Axis.Count - 1))];
        if (here.Length == 0) return load;
        double[] kw = load.Kw.ToArray();
        foreach (AddedLoad added in here)
        {
            int from = TimeAxis.DayOfDate(added.From.PlusYears(-shift));
            double mean = added.KwhPerDay / HoursOf(added.Window);
            for (int i = 0; i < kw.Length; i++)
                if (load.Axis.LocalDayOf(i) >= from && added.Window.Contains(load.Axis.LocalMinuteOf(i))) kw[i] += mean;
        }
        return new Profile(load.Axis, kw);
    }

    private static double HoursOf(ClockWindow window)
    {
        int minutes = window.ToMinute - window.FromMinute;
        return (minutes > 0 ? minutes : minutes + 1440) / 60.0;
    }
}
