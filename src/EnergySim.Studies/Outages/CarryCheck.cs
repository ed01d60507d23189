using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;

namespace EnergySim.Studies.Outages;

/// <summary>Works out <see cref="CarryVerdicts"/>.</summary>
internal static class CarryCheck
{
    // From this length on peaks within an interval are out of sight; longer ones do not tell whether the house can be carried (common practice).
    private const int CoarseMinutes = 15;

    public static CarryVerdicts Of(OutageCase one, OutageTerms terms, double serviceVolts, UnservedByCause named)
    {
        Profile load = one.Loads.Everything;
        int peak = 0;
        for (int i = 1; i < load.Kw.Length; i++)
            if (load.Kw[i] > load.Kw[peak]) peak = i;
        Plant plant = one.OffGrid.Plant;
        double peakKw = load.Kw[peak] + plant.StandbyKw;
        double continuousKw = Math.Min(Math.Min(plant.InverterKw, plant.DischargeLimitKw * plant.InverterEfficiency), one.OffGrid.Site.InverterBreakerKw);
        int above = 0;
        foreach (double kw in load.Kw)
            if (kw + plant.StandbyKw > continuousKw + Tolerance) above++;
        return new CarryVerdicts
        {
            Power = new PowerVerdict(
                above > 0 ? Answer.No : load.Axis.StepMinutes > CoarseMinutes ? Answer.Unknown : Answer.Yes, peakKw, load.Axis.OffsetStartOf(peak).LocalDateTime, continuousKw,
                above * load.Axis.StepHours, load.Axis.StepMinutes >= CoarseMinutes),
            Starting = terms.Motors.Count == 0 ? null : Starting(terms.Motors, one.Offer, peakKw, serviceVolts),
            Energy = named.Energy > Tolerance ? Answer.No : Answer.Yes,
            Legs = terms.Legs is LegShares legs ? LegsOf(legs, peakKw, plant.InverterKw) : null,
        };
    }

    private const double Tolerance = 1e-9;

    /// <summary>The start of each motor on top of what else runs at the peak, its own running amps taken off.</summary>
    internal static StartingVerdict Starting(IReadOnlyList<Motor> motors, Offer offer, double peakKw, double serviceVolts)
    {
        double peakAmps = peakKw * 1000 / serviceVolts;
        MotorStart[] starts =
        [
            .. motors.Select(m => new MotorStart(m, m.HasSoftStarter ? m.SoftStartAmps : m.LockedRotorAmps, m.SoftStartAmps, Math.Max(0, peakAmps - (m.RunningAmps ?? 0))))
                .OrderByDescending(s => (s.LockedRotorAmps ?? double.PositiveInfinity) + s.OthersAmps),
        ];
        double? surge = offer.Battery.SurgeAmps * offer.Units;
        Answer Carries(Func<MotorStart, double?> amps)
        {
            if (surge is not double limit) return Answer.Unknown;
            if (starts.Any(s => amps(s) + s.OthersAmps > limit + Tolerance)) return Answer.No;
            return starts.All(s => amps(s) is not null) ? Answer.Yes : Answer.Unknown;
        }
        return new StartingVerdict(Carries(s => s.LockedRotorAmps), Carries(s => s.SoftAmps), surge, starts);
    }

    /// <summary>What lies between the legs loads both alike.</summary>
    internal static LegVerdict LegsOf(LegShares legs, double peakKw, double inverterKw)
    {
        double between = (1 - legs.First - legs.Second) / 2, perLeg = inverterKw / 2;
        double first = peakKw * (legs.First + between), second = peakKw * (legs.Second + between);
        return new LegVerdict(Math.Max(first, second) <= perLeg + Tolerance ? Answer.Yes : Answer.No, first, second, perLeg);
    }
}
