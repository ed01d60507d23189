using static System.FormattableString;

namespace EnergySim.Wiring;

/// <summary>
/// What codes and practice ask of a supply that carries a home off the grid. Jurisdictions differ: both answers are given, and neither decides
/// whether a way may be.
/// </summary>
public static class BackupRules
{
    /// <summary>Asks a supply of the loads it is to carry.</summary>
    /// <param name="supplyKw">Most continuous power off the grid, kW (taken as kVA).</param>
    /// <param name="plan">Loads and edition.</param>
    public static IReadOnlyList<Verdict> Ask(double supplyKw, WiringPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        CodeEdition edition = plan.Edition;
        double supplyVa = 1000 * supplyKw;
        var verdicts = new List<Verdict>();
        if (plan.Loads is DwellingLoads loads)
        {
            verdicts.Add(Verdict.Of(
                edition, WiringRule.LargestLoad, loads.LargestVa, supplyVa, Invariant($"largest single load {loads.LargestVa:#,0} VA {Sign(loads.LargestVa, supplyVa)} {supplyVa:#,0} VA supply")));
            double full = LoadCalculations.Optional(loads, edition).Va;
            Verdict whole = Verdict.Of(edition, WiringRule.FullLoad, full, supplyVa, Invariant($"calculated load {full:#,0} VA {Sign(full, supplyVa)} {supplyVa:#,0} VA supply"));
            verdicts.Add(whole.Standing == Standing.Beyond ? whole with { Arithmetic = whole.Arithmetic + "; automatic transfer then asks for managed loads" } : whole);
        }
        else
        {
            verdicts.Add(Verdict.Missing(edition, WiringRule.LargestLoad, "the dwelling's loads are not stated"));
            verdicts.Add(Verdict.Missing(edition, WiringRule.FullLoad, "the dwelling's loads are not stated"));
        }
        if (plan.LargestLegKw is double leg)
        {
            // Each leg of a split-phase inverter carries half of its rating (common practice).
            double half = supplyKw / 2;
            verdicts.Add(new Verdict(
                WiringRule.Leg, null, leg <= half ? Standing.Within : Standing.Beyond, Invariant($"heavier leg {leg:0.##} kW {Sign(leg, half)} {supplyKw:0.##} kW ÷ 2 = {half:0.##} kW")));
        }
        else
        {
            verdicts.Add(new Verdict(WiringRule.Leg, null, Standing.Unknown, "the load of each leg is not stated"));
        }
        return verdicts;
    }

    private static string Sign(double left, double right) => left <= right ? "≤" : ">";
}
