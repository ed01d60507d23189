using EnergySim.Economics;
using EnergySim.Profiles;

namespace EnergySim.Studies.Lifetime;

/// <summary>Solar of one year after another: the data's, faded.</summary>
internal sealed class YearSun(HomeSolar? solar, MoneyTerms terms, double factor)
{
    private double _now = double.NaN;

    /// <summary>Before any inverter; null = none, or metered behind one.</summary>
    public Profile? Dc { get; private set; }

    /// <summary>Behind today's inverter; null = none.</summary>
    public Profile? WallAc { get; private set; }

    /// <summary>What the panels give in the year, kWh in the measure of the profile.</summary>
    public double Kwh { get; private set; }

    /// <summary>Goes to a year, counted from 1.</summary>
    public void Move(int year)
    {
        if (solar is null) return;
        double now = factor * Math.Pow(1 - terms.SolarFadeFraction, year - 1);
        if (now == _now) return;
        _now = now;
        Profile faded = solar.Profile.Scaled(now);
        Kwh = faded.EnergyKwh;
        Dc = solar.IsDc ? faded : null;
        WallAc = WallSolar.Of(solar with { Profile = faded }).Ac;
    }
}
