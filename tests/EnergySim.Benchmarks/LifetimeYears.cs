using EnergySim.Economics;
using EnergySim.Equipment;
using EnergySim.Strategies;
using EnergySim.Studies.Lifetime;

namespace EnergySim.Benchmarks;

/// <summary>Twenty-five years of the benchmark year, each simulated again, as it is and with three offers.</summary>
internal sealed class LifetimeYears
{
    private readonly Home _home;

    public LifetimeYears()
    {
        var year = new YearOfQuarters(allRules: false);
        _home = new Home
        {
            Name = "benchmark (invented)",
            Load = year.Load,
            Solar = new HomeSolar { Profile = year.Solar, IsDc = true, InverterKw = 7.6 },
            Tariff = year.Calendar.Tariff,
            Offers = [Offer(year, 1), Offer(year, 2), Offer(year, 3)],
            Money = new MoneyTerms { HorizonYears = 25, Life = new BatteryLife { EndOfLifeFraction = 0 } },
        };
    }

    /// <summary>The bills of all years and columns.</summary>
    public IReadOnlyList<IReadOnlyList<decimal>> Bills() => LifetimeStudy.BillsByYear(_home);

    /// <summary>The whole study: with bands, indicators and break-even.</summary>
    public LifetimeResult Study() => LifetimeStudy.Of(_home);

    private static Offer Offer(YearOfQuarters year, int units) => new()
    {
        Name = $"{units}",
        Battery = new Battery
        {
            Name = "ten",
            CapacityKwh = 10,
            ChargeLimitKw = 5,
            DischargeLimitKw = 5,
            ChargeEfficiency = 0.97,
            DischargeEfficiency = 0.97,
            InverterKw = 5,
            InverterEfficiency = 0.96,
            RectifierEfficiency = 0.96,
            StandbyKw = 0.04,
        },
        Units = units,
        Price = 4000 + (7000 * units),
        Strategy = new Strategy { Base = Steering.PeakWindow, PeakWindows = year.Strategy.PeakWindows },
    };
}
