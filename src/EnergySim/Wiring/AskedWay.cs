using static System.FormattableString;

namespace EnergySim.Wiring;

/// <summary>A way asked of a plan with sources and the breaker wanted, A: what all kinds of connection share.</summary>
internal sealed record AskedWay(WayToConnect Way, WiringPlan Plan, SourceCurrents Sources, double WantedAmps)
{
    public bool HasSolar => Sources.SolarAmps > 0;

    public double OutputBehind(double breakerAmps) => Math.Min(Sources.BatteryAmps, SiteLimits.ContinuousShare * breakerAmps);

    public double Setting(double ratedAmps)
    {
        double setting = Way.SettingAmps ?? (SiteLimits.ContinuousShare * ratedAmps);
        if (setting <= 0 || setting > ratedAmps)
            throw new ArgumentException(Invariant($"{Way.Name}: a setting of {setting:0.##} A; it lies above 0 and at most at the rating of {ratedAmps:0.##} A."));
        return setting;
    }

    public Feeder FeederNamed() => Plan.Panel.Feeders.FirstOrDefault(f => f.Name == Way.Feeder)
        ?? throw new ArgumentException($"{Way.Name}: there is no feeder called {Way.Feeder}.");

    public WayFit Fit(Standing standing, string why, IReadOnlyList<Verdict> verdicts) =>
        new() { Way = Way, Standing = standing, Why = why, Verdicts = verdicts, BreakerAmps = 0, OutputAmps = 0, MainAmps = Plan.Panel.MainAmps };

    // With the breaker that was asked for.
    public WayFit Full(Standing standing, string why, IReadOnlyList<Verdict> verdicts)
    {
        double output = OutputBehind(WantedAmps);
        return Fit(standing, why, verdicts) with { BreakerAmps = WantedAmps, OutputAmps = output, IsSetDown = output < Sources.BatteryAmps };
    }
}
