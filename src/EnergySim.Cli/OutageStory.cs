using EnergySim.Engine;
using EnergySim.Studies.Outages;

namespace EnergySim.Cli;

/// <summary>Tells one outage in plain words: what happened, why, and what one change would have carried it.</summary>
internal static class OutageStory
{
    // So many turns are told; a longer outage repeats itself.
    private const int MostEvents = 12;

    public static IEnumerable<string> Of(OfferOutages offer)
    {
        NamedOutage spell = offer.Named;
        string weather = spell.Weather.Length > 0 ? $", weather of {spell.Weather}" : "";
        yield return OutageText.Say($"{offer.Name}: the grid fails on {OutageText.At(spell.At)} for {spell.Hours:0} h{weather}, {spell.StartKwh:0.0} of {spell.HighestKwh:0.#} kWh stored.");
        foreach (SpellEvent one in spell.Events.Take(MostEvents))
            yield return OutageText.Say($"  {OutageText.At(one.At)}  hour {one.Hour,6:0.00}  {Happens(one)}");
        if (spell.Events.Count > MostEvents) yield return OutageText.Say($"  … and {spell.Events.Count - MostEvents} turns more.");
        yield return "  " + Outcome(spell);
        if (Recovery(spell) is string recovery) yield return "  " + recovery;
        if (spell.HoursLeftWithoutSun[0] is double hours) yield return OutageText.Say($"  Without any sun it would last {hours:0.##} h. Sun not used: {spell.CurtailedKwh:0.0} kWh.");
        double generatorKwh = spell.Ledger.Sums.Kwh(LedgerColumn.ImportKw), shedKwh = spell.Ledger.Sums.ShedKwh;
        if (generatorKwh > 0) yield return OutageText.Say($"  The generator gave {generatorKwh:0.0} kWh.");
        if (shedKwh > 0) yield return OutageText.Say($"  Shed by rule, and not asked for: {shedKwh:0.0} kWh.");
        if (offer.Changes.Count > 0) yield return "  " + Change(offer.Changes);
    }

    private static string Happens(SpellEvent one) => one.Kind switch
    {
        SpellEventKind.Full => "the battery is full",
        SpellEventKind.Overloaded => OutageText.Say($"the house asks for more power than there is; some of it is shed ({one.StoredKwh:0.0} kWh stored)"),
        SpellEventKind.Empty => OutageText.Say($"the battery is empty ({one.StoredKwh:0.0} kWh at the hour): the house goes dark"),
        SpellEventKind.Tripped => OutageText.Say($"overload trips the inverter, with {one.StoredKwh:0.0} kWh stored: the house is dark"),
        SpellEventKind.ServedAgain => OutageText.Say($"the house is served again, {one.StoredKwh:0.0} kWh stored"),
        SpellEventKind.GeneratorStarts => OutageText.Say($"the generator starts, {one.StoredKwh:0.0} kWh stored"),
        _ => OutageText.Say($"the generator stops, {one.StoredKwh:0.0} kWh stored"),
    };

    private static string Outcome(NamedOutage spell)
    {
        if (spell.FirstUnservedHours is not double first) return "The house is served throughout.";
        UnservedByCause unserved = spell.Ledger.Sums.UnservedKwh;
        (double Kwh, string Why)[] causes =
        [
            (unserved.Energy, "want of energy"), (unserved.DischargeRate, "the cells' most power out"), (unserved.Inverter, "the inverter's rating"),
            (unserved.InverterBreaker, "the inverter's breaker"), (unserved.Busbar, "the busbar guard"), (unserved.Trip, "a tripped inverter"),
        ];
        string listed = string.Join(", ", causes.Where(c => c.Kwh >= 0.005).Select(c => OutageText.Say($"{c.Kwh:0.0} kWh for {c.Why}")));
        return OutageText.Say($"Load is first left unserved after {first:0.##} h. Unserved: {listed}.");
    }

    private static string? Recovery(NamedOutage spell)
    {
        if (spell.FirstDarkHours is not double) return null;
        if (spell.RecoversHours is double back) return OutageText.Say($"It first serves the whole house again at hour {back:0.##}.");
        if (spell.Ledger.Sums.BoundHours(Limit.OneToOne) > 0)
            return "It does not recover within the outage: the solar inverter is too large for this battery (1:1) and is left off. More battery inverter, a generator, or solar on the battery's own inputs would help.";
        bool hasDc = spell.Ledger.Sums.Kwh(LedgerColumn.SolarDcKw) > 0, hasAc = spell.Ledger.Sums.Kwh(LedgerColumn.SolarAcKw) > 0;
        return hasAc && !hasDc
            ? "It does not recover within the outage: an empty battery forms no grid, and a separate solar inverter cannot start without one. Energy held back for a restart, a generator, or solar on the battery's own inputs would."
            : "It does not recover within the outage.";
    }

    private static string Change(IReadOnlyList<CarryingChange> changes)
    {
        CarryingChange? first = changes.FirstOrDefault(c => c.Carries);
        string others = string.Join("; ", changes.Where(c => !ReferenceEquals(c, first)).Select(c => c.Change + (c.Carries ? ": would too" : OutageText.Say($": unserved after {c.FirstUnservedHours:0.##} h"))));
        string tried = others.Length > 0 ? $" Also tried: {others}." : "";
        return first is null ? $"No one change of those tried would have carried it: {others}." : $"One change would have carried it: {first.Change}.{tried}";
    }
}
