using EnergySim.Studies.Outages;

namespace EnergySim.Cli;

/// <summary>Says the verdicts of "can it carry the house" in words; they do not stand for each other.</summary>
internal static class CarryWords
{
    public static IEnumerable<string> Of(OfferOutages offer)
    {
        CarryVerdicts verdicts = offer.Verdicts;
        yield return $"Can {offer.Name} carry what is kept?";
        yield return Power(verdicts.Power);
        yield return verdicts.Starting is StartingVerdict starting ? Starting(starting) : "  starting current: not asked; name the motors (cooling, pumps) under outage: motors.";
        yield return $"  energy: {Word(verdicts.Energy)}; in the outage below {(verdicts.Energy == Answer.Yes ? "nothing is left unserved for want of it" : "some is left unserved for want of it")}. "
            + $"Half the starts of the year last {OutageText.Hours(offer.OnEnergy, 0.5)} h on it, nine in ten {OutageText.Hours(offer.OnEnergy, 0.9)} h.";
        if (verdicts.Legs is LegVerdict legs)
            yield return OutageText.Say($"  each leg: {Word(legs.Carries)}; up to {legs.FirstKw:0.0} kW on one and {legs.SecondKw:0.0} kW on the other, {legs.PerLegKw:0.0} kW each (half the rating, common practice; ask the data sheet).");
    }

    private static string Power(PowerVerdict power)
    {
        string text = OutageText.Say($"  power: {Word(power.Carries)}; the kept load goes up to {power.PeakKw:0.0} kW ({OutageText.At(power.PeakAt)}), {power.ContinuousKw:0.0} kW are there");
        if (power.HoursAbove > 0) text += OutageText.Say($"; above it in {power.HoursAbove:#,0.#} h of the data");
        return text + (power.IsCoarse ? ". Peaks within an interval are not seen: data by the minute or the nameplates tell." : ".");
    }

    private static string Starting(StartingVerdict starting)
    {
        MotorStart worst = starting.Starts[0];
        if (worst.LockedRotorAmps is not double amps) return $"  starting current: unknown; nothing is known of {worst.Motor.Name}.";
        string text = OutageText.Say($"  starting current: {Word(starting.Across)}; {worst.Motor.Name} draws {amps:0.#} A for a moment on top of {worst.OthersAmps:0.#} A that run: {amps + worst.OthersAmps:0.#} A");
        text += starting.SurgeAmps is double surge ? OutageText.Say($" against {surge:0.#} A.") : "; the offer states no surge rating (surgeAmps), ask the data sheet.";
        if (starting.Across != Answer.Yes && !worst.Motor.HasSoftStarter && worst.SoftAmps is double soft)
            text += OutageText.Say($" With a soft starter: {soft + worst.OthersAmps:0.#} A{(starting.SurgeAmps is null ? "" : ", " + Word(starting.Soft))}.");
        return text;
    }

    private static string Word(Answer answer) => answer switch
    {
        Answer.Yes => "yes",
        Answer.No => "no",
        _ => "unknown",
    };
}
