using System.Globalization;
using EnergySim.Engine;

namespace EnergySim.Studies.Outages;

/// <summary>The sentences that belong under outage figures.</summary>
internal static class OutageNotes
{
    public static IReadOnlyList<string> Of(Home home, OutageTerms terms, IReadOnlyList<OutageCase> cases)
    {
        var notes = new List<string>();
        if (home.Note.Length > 0) notes.Add(home.Note);
        notes.Add(terms.StartCharge switch
        {
            StartCharge.Everyday => "Each outage starts with what the battery holds at that instant of its everyday run.",
            StartCharge.Full => "Each outage starts with a full battery: the best case, and optimistic for an outage without warning.",
            StartCharge.Storm => Text($"Each outage starts with what the battery holds after {terms.StormLeadHours:0.##} h with all of it as reserve, filled from the grid where the agreement lets it: a storm seen coming, and optimistic for an outage without warning."),
            _ => "Each outage starts with the reserve and no more.",
        });
        notes.Add(Kept(terms));
        notes.AddRange(cases[0].Loads.Notes);
        notes.Add(Text($"Sun: {terms.CloudFactor:0.# %} of the {(terms.SolarInOutage is null ? "recorded" : terms.SpellName is string spell ? $"recorded, with a cloudy spell laid in it ({spell})" : "solar stated for the outage")}{ByDay(terms)}. ")
            + (terms.ManagesLoad ? "Load above what the inverters give is shed." : "Overload trips the inverter.") + Restarts(terms.Rules));
        if (terms.Rules.Generator is Generator g)
            notes.Add(Text($"Generator: {g.Kw:0.##} kW, from below {g.StartBelowFraction:0.# %} or dark, to {g.StopAboveFraction:0.# %}; fuel for {(double.IsInfinity(g.FuelKwh) ? "as long as it takes" : Text($"{g.FuelKwh:0.#} kWh"))}; a separate solar inverter {(g.RunsBesideSeparateSolar ? "runs beside it" : "is locked out meanwhile")}."));
        string years = terms.WeatherYears.Count > 0 ? Text($" of each of {terms.WeatherYears.Count + 1} years of weather (the home's own, {string.Join(", ", terms.WeatherYears.Select(w => w.Name))})") : "";
        notes.Add(Text($"Every one of the {home.Load.Axis.Count:N0} intervals{years} is a start, walked for {terms.HorizonHours} h; past the last day the data go on at the first. What lasts that long is told as \"at least\"."));
        if (home.Load.Axis.StepMinutes >= 15)
            notes.Add(Text($"The data are means over {home.Load.Axis.StepMinutes} minutes: peaks within an interval and motor starts are not seen. Ask the nameplates whether the inverters start the motors."));
        notes.Add(terms.IsTypicalYear == true
            ? "The solar is that of a typical year, stitched together from months of several years: cloudy spells may be understated."
            : terms.WeatherYears.Count > 0 ? "A few years of weather are a small sample of spells." : "One year of weather is one sample; if it is a typical year, cloudy spells may be understated.");
        foreach (OutageCase one in cases.Where(TooLarge))
            notes.Add(Text($"{one.Offer.Name}: the solar inverter's {one.OffGrid.Plant.SeparateSolar.AcRatingKw:0.##} kW are more than the battery inverter and cells can take (1:1, common practice): off the grid it is counted as giving nothing."));
        if (terms.Durations is OutageDurations durations)
            notes.Add($"Lengths of outages: {durations.Source}; taken as exponentially distributed. A mean over many customers hides the longest.");
        notes.AddRange(Cautions(terms));
        return notes;
    }

    private static string Kept(OutageTerms terms)
    {
        LoadSource kept = terms.Kept.Base;
        string text = "Kept running: " + (kept.HouseFraction is double share ? Text($"{share:0.# %} of the {(terms.Kept.Parts.Count > 0 ? "rest of the house" : "house's load")}")
            : kept.Profile is not null ? "a profile of kept circuits"
            : "a list (" + string.Join(", ", kept.Appliances.Select(a => Text($"{a.Name} {a.Watts:0} W"))) + ")");
        foreach (LoadPart part in terms.Kept.Parts)
            text += Text($"; {part.Name} ") + (part.KeptFraction == 0 ? "off" : Text($"at {part.KeptFraction:0.# %}"))
                + (part.OffBelowFraction is double off ? Text($", shed below {off:0.# %} stored") : "");
        return text + ". What was off is not made up for afterwards" + (terms.Kept.Parts.Any(p => p.OffBelowFraction is not null) ? ", and what is shed by rule does not count as unserved." : ".");
    }

    private static string ByDay(OutageTerms terms) => terms.CloudFactorByDay.Count == 0 ? ""
        : $", and in the outage told in detail on its days {string.Join(", ", terms.CloudFactorByDay.Select(f => Text($"{f:0.# %}")))} of that";

    private static string Restarts(OutageRules rules)
    {
        string text = rules.HeldBackFraction > 0 ? Text($" {rules.HeldBackFraction:0.# %} of the energy is held back for restarts{(rules.TriesWithSun ? ", also to form the grid for the solar inverter" : "")}.") : "";
        if (!rules.RestartsAfterTrip || !rules.RestartsAfterEmpty)
            text += $" Somebody must restart it after {(rules.RestartsAfterEmpty ? "a trip" : rules.RestartsAfterTrip ? "running empty" : "a trip or running empty")}: "
                + (rules.ByHandAfterHours is double hours ? Text($"after {hours:0.##} h.") : "not within the outage.");
        return text;
    }

    private static IEnumerable<string> Cautions(OutageTerms terms)
    {
        yield return "Nobody should rely on this for medical equipment: keep a second supply and a plan with your clinician and utility.";
        yield return (terms.Rules.Generator is null ? "" : "Generator exhaust kills: run it ")
            + (terms.Rules.Generator is null ? "A generator belongs outdoors" : "outdoors") + ", away from openings, and behind an interlock or transfer switch, never back-fed.";
        yield return "Panels, batteries and the solar conductors stay live with the grid down: leave work on them to a licensed electrician. What may be backed up and how is for local codes and the authority having jurisdiction.";
    }

    private static bool TooLarge(OutageCase one) =>
        one.OffGrid.SolarAc.EnergyKwh > 0 && one.OffGrid.Plant.SeparateSolar.AcRatingKw is double rating
        && rating > Math.Min(one.OffGrid.Plant.InverterKw, one.OffGrid.Plant.ChargeLimitKw / one.OffGrid.Plant.RectifierEfficiency);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
