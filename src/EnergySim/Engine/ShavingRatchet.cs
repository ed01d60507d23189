using EnergySim.Strategies;
using EnergySim.Time;

namespace EnergySim.Engine;

/// <summary>
/// Compiles demand shaving whose level ratchets: once a mean of the bill was above it, that demand is paid for and the level rises to it; a new bill begins at
/// the stated level again. Whether the level was held depends on what the cells had left, so the run is walked along, interval by interval; nothing ahead
/// is looked at. Common practice.
/// </summary>
public static class ShavingRatchet
{
    /// <summary>Compiles.</summary>
    /// <param name="strategy">A demand-shaving strategy that ratchets.</param>
    /// <param name="clock">Its windows on the axis.</param>
    /// <param name="like">The plant, its wiring and its series; its set-points are not asked. Walked from the reserve up.</param>
    /// <param name="watch">Bills, and the intervals in which demand counts.</param>
    /// <exception cref="ArgumentException">The strategy does not ratchet, has a rule that asks the past or prices, or the clock was laid for other windows.</exception>
    public static SetPoints Compile(Strategy strategy, StrategyClock clock, Run like, DemandWatch watch)
    {
        ArgumentNullException.ThrowIfNull(strategy);
        ArgumentNullException.ThrowIfNull(like);
        ArgumentNullException.ThrowIfNull(watch);
        if (!strategy.Ratchets || strategy.Base != Steering.DemandShaving || strategy.AsksFacts) throw new ArgumentException("Only demand shaving by itself ratchets.", nameof(strategy));
        RowRules rules = strategy.RulesFor(like.Plant, clock);
        var rows = new List<SetPointRow>();
        var index = new Dictionary<(Situation, double), int>();
        var picks = new int[like.Axis.Count];
        var walk = new Walk(like, rules.ReserveKwh);
        double level = strategy.ShaveToKw, sumKw = 0;
        int count = 0, bill = -1;
        for (int i = 0; i < picks.Length; i++)
        {
            if (watch.BillOf[i] != bill) (bill, level) = (watch.BillOf[i], strategy.ShaveToKw);
            Situation now = clock.SituationAt(i) | (watch.Counts[i] ? Situation.None : Situation.Slack);
            if (!index.TryGetValue((now, level), out int pick))
            {
                pick = rows.Count;
                index.Add((now, level), pick);
                rows.Add(rules.Of(now, rules.Plain with { ShaveToKw = level }));
            }
            picks[i] = pick;
            double importKw = walk.Import(i, rows[pick]);
            (sumKw, count) = watch.Begins[i] ? (importKw, 1) : (sumKw + importKw, count + 1);
            bool ends = i + 1 == picks.Length || watch.Begins[i + 1];
            if (ends && watch.Counts[i]) level = Math.Max(level, sumKw / count);
        }
        return new SetPoints(rows, picks);
    }

    private sealed class Walk(Run like, double startKwh)
    {
        private readonly StepConstants<Scalar> _constants = new(like.Plant, like.Site, like.Axis.StepHours, offGrid: false);
        private readonly SeriesInput _input = new(like.Load.Array, like.SolarDc.Array, like.SolarAc.Array);
        private readonly MeterColumns _meter = new(like.Axis.Count);
        private Scalar _stored = new(startKwh);

        public double Import(int i, SetPointRow wanted)
        {
            var row = new StepRow<Scalar>(wanted, like.Plant);
            var book = new MeterBook(_meter, i);
            GridUp<Scalar> grid = default;
            Step.Walk(in _constants, in row, in _input, i, i + 1, ref grid, ref _stored, ref book);
            return _meter.ImportKw[i];
        }
    }
}
