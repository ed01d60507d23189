using EnergySim.Equipment;

namespace EnergySim.Strategies;

/// <summary>
/// Makes the set-point row of an interval: the base row, then overnight charging, selling, events, storms and the integrity rule, each over what stands.
/// </summary>
internal sealed class RowRules(Strategy strategy, Plant plant)
{
    private const double Never = double.PositiveInfinity, Hold = double.PositiveInfinity;

    /// <summary>Energy at the reserve, kWh.</summary>
    public double ReserveKwh { get; } = LevelOf(plant, strategy.ReserveFraction);

    /// <summary>The levels where no rule looks at the past, at prices or at the meter.</summary>
    public HourLevels Plain => new(0, LevelOf(plant, strategy.Overnight?.ToFraction ?? 0), Never, strategy.ShaveToKw);

    public SetPointRow Of(Situation now, in HourLevels at)
    {
        double full = plant.HighestKwh, refill = strategy.RefillFraction > 0 ? Level(strategy.RefillFraction) : 0;
        SetPointRow row = strategy.Base switch
        {
            Steering.Hold => new(full, full, 0, Hold, Never),
            Steering.SelfUse => new(ReserveKwh, full, 0, 0, Never),
            Steering.PeakWindow => new(Math.Min(full, ReserveKwh + at.KeptKwh), full, 0, now.HasFlag(Situation.Peak) ? 0 : Hold, Never),
            _ => new(ReserveKwh, full, refill, now.HasFlag(Situation.Slack) ? Hold : at.ShaveToKw, Never),
        };
        if (now.HasFlag(Situation.Night)) row = row with { GridCeilingKwh = at.NightKwh, ImportTargetKw = Hold };
        if (now.HasFlag(Situation.Sale)) row = Selling(row, Level(strategy.Sale!.DownToFraction));
        if (!double.IsInfinity(at.SellDownKwh)) row = SellingByPrice(row, at.SellDownKwh);
        if (now.HasFlag(Situation.EventAhead))
            row = row with { GridCeilingKwh = Math.Max(row.GridCeilingKwh, Level(strategy.Events!.ToFraction)), ImportTargetKw = Hold, SellDownKwh = Never, SolarCeilingKwh = full };
        if (now.HasFlag(Situation.Event)) row = row with { FloorKwh = ReserveKwh, GridCeilingKwh = 0, ImportTargetKw = 0 };
        if (now.HasFlag(Situation.Storm))
        {
            double level = Level(strategy.Storm!.ToFraction);
            row = new(level, full, level, Hold, Never);
        }
        if (strategy.Integrity == IntegrityRule.SolarOnly) row = row with { GridCeilingKwh = 0 };
        if (strategy.Integrity == IntegrityRule.NeverExports) row = row with { SellDownKwh = Never };
        return row;
    }

    private static SetPointRow Selling(SetPointRow row, double down) =>
        row with { SellDownKwh = down, SolarCeilingKwh = Math.Min(row.SolarCeilingKwh, down) };

    // A house that buys is served first; where the base would not serve it, only with what may be sold.
    private static SetPointRow SellingByPrice(SetPointRow row, double down) => Selling(row, down) with
    {
        GridCeilingKwh = 0,
        FloorKwh = double.IsInfinity(row.ImportTargetKw) ? Math.Max(row.FloorKwh, down) : row.FloorKwh,
        ImportTargetKw = 0,
    };

    private double Level(double share) => LevelOf(plant, share);

    private static double LevelOf(Plant plant, double share) => plant.LowestKwh + (share * plant.UsableKwh);
}
