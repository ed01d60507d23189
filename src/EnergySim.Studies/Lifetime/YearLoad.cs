using EnergySim.Economics;
using EnergySim.Profiles;
using EnergySim.Time;

namespace EnergySim.Studies.Lifetime;

/// <summary>Load of one year after another: the data's, grown, with what has arrived by then.</summary>
internal sealed class YearLoad(Home home, MoneyTerms terms, PlanByYear plans, double factor)
{
    /// <summary>The house's load.</summary>
    public Profile Load { get; private set; } = home.Load;

    /// <summary>The year's load, kWh.</summary>
    public double Kwh { get; private set; }

    /// <summary>Goes to a year, counted from 1.</summary>
    public void Move(int year)
    {
        Load = WithAdded(home.Load.Scaled(factor * Math.Pow(1 + terms.LoadGrowthFraction, year - 1)), year);
        Kwh = Load.EnergyKwh;
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
