using System.Globalization;

namespace EnergySim.Studies.Outages;

/// <summary>The sentences that belong under outage figures.</summary>
internal static class OutageNotes
{
    public static IReadOnlyList<string> Of(Home home, OutageTerms terms, IReadOnlyList<Installation> installations)
    {
        var notes = new List<string>();
        if (home.Note.Length > 0) notes.Add(home.Note);
        notes.Add(terms.StartCharge switch
        {
            StartCharge.Everyday => "Each outage starts with what the battery holds at that instant of its everyday run.",
            StartCharge.Full => "Each outage starts with a full battery, as after a storm seen coming: the best case, and optimistic for an outage without warning.",
            _ => "Each outage starts with the reserve and no more.",
        });
        notes.Add(string.Create(CultureInfo.InvariantCulture,
            $"Kept running: {terms.KeptFraction:0.#%} of the house's load. Sun: {terms.CloudFactor:0.#%} of the recorded. {(terms.ManagesLoad ? "Excess load is shed." : "Overload trips the inverter.")}"));
        notes.Add(string.Create(CultureInfo.InvariantCulture,
            $"Every one of the {home.Load.Axis.Count:N0} intervals is a start, walked for {terms.HorizonHours} h; past the last day the data go on at the first. What lasts that long is told as \"at least\"."));
        if (home.Load.Axis.StepMinutes >= 15)
            notes.Add(string.Create(CultureInfo.InvariantCulture,
                $"The data are means over {home.Load.Axis.StepMinutes} minutes: peaks within an interval and motor starts are not seen. Ask the nameplates whether the inverters start the motors."));
        notes.Add("One year of weather is one sample, and a typical year understates cloudy spells.");
        foreach (Installation one in installations.Where(i => TooLarge(i)))
            notes.Add(string.Create(CultureInfo.InvariantCulture,
                $"{one.Name}: the solar inverter's {one.Run.Plant.SeparateSolar.AcRatingKw:0.##} kW are more than the battery inverter and cells can take (1:1, common practice): off the grid it is counted as giving nothing."));
        notes.Add("Nobody should rely on this for medical equipment: keep a second supply and a plan with your clinician and utility. A generator belongs outdoors, away from openings, behind an interlock or transfer switch. "
            + "Panels and batteries stay live with the grid down: leave work on them to a licensed electrician. Local codes and the authority having jurisdiction decide.");
        return notes;
    }

    private static bool TooLarge(Installation one) =>
        one.Units > 0 && one.Run.SolarAc.EnergyKwh > 0 && one.Run.Plant.SeparateSolar.AcRatingKw is double rating
        && rating > Math.Min(one.Run.Plant.InverterKw, one.Run.Plant.ChargeLimitKw / one.Run.Plant.RectifierEfficiency);
}
