using EnergySim.Engine;
using EnergySim.Profiles;
using EnergySim.Tariffs;
using NodaTime;

namespace EnergySim.Studies.Outages;

/// <summary>Works out an <see cref="OutageResult"/>: each offer in an outage from every start, and one outage in detail.</summary>
public static class OutageStudy
{
    /// <summary>How many of the worst starts are told.</summary>
    public const int WorstCount = 5;

    private const int NightEndMinute = 6 * 60;

    /// <summary>Asks what outages do to a home's offers.</summary>
    /// <param name="home">The home.</param>
    /// <param name="terms">What is asked.</param>
    /// <exception cref="ArgumentException">A term is out of range, the named start is not in the data, or an offer cannot be run.</exception>
    public static OutageResult Of(Home home, OutageTerms terms)
    {
        ArgumentNullException.ThrowIfNull(home);
        ArgumentNullException.ThrowIfNull(terms);
        terms.Validate();
        if (home.Offers.Count == 0) throw new ArgumentException("The home has no offer.", nameof(home));
        var calendar = new TariffCalendar(home.Tariff, home.Load.Axis, home.Account);
        IReadOnlyList<Installation> installations = Installation.Of(home, calendar);
        int horizon = terms.HorizonHours * 60 / home.Load.Axis.StepMinutes;
        var offers = new List<OfferOutages>();
        int? named = terms.NamedStart is LocalDateTime at ? StartIndex.Of(home.Load.Axis, at) : null;
        for (int i = 0; i < home.Offers.Count; i++)
        {
            Run everyday = installations[i + 1].Run;
            Run offGrid = OffGrid(everyday, terms);
            double[] startKwh = StartEnergies(everyday, home.Offers[i], terms.StartCharge);
            StartOutcomes outcomes = new EveryStart(offGrid, horizon).Walk(startKwh);
            // The worst start of the first offer is told for all offers, so that they can be laid side by side.
            named ??= WorstStarts.Of(outcomes)[0];
            offers.Add(Told(home.Offers[i].Name, offGrid, startKwh, outcomes, NamedSpell.Of(offGrid, startKwh[named.Value], named.Value, terms)));
        }
        return new OutageResult
        {
            Home = home.Name,
            Terms = terms,
            Offers = offers,
            Pairs = [.. offers.Skip(1).Select(second => Paired(home.Load, offers[0], second))],
            Notes = OutageNotes.Of(home, terms, installations),
        };
    }

    private static Run OffGrid(Run everyday, OutageTerms terms)
    {
        Profile Sun(Profile whole) => terms.CloudFactor == 1 ? whole : whole.Map(kw => kw * terms.CloudFactor);
        Profile load = terms.KeptFraction == 1 ? everyday.Load : everyday.Load.Map(kw => kw * terms.KeptFraction);
        return new Run(
            load, Sun(everyday.SolarDc), Sun(everyday.SolarAc), everyday.Plant, everyday.Site with { ManagesLoad = terms.ManagesLoad }, null, null, offGrid: true);
    }

    private static double[] StartEnergies(Run everyday, Offer offer, StartCharge charge)
    {
        var energies = new double[everyday.Axis.Count];
        if (charge == StartCharge.Everyday)
        {
            Ledger ledger = everyday.Ledger();
            energies[0] = ledger.Sums.StartKwh;
            ledger[LedgerColumn.StoredKwh][..^1].CopyTo(energies.AsSpan(1));
            return energies;
        }
        double share = charge == StartCharge.Full ? 1 : offer.Strategy.ReserveFraction;
        Array.Fill(energies, everyday.Plant.LowestKwh + (share * everyday.Plant.UsableKwh));
        return energies;
    }

    private static OfferOutages Told(string name, Run offGrid, double[] startKwh, StartOutcomes outcomes, NamedOutage named)
    {
        Time.TimeAxis axis = offGrid.Axis;
        Survival Of(IEnumerable<int> lasting) => new(lasting, outcomes.Horizon, outcomes.StepHours);
        int[] lasting = outcomes.LastingIntervals;
        var bySeason = new List<(string, Survival)>();
        string[] seasons = ["December–February", "March–May", "June–August", "September–November"];
        for (int s = 0; s < seasons.Length; s++)
        {
            int[] those = [.. Enumerable.Range(0, axis.Count).Where(i => axis.LocalDateOf(i).Month % 12 / 3 == s).Select(i => lasting[i])];
            if (those.Length > 0) bySeason.Add((seasons[s], Of(those)));
        }
        ILookup<int, int> byHour = Enumerable.Range(0, axis.Count).ToLookup(i => axis.LocalMinuteOf(i) / 60, i => lasting[i]);
        double unserved = outcomes.UnservedKwh.Sum();
        // Each interval of the year lies in as many walks as the horizon has intervals: so often its load is demanded.
        double demanded = offGrid.Load.EnergyKwh * outcomes.Horizon;
        return new OfferOutages
        {
            Name = name,
            Outcomes = outcomes,
            Any = Of(lasting),
            OnEnergy = Of(outcomes.LastingOnEnergyIntervals),
            BySeason = bySeason,
            HalfLastByHour = [.. Enumerable.Range(0, 24).Select(h => byHour.Contains(h) ? Of(byHour[h]).HoursLastedBy(0.5) : (double?)null)],
            Availability = demanded > 0 ? 1 - (unserved / demanded) : null,
            MeanUnservedKwh = unserved / axis.Count,
            MeanDarkHours = outcomes.DarkIntervals.Average() * outcomes.StepHours,
            Worst = [.. WorstStarts.OnePerDay(axis, outcomes, WorstCount).Select(i => new WorstStart(
                axis.OffsetStartOf(i).LocalDateTime, lasting[i] * outcomes.StepHours, startKwh[i], outcomes.UnservedKwh[i]))],
            Named = named,
        };
    }

    private static PairedOutages Paired(Profile load, OfferOutages first, OfferOutages second)
    {
        Time.TimeAxis axis = load.Axis;
        int same = 0, more = 0, night = 0, less = 0;
        for (int i = 0; i < axis.Count; i++)
        {
            int one = first.Outcomes.LastingIntervals[i], two = second.Outcomes.LastingIntervals[i];
            if (one == two) same++;
            else if (two < one) less++;
            else
            {
                more++;
                int minutes = NightEndMinute - axis.LocalMinuteOf(i);
                int morning = (minutes > 0 ? minutes : minutes + (24 * 60)) / axis.StepMinutes;
                if (one < morning && two >= morning) night++;
            }
        }
        double all = axis.Count;
        return new PairedOutages
        {
            First = first.Name,
            Second = second.Name,
            AddsNothingFraction = same / all,
            AddsHoursFraction = more / all,
            CarriesNightFraction = night / all,
            TakesHoursFraction = less / all,
        };
    }
}
