using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Tariffs;
using EnergySim.Time;

namespace EnergySim.Strategies;

/// <summary>
/// Plans each day at its first minute for that day and the next, on a forecast made from the days before and the prices of the rate sheet.
/// A dynamic programme over levels of stored energy gives, for each hour, what one more kWh in the cells is worth from there on; the
/// set-points follow from that worth: discharge down to the level where it exceeds the price saved, charge up to the level where it falls
/// below the price paid. They hold whatever the day brings, so a wrong forecast costs money and breaks nothing.
/// </summary>
public sealed class EveningPlanner
{
    private const int Hours = 24;

    /// <summary>Money a kWh within which two uses are worth the same: then the sooner one is taken, as a forecast may fail.</summary>
    private const double Even = 1e-6;

    private const int Levels = 41, HorizonDays = 2;

    private readonly Plant _plant;
    private readonly PlannerTerms _terms;
    private readonly CellFlows _flows;
    private readonly double _lowestKwh, _grainKwh;

    private EveningPlanner(Plant plant, PlannerTerms terms)
    {
        (_plant, _terms) = (plant, terms);
        _lowestKwh = plant.LowestKwh + (terms.ReserveFraction * plant.UsableKwh);
        _grainKwh = (plant.HighestKwh - _lowestKwh) / (Levels - 1);
        _flows = new CellFlows(plant);
    }

    /// <summary>Plans a span.</summary>
    /// <param name="plant">The plant.</param>
    /// <param name="load">The house.</param>
    /// <param name="solar">All solar, as AC; null = none.</param>
    /// <param name="prices">What a kWh is worth at the meter.</param>
    /// <param name="terms">What the plan may do.</param>
    /// <returns>A row an hour of the local clock of each day.</returns>
    public static SetPoints Plan(Plant plant, Profile load, Profile? solar, MarginalPrices prices, PlannerTerms terms)
    {
        ArgumentNullException.ThrowIfNull(plant);
        ArgumentNullException.ThrowIfNull(load);
        ArgumentNullException.ThrowIfNull(prices);
        ArgumentNullException.ThrowIfNull(terms);
        TimeAxis axis = load.Axis;
        var forecast = new DayForecast(axis, load.Kw, solar is null ? new double[axis.Count] : solar.Kw);
        var planner = new EveningPlanner(plant, terms);
        (double[] buy, double[] sell) = HourlyPrices(axis, forecast, prices);
        var rows = new SetPointRow[forecast.Days * Hours];
        for (int d = 0; d < forecast.Days; d++) planner.PlanDay(d, forecast, buy, sell, rows);
        var picks = new int[axis.Count];
        for (int i = 0; i < picks.Length; i++) picks[i] = ((axis.LocalDayOf(i) - forecast.FirstDay) * Hours) + (axis.LocalMinuteOf(i) / 60);
        return new SetPoints(rows, picks);
    }

    private void PlanDay(int day, DayForecast forecast, double[] buy, double[] sell, SetPointRow[] rows)
    {
        Span<double> load = stackalloc double[Hours], solar = stackalloc double[Hours], worth = stackalloc double[Levels], before = stackalloc double[Levels];
        forecast.Solar(day, solar);
        // What is left at the end saves the cheapest kWh of the horizon.
        double cheapest = double.PositiveInfinity;
        for (int h = 0; h < HorizonDays * Hours; h++) cheapest = Math.Min(cheapest, buy[PriceHour(day, h, buy.Length)]);
        for (int level = 0; level < Levels; level++) worth[level] = -level * _grainKwh * _flows.OutKwPerKw * cheapest;
        for (int ahead = HorizonDays - 1; ahead >= 0; ahead--)
        {
            forecast.Load(day + ahead, day, load);
            for (int h = Hours - 1; h >= 0; h--)
            {
                int at = PriceHour(day, (ahead * Hours) + h, buy.Length);
                if (ahead == 0) rows[(day * Hours) + h] = RowOf(worth, buy[at], sell[at]);
                worth.CopyTo(before);
                for (int level = 0; level < Levels; level++)
                    worth[level] = LeastCost(level, before, load[h] + _plant.StandbyKw - solar[h], buy[at], sell[at]);
            }
        }
    }

    // The day after the last is priced as the last.
    internal static int PriceHour(int day, int hour, int count) => Math.Min((day * Hours) + hour, count - Hours + (hour % Hours));

