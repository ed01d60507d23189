using EnergySim.Equipment;
using EnergySim.Time;

namespace EnergySim.Strategies;

/// <summary>
/// Levels of stored energy, an hour of each local day, from what like days of the past lead one to expect and from prices known ahead: what is kept for dearer
/// hours, what is charged overnight, and down to what the cells may sell. Days are decided at their first minute, from the days before. Common practice.
/// </summary>
internal sealed class ExpectedNeeds
{
    private const int Hours = 24, Ahead = 2 * Hours;

    /// <summary>Money a kWh within which two prices are the same.</summary>
    private const double Even = 1e-9;

    private readonly Strategy _strategy;
    private readonly CellFlows _flows;
    private readonly RowRules _rules;
    private readonly double _roomKwh;
    private readonly double[] _buy, _sell;
    private readonly Situation[] _situations;
    private readonly double[] _use = new double[Ahead], _fill = new double[Ahead];

    private ExpectedNeeds(Strategy strategy, Plant plant, RowRules rules, StrategyClock clock, DayForecast forecast, StrategyFacts facts)
    {
        (_strategy, _rules, _flows) = (strategy, rules, new CellFlows(plant));
        _roomKwh = plant.HighestKwh - rules.ReserveKwh;
        (_buy, _sell) = EveningPlanner.HourlyPrices(facts.Load.Axis, forecast, facts.Prices);
        _situations = SituationsOf(clock, facts.Load.Axis, forecast);
        Levels = new HourLevels[forecast.Days * Hours];
        Span<double> load = stackalloc double[Ahead], solar = stackalloc double[Hours];
        for (int d = 0; d < forecast.Days; d++)
        {
            forecast.Solar(d, solar);
            forecast.Load(d, d, load[..Hours]);
            forecast.Load(d + 1, d, load[Hours..]);
            for (int h = 0; h < Ahead; h++) Expect(d, h, d > 0 ? load[h] + plant.StandbyKw - solar[h % Hours] : 0);
            for (int h = 0; h < Hours; h++) Levels[(d * Hours) + h] = LevelsOf(d, h);
        }
    }

    /// <summary>The levels, 24 to each local day.</summary>
    public HourLevels[] Levels { get; }

    public static HourLevels[] Of(Strategy strategy, Plant plant, RowRules rules, StrategyClock clock, StrategyFacts facts)
    {
        TimeAxis axis = facts.Load.Axis;
        int like = strategy.Overnight is { LikeDays: > 0 } night ? night.LikeDays : DayForecast.UsualLikeDays;
        var forecast = new DayForecast(axis, facts.Load.Kw, facts.Solar is null ? new double[axis.Count] : facts.Solar.Kw, like);
        return new ExpectedNeeds(strategy, plant, rules, clock, forecast, facts).Levels;
    }

    // What the hour is expected to take out of the cells, where the windows let them serve the house, and what the sun brings.
    private void Expect(int day, int hour, double needKw)
    {
        Situation now = At(day, hour);
        bool serves = !now.HasFlag(Situation.Night) && (_strategy.Base is Steering.SelfUse or Steering.DemandShaving || now.HasFlag(Situation.Peak) || now.HasFlag(Situation.Event));
        double above = _strategy.Base == Steering.DemandShaving ? _strategy.ShaveToKw : 0;
        _use[hour] = serves ? Math.Min(Math.Max(0, needKw - above) / _flows.OutKwPerKw, _flows.MostOutKwh) : 0;
        _fill[hour] = Math.Min(Math.Max(0, -needKw) / _flows.InKwPerKw, _flows.MostInKwh);
    }

