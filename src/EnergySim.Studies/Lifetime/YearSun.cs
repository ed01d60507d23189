using EnergySim.Economics;

namespace EnergySim.Studies.Lifetime;

/// <summary>Solar of one year after another: the data's, faded.</summary>
internal sealed class YearSun(HomeSolar? solar, MoneyTerms terms, double factor)
{
    private double _now = double.NaN;

    /// <summary>The year's power on its way to each offer.</summary>
    public OfferSolar Now { get; private set; } = new(null);

    /// <summary>Goes to a year, counted from 1.</summary>
    public void Move(int year)
    {
        double now = factor * Math.Pow(1 - terms.SolarFadeFraction, year - 1);
        if (now == _now) return;
        _now = now;
        Now = new OfferSolar(solar, now);
    }
}
