using EnergySim.Engine;
using EnergySim.Time;

namespace EnergySim.Studies.Outages;

/// <summary>Sums up the starts of an offer over all years of weather.</summary>
internal static class OfferSums
{
    /// <summary>How many of the worst starts are told.</summary>
    public const int WorstCount = 5;

    /// <summary>How long the house is served, over all starts of all years of weather.</summary>
    public static Survival Lasting(IReadOnlyList<StartOutcomes> outcomes) => new(outcomes.SelectMany(o => o.LastingIntervals), outcomes[0].Horizon, outcomes[0].StepHours);

    public static OfferOutages Of(IReadOnlyList<OutageCase> years, IReadOnlyList<StartOutcomes> outcomes, OutageTerms terms, SpellTold told)
    {
        TimeAxis axis = years[0].OffGrid.Axis;
        StartOutcomes own = outcomes[0];
        int count = axis.Count, all = count * outcomes.Count;
        Survival Of(IEnumerable<int> lasting) => new(lasting, own.Horizon, own.StepHours);
        // Keys by start, the same in each year of weather.
        int[] hours = [.. Enumerable.Range(0, count).Select(i => axis.LocalMinuteOf(i) / 60)];
        int[] months = [.. Enumerable.Range(0, count).Select(i => axis.LocalDateOf(i).Month)];
        ILookup<int, int> Grouped(Func<int, int> key) => outcomes.SelectMany(o => Enumerable.Range(0, count).Select(i => (Key: key(i), Lasting: o.LastingIntervals[i]))).ToLookup(p => p.Key, p => p.Lasting);
        ILookup<int, int> byHour = Grouped(i => hours[i]), bySeason = Grouped(i => months[i] % 12 / 3), byBoth = Grouped(i => ((months[i] - 1) * 24) + hours[i]);
        double? Half(ILookup<int, int> groups, int key) => groups.Contains(key) ? Of(groups[key]).HoursLastedBy(0.5) : null;
        string[] seasons = ["December–February", "March–May", "June–August", "September–November"];
        double unserved = outcomes.Sum(o => o.UnservedKwh.Sum());
        // Each interval of the year lies in as many walks as the horizon has intervals: so often its load is demanded.
        double demanded = years[0].Loads.Everything.EnergyKwh * own.Horizon * outcomes.Count;
        return new OfferOutages
        {
            Name = years[0].Offer.Name,
            BatteryUnits = years[0].Offer.Units,
            ByWeather = [.. years.Zip(outcomes, (y, o) => new WeatherOutcomes(y.Weather, o, Of(o.LastingIntervals)))],
            Any = Lasting(outcomes),
            OnEnergy = Of(outcomes.SelectMany(o => o.LastingOnEnergyIntervals)),
            BySeason = [.. Enumerable.Range(0, seasons.Length).Where(bySeason.Contains).Select(s => (seasons[s], Of(bySeason[s])))],
            HalfLastByHour = [.. Enumerable.Range(0, 24).Select(h => Half(byHour, h))],
            HalfLastByMonthAndHour = [.. Enumerable.Range(0, 12).Select(m => (IReadOnlyList<double?>)[.. Enumerable.Range(0, 24).Select(h => Half(byBoth, (m * 24) + h))])],
            Availability = demanded > 0 ? 1 - (unserved / demanded) : null,
            MeanUnservedKwh = unserved / all,
            MeanDarkHours = outcomes.Average(o => o.DarkIntervals.Average()) * own.StepHours,
            Worst = [.. WorstStarts.OnePerDay(axis, outcomes, WorstCount).Select(w => new WorstStart(
                axis.OffsetStartOf(w.Index).LocalDateTime, outcomes[w.Year].LastingIntervals[w.Index] * own.StepHours, years[w.Year].StartKwh[w.Index],
                outcomes[w.Year].UnservedKwh[w.Index], years[w.Year].Weather))],
            Carried = terms.Durations is OutageDurations durations
                ? [.. durations.Kinds.Select(k => (k, OutageDurations.CarriedFraction(k, outcomes.SelectMany(o => o.LastingIntervals).Select(n => n * own.StepHours))))]
                : [],
            Named = told.Named,
            Changes = told.Changes,
            Verdicts = told.Verdicts,
        };
    }
}

/// <summary>What is told of an offer in the one outage.</summary>
internal sealed record SpellTold(NamedOutage Named, IReadOnlyList<CarryingChange> Changes, CarryVerdicts Verdicts);
