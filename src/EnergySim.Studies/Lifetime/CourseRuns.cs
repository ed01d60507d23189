using EnergySim.Batches;
using EnergySim.Economics;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Tariffs;

namespace EnergySim.Studies.Lifetime;

/// <summary>One course of the years, simulated year by year.</summary>
internal sealed class CourseRuns
{
    private readonly Home _home;
    private readonly YearLoad _load;
    private readonly YearSun _sun;
    private readonly List<YearConditions> _years = [];
    private readonly AgeingCells[] _cells;
    private readonly double?[] _endKwh;
    private readonly OfferNow[] _now;
    private readonly List<OfferYear>[] _offerYears;

    public CourseRuns(Home home, MoneyTerms terms, YearLoad load, YearSun sun)
    {
        (_home, _load, _sun) = (home, load, sun);
        _cells = [.. home.Offers.Select(o => new AgeingCells(terms.Life, (o.Battery.CapacityKwh - o.Battery.LowestKwh) * o.Units, o.Units))];
        _endKwh = new double?[home.Offers.Count];
        _now = new OfferNow[home.Offers.Count];
        _offerYears = [.. home.Offers.Select(_ => new List<OfferYear>(terms.HorizonYears))];
    }

    /// <summary>All years that have ended.</summary>
    public LifetimeFlows Flows() => new(_years, [.. _home.Offers.Select((o, i) => new OfferFlows(o, _offerYears[i], _cells[i].FirstWarrantyEnd))]);

    /// <summary>The panels.</summary>
    public HomeSolar? Solar => _home.Solar;

    /// <summary>Begins a year, counted from 1, whose load and sun the series stand at.</summary>
    /// <param name="year">The year.</param>
    /// <param name="laid">The home as it is and with each offer, under the year's plan.</param>
    /// <returns>What is to be run: first the home as it is, then each offer.</returns>
    public IEnumerable<Variant> Begin(int year, IReadOnlyList<Installation> laid)
    {
        yield return Variant.Of(laid[0].Run) with { Load = _load.Load, SolarAc = _sun.Now.Wall?.Ac };
        for (int i = 0; i < _cells.Length; i++) yield return Begin(year, i, laid[i + 1].Run);
    }

    private Variant Begin(int year, int offer, Run first)
    {
        AgeingCells cells = _cells[offer];
        bool isReplaced = cells.BeginYear(year);
        (WallSolar? stays, Profile? moved, _) = _sun.Now.Of(_home.Offers[offer]);
        Plant plant = Aged(first.Plant, cells, _home.Offers[offer]);
        _now[offer] = new OfferNow(first, plant, isReplaced);
        return new Variant
        {
            Load = _load.Load,
            SolarDc = moved,
            SolarAc = stays?.Ac,
            Plant = plant,
            Site = first.Site,
            SetPoints = ReferenceEquals(plant, first.Plant) ? first.SetPoints : first.SetPoints.ForCapacity(first.Plant, plant),
            StartKwh = _endKwh[offer] is double end ? Math.Min(end, plant.HighestKwh) : null,
        };
    }

    /// <summary>Ends the year that was begun.</summary>
    /// <param name="year">The year.</param>
    /// <param name="plan">Its prices.</param>
    /// <param name="calendar">They, on the data's axis.</param>
    /// <param name="sums">What the runs gave, in the order of the variants.</param>
    public void End(int year, YearPlan plan, TariffCalendar calendar, ReadOnlySpan<VariantSums> sums)
    {
        _years.Add(new YearConditions { Year = year, Plan = plan, Calendar = calendar, LoadKwh = _load.Kwh, SolarKwh = _sun.Now.Kwh, AsItIs = sums[0].Meters[0] });
        for (int i = 0; i < _cells.Length; i++) _offerYears[i].Add(End(year, i, sums[i + 1]));
    }

    private OfferYear End(int year, int offer, VariantSums sums)
    {
        AgeingCells cells = _cells[offer];
        (Run first, Plant plant, bool isReplaced) = _now[offer];
        _endKwh[offer] = sums.EndKwh;
        double toAc = plant.InverterEfficiency * plant.DischargeEfficiency, outKwh = sums.GivenKwh / toAc;
        double fraction = cells.CapacityFraction;
        cells.EndYear(year, outKwh);
        return new OfferYear
        {
            CapacityFraction = fraction,
            EndCapacityFraction = cells.CapacityFraction,
            UsableKwh = plant.UsableKwh,
            FullCycles = first.Plant.UsableKwh > 0 ? outKwh / first.Plant.UsableKwh : 0,
            GivenKwh = sums.GivenKwh,
            IsReplaced = isReplaced,
            MostOutKw = fraction > 0 ? Math.Min(Math.Min(plant.InverterKw, first.Site.InverterBreakerKw), plant.DischargeLimitKw * plant.InverterEfficiency) : 0,
            AboveReserveKwh = plant.UsableKwh * (1 - _home.Offers[offer].Strategy.ReserveFraction) * toAc,
            Sums = sums.Meters[0],
        };
    }

    // Ageing scales usable energy, not efficiency. Cells out of service draw no standby, unless their inverter is the house's only one.
    private static Plant Aged(Plant plant, AgeingCells cells, Offer offer)
    {
        if (cells.CapacityFraction == 1) return plant;
        return plant with
        {
            HighestKwh = plant.LowestKwh + (plant.UsableKwh * cells.CapacityFraction),
            RestartKwh = plant.RestartKwh * cells.CapacityFraction,
            StandbyKw = cells.IsOutOfService && !offer.ReplacesSolarInverter ? 0 : plant.StandbyKw,
        };
    }

    /// <summary>An offer in the year that is under way.</summary>
    /// <param name="First">Its run when new.</param>
    /// <param name="Plant">What it is now.</param>
    /// <param name="IsReplaced">True when new cells came.</param>
    private readonly record struct OfferNow(Run First, Plant Plant, bool IsReplaced);
}
