using System.Globalization;
using EnergySim.Engine;
using EnergySim.Profiles;

namespace EnergySim.Studies.Outages;

/// <summary>What runs in an outage, as the engine takes it.</summary>
/// <param name="Always">What is on whatever is stored, kW.</param>
/// <param name="Sheddable">What is shed by stored energy.</param>
/// <param name="Notes">What was done to fit the parts, a sentence each.</param>
internal sealed record OutageLoads(Profile Always, IReadOnlyList<SheddableLoad> Sheddable, IReadOnlyList<string> Notes)
{
    // A part shed at a level comes on again so much of usable energy above it.
    private const double HysteresisFraction = 0.1;

    /// <summary>All that may run, kW.</summary>
    public Profile Everything
    {
        get
        {
            double[] kw = Always.Kw.ToArray();
            foreach (SheddableLoad part in Sheddable)
                for (int i = 0; i < kw.Length; i++) kw[i] += part.Load.Kw[i];
            return new Profile(Always.Axis, kw);
        }
    }

    public static OutageLoads Of(Profile house, KeptLoad kept)
    {
        double[] rest = kept.Base.HouseFraction is null ? kept.Base.Kw(house) : house.Kw.ToArray();
        double[][] parts = [.. kept.Parts.Select(p => p.Source.Kw(house))];
        var notes = new List<string>();
        if (kept.Base.HouseFraction is double share)
        {
            double lacking = 0;
            for (int i = 0; i < rest.Length; i++)
            {
                double asked = parts.Sum(p => p[i]);
                if (asked > rest[i])
                {
                    lacking += asked - rest[i];
                    foreach (double[] part in parts) part[i] *= rest[i] / asked;
                }
                rest[i] = share * Math.Max(0, rest[i] - asked);
            }
            double lackingKwh = lacking * house.Axis.StepHours;
            if (lackingKwh >= 0.05) notes.Add(string.Create(CultureInfo.InvariantCulture, $"The parts together were {lackingKwh:#,0.0} kWh more than the house used at the time; they were cut down to it."));
        }
        var sheddable = new List<SheddableLoad>();
        for (int p = 0; p < parts.Length; p++)
        {
            LoadPart part = kept.Parts[p];
            double[] kw = parts[p];
            for (int i = 0; i < kw.Length; i++) kw[i] *= part.KeptFraction;
            if (part.OffBelowFraction is double off && part.KeptFraction > 0)
                sheddable.Add(new SheddableLoad(part.Name, new Profile(house.Axis, kw), off, part.OnAboveFraction ?? Math.Min(1, off + HysteresisFraction)));
            else
                for (int i = 0; i < kw.Length; i++) rest[i] += kw[i];
        }
        return new OutageLoads(new Profile(house.Axis, rest), sheddable, notes);
    }
}
