using System.Globalization;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.Wiring;

namespace EnergySim.Studies.WiringFit;

/// <summary>The sentences that belong under wiring figures.</summary>
internal static class WiringNotes
{
    public static IReadOnlyList<string> Of(Home home, WiringPlan plan)
    {
        var notes = new List<string>();
        if (home.Note.Length > 0) notes.Add(home.Note);
        notes.Add(string.Create(CultureInfo.InvariantCulture,
            $"Rules are those of the {plan.Edition.Year} edition of the National Electrical Code{(plan.EditionIsStated ? ", as stated for this place" : "; which edition is adopted here was not stated")}. {WiringComparison.ToBeConfirmed}"));
        if (Enum.GetValues<WiringRule>().Any(plan.Edition.IsFromMemory))
            notes.Add("Sections marked * are from memory: look them up before they are quoted.");
        notes.Add(string.Create(CultureInfo.InvariantCulture,
            $"Cost over {plan.Years} years is price + {plan.Years} × the bills of the span, at today's prices: no price growth, wear or interest."));
        bool work = home.Solar is not null && (plan.ReplaceWorkPrice is null || plan.SplitWorkPrice is null);
        if (work || plan.Ways.SelectMany(w => w.CostsOrPlaceholders).Any(c => c.IsPlaceholder))
            notes.Add("Prices of work marked ~ are placeholders of this program, not offers: put the electrician's own in their place.");
        notes.Add("What a limit costs is the bill with it minus the bill of the same run without it; several may bind at once, so they do not add up.");
        notes.Add("A power control system acts within seconds (at most 30 s by its listing); the data are means over minutes and cannot show that. Set it down or off on loss of its sensors.");
        notes.Add("While the house buys, a guarded busbar carries the whole load whatever the battery gives: the guard then can but switch output off.");
        if (plan.Ways.Any(w => w.Keeps == KeptRunning.KeptCircuits))
            notes.Add(string.Create(CultureInfo.InvariantCulture, $"Kept circuits are taken as {plan.KeptFraction:0.#%} of the house's load in every interval."));
        if (plan.Ways.Any(w => w.Keeps == KeptRunning.WholeHomeAtMeter)) notes.Add("Isolation at the meter socket needs the utility's consent; ask before it is offered.");
        if (plan.Ways.Any(w => w.Connects == ConnectionKind.GuardedFeeder)) notes.Add("A guarded feeder is taken to carry a fixed share of the house's load; solar is counted onto it, the cautious way.");
        if (home.Agreement is not null)
            notes.Add("How far a system may grow under an old agreement is practised differently (10 % or 1 kW, the lesser or the greater of them): ask the utility in writing. Export is held at the authorised kW.");
        if (home.Agreement is { StorageRule: IntegrityRule.None } && home.Tariff.Versions.Any(v => v.Export is ExportTerms.RetailNetting))
            notes.Add("Under retail netting a battery most often must either charge only from solar or never export (common practice); the agreement states neither.");
        notes.Add("Service conductors and busbars stay live with the main open: work on them is for licensed electricians, with the utility's disconnection where it is needed.");
        return notes;
    }
}
