namespace EnergySim.Bound.Tests;

/// <summary>
/// The slow obvious way to the cheapest operation: every level of a grid of stored energy in every hour. It shares no code with the bound: where
/// loads, solar and limits are whole numbers and the only loss halves, the cheapest operation lies on the grid.
/// </summary>
internal static class DynamicProgramme
{
    public static double LeastCost(SmallCase day, double startKwh, double grainKwh)
    {
        int levels = (int)Math.Round(day.Plant.HighestKwh / grainKwh) + 1, start = (int)Math.Round(startKwh / grainKwh);
        double[] cost = [.. Enumerable.Repeat(double.PositiveInfinity, levels)];
        cost[start] = 0;
        for (int i = 0; i < day.LoadKw.Length; i++)
        {
            double[] next = [.. Enumerable.Repeat(double.PositiveInfinity, levels)];
            for (int from = 0; from < levels; from++)
                for (int to = 0; to < levels && cost[from] < double.PositiveInfinity; to++)
                {
                    double change = (to - from) * grainKwh;
                    double acKw = change > 0
                        ? change / (day.Plant.ChargeEfficiency * day.Plant.RectifierEfficiency)
                        : change * day.Plant.DischargeEfficiency * day.Plant.InverterEfficiency;
                    double cellsKw = change > 0 ? change / day.Plant.ChargeEfficiency : change * day.Plant.DischargeEfficiency;
                    if (cellsKw > day.Plant.ChargeLimitKw + 1e-9 || -cellsKw > day.Plant.DischargeLimitKw + 1e-9 || Math.Abs(acKw) > day.Plant.InverterKw + 1e-9) continue;
                    double net = day.LoadKw[i] - day.SolarKw[i] + acKw;
                    double paid = net > 0 ? net * (double)day.BuyPerKwh[i % 24] : net * (double)day.SellPerKwh[i % 24];
                    next[to] = Math.Min(next[to], cost[from] + paid);
                }
            cost = next;
        }
        return cost.Skip(start).Min() + day.Fixed;
    }
}