    private HourLevels LevelsOf(int day, int hour)
    {
        HourLevels plain = _rules.Plain;
        Situation now = At(day, hour);
        return plain with
        {
            KeptKwh = _strategy.KeepsForDearest && now.HasFlag(Situation.Peak) ? KeptForDearer(day, hour) : 0,
            NightKwh = _strategy.Overnight is { LikeDays: > 0 } && now.HasFlag(Situation.Night) ? Math.Min(plain.NightKwh, _rules.ReserveKwh + NeededAfterNight(day, hour)) : plain.NightKwh,
            SellDownKwh = _strategy.SellsByPrice && !now.HasFlag(Situation.Night) ? SellDown(day, hour) : plain.SellDownKwh,
        };
    }

    private double KeptForDearer(int day, int hour)
    {
        double kept = 0, price = Price(_buy, day, hour);
        for (int h = hour + 1; h < Ahead && At(day, h).HasFlag(Situation.Peak); h++)
            if (Price(_buy, day, h) > price + Even) kept += _use[h];
        return Math.Min(kept, _roomKwh);
    }

    // The least energy at the window's end that serves every hour until the next window, the sun's share counted when it comes.
    private double NeededAfterNight(int day, int hour)
    {
        int from = hour;
        while (from < Ahead && At(day, from).HasFlag(Situation.Night)) from++;
        int until = from;
        while (until < Ahead && !At(day, until).HasFlag(Situation.Night)) until++;
        double needed = 0;
        for (int h = until - 1; h >= from; h--) needed = Math.Clamp(needed + _use[h] - _fill[h], 0, _roomKwh);
        return needed;
    }

    // What no hour of the next day uses or sells better is sold, if filling up again costs less than it brings.
    private double SellDown(int day, int hour)
    {
        double brings = Price(_sell, day, hour) * _flows.OutKwPerKw;
        // Without a past nothing is known of what is needed.
        if (day == 0 || brings <= Even || RefillCost(day, hour) >= brings - Even) return double.PositiveInfinity;
        double needed = 0, price = Price(_sell, day, hour);
        for (int h = Math.Min(hour + Hours, Ahead) - 1; h > hour; h--)
        {
            if (IsGridRefill(day, h) && Price(_buy, day, h) * _flows.InKwPerKw < brings)
            {
                needed = 0;
                continue;
            }
            double use = Price(_buy, day, h) > price + Even ? _use[h] : 0;
            if (Price(_sell, day, h) > price + Even) use = _flows.MostOutKwh;
            double fill = Price(_sell, day, h) * _flows.InKwPerKw < brings ? _fill[h] : 0;
            needed = Math.Clamp(needed + use - fill, 0, _roomKwh);
        }
        return _rules.ReserveKwh + needed;
    }

    // Money a kWh in the cells costs when they are next filled: the dearest hour of the next stretch of sun or of charging.
    private double RefillCost(int day, int hour)
    {
        double cost = 0;
        bool begun = false;
        for (int h = hour + 1; h < Math.Min(hour + Hours, Ahead); h++)
        {
            bool grid = IsGridRefill(day, h);
            if (!grid && _fill[h] <= 0)
            {
                if (begun) break;
                continue;
            }
            begun = true;
            cost = Math.Max(cost, Price(grid ? _buy : _sell, day, h) * _flows.InKwPerKw);
        }
        return cost;
    }

    private bool IsGridRefill(int day, int hour) => _strategy.Integrity != IntegrityRule.SolarOnly && At(day, hour).HasFlag(Situation.Night);

    // The day after the last is as the last.
    private Situation At(int day, int hour) => _situations[EveningPlanner.PriceHour(day, hour, _situations.Length)];

    private static double Price(double[] prices, int day, int hour) => prices[EveningPlanner.PriceHour(day, hour, prices.Length)];

    private static Situation[] SituationsOf(StrategyClock clock, TimeAxis axis, DayForecast forecast)
    {
        var hours = new Situation[forecast.Days * Hours];
        for (int i = 0; i < axis.Count; i++)
            hours[((axis.LocalDayOf(i) - forecast.FirstDay) * Hours) + (axis.LocalMinuteOf(i) / 60)] |= clock.SituationAt(i);
        return hours;
    }
}