    /// <summary>Least cost from an hour on. Between levels the cost that follows is a straight line, so the least lies at a level, at the edge of what is possible, or where the meter stands still.</summary>
    private double LeastCost(int level, ReadOnlySpan<double> after, double needKw, double buy, double sell)
    {
        double from = level * _grainKwh, mostIn = _flows.MostInKwh, mostOut = _flows.MostOutKwh;
        if (!_terms.ChargesFromGrid) mostIn = Math.Min(mostIn, Math.Max(0, -needKw) / _flows.InKwPerKw);
        if (!_terms.SellsFromBattery) mostOut = Math.Min(mostOut, Math.Max(0, needKw) / _flows.OutKwPerKw);
        double lowest = Math.Max(0, from - mostOut), highest = Math.Min((Levels - 1) * _grainKwh, from + mostIn);
        double still = Math.Clamp(needKw > 0 ? from - (needKw / _flows.OutKwPerKw) : from - (needKw / _flows.InKwPerKw), lowest, highest);
        double least = Math.Min(Math.Min(CostTo(lowest, after), CostTo(highest, after)), CostTo(still, after));
        for (int to = (int)Math.Ceiling(lowest / _grainKwh); to * _grainKwh < highest; to++) least = Math.Min(least, CostTo(to * _grainKwh, after));
        return least;

        double CostTo(double to, ReadOnlySpan<double> after)
        {
            double net = needKw + ((to - from) * (to > from ? _flows.InKwPerKw : _flows.OutKwPerKw)), at = to / _grainKwh;
            int below = Math.Min((int)at, Levels - 2);
            return after[below] + ((at - below) * (after[below + 1] - after[below])) + (net > 0 ? net * buy : net * sell);
        }
    }

    private SetPointRow RowOf(ReadOnlySpan<double> costAfter, double buy, double sell)
    {
        int floor = Levels - 1, fill = 0, solar = 0, down = Levels - 1;
        while (floor > 0 && buy * _flows.OutKwPerKw > WorthAbove(costAfter, floor - 1) - Even) floor--;
        while (fill < Levels - 1 && WorthAbove(costAfter, fill) > (buy * _flows.InKwPerKw) + Even) fill++;
        while (solar < Levels - 1 && WorthAbove(costAfter, solar) > (sell * _flows.InKwPerKw) - Even) solar++;
        while (down > 0 && sell * _flows.OutKwPerKw > WorthAbove(costAfter, down - 1) + Even) down--;
        bool charges = _terms.ChargesFromGrid && fill > 0, sells = _terms.SellsFromBattery && !charges && down < Levels - 1;
        // Once the sun's own is worth no more in the cells than sold, they are filled no further by it.
        return new(
            KwhAt(floor), solar == Levels - 1 ? _plant.HighestKwh : KwhAt(solar), charges ? KwhAt(fill) : 0,
            charges || floor == Levels - 1 ? double.PositiveInfinity : 0, sells ? KwhAt(down) : double.PositiveInfinity);
    }

    // Money a kWh of the step above a level.
    private double WorthAbove(ReadOnlySpan<double> cost, int level) => (cost[level] - cost[level + 1]) / _grainKwh;

    private double KwhAt(int level) => _lowestKwh + (level * _grainKwh);

    internal static (double[] Buy, double[] Sell) HourlyPrices(TimeAxis axis, DayForecast forecast, MarginalPrices prices)
    {
        var buy = new double[forecast.Days * Hours];
        var sell = new double[buy.Length];
        Array.Fill(buy, double.NaN);
        for (int i = axis.Count - 1; i >= 0; i--)
        {
            int at = ((axis.LocalDayOf(i) - forecast.FirstDay) * Hours) + (axis.LocalMinuteOf(i) / 60);
            (buy[at], sell[at]) = (prices.BuyPerKwh[i], prices.SellPerKwh[i]);
        }
        // Hours that a clock change or the span's ends leave out are priced as the hour before.
        for (int h = 0; h < buy.Length; h++)
            if (double.IsNaN(buy[h])) (buy[h], sell[h]) = h > 0 ? (buy[h - 1], sell[h - 1]) : (prices.BuyPerKwh[0], prices.SellPerKwh[0]);
        return (buy, sell);
    }
}

/// <summary>What a plan may do.</summary>
public sealed record PlannerTerms
{
    /// <summary>Share of usable energy kept for outages, 0–1.</summary>
    public required double ReserveFraction { get; init; }

    /// <summary>True when the grid may charge the cells.</summary>
    public required bool ChargesFromGrid { get; init; }

    /// <summary>True when the cells may sell.</summary>
    public required bool SellsFromBattery { get; init; }
}
