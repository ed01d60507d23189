using EnergySim.Batches;
using EnergySim.Economics;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Tariffs;

namespace EnergySim.Studies.Lifetime;

/// <summary>One course of the years: for each year first what is to be run, then what came of it.</summary>
internal sealed class CourseRuns
{
    private readonly Home _home;
    private readonly YearLoad _load;
    private readonly YearSun _sun;
    private readonly Dictionary<string, IReadOnlyList<Installation>> _laid = [];
    private readonly List<YearConditions> _years = [];
    private readonly AgeingCells[] _cells;
    private readonly bool[] _isReplaced;
    private readonly Plant[] _plants;
    private readonly double?[] _endKwh;
    private readonly List<OfferYear>[] _offerYears;

    public CourseRuns(Home home, MoneyTerms terms, YearLoad load, YearSun sun)
    {
        (_home, _load, _sun) = (home, load, sun);
        _cells = [.. home.Offers.Select(o => new AgeingCells(terms.Life, (o.Battery.CapacityKwh - o.Battery.LowestKwh) * o.Units, o.Units))];
        _isReplaced = new bool[home.Offers.Count];
        _plants = new Plant[home.Offers.Count];
        _endKwh = new double?[home.Offers.Count];
        _offerYears = [.. home.Offers.Select(_ => new List<OfferYear>(terms.HorizonYears))];
    }

    /// <summary>All years that have ended.</summary>
    public LifetimeFlows Flows() => new(_years, [.. _home.Offers.Select((o, i) => new OfferFlows(o, _offerYears[i], _cells[i].FirstWarrantyEnd))]);

    /// <summary>What a year asks to be run: the home as it is, then each offer.</summary>
    public Variant[] Begin(int year, YearPlan plan, TariffCalendar calendar)
    {
        if (!_laid.TryGetValue(plan.Key, out IReadOnlyList<Installation>? laid)) _laid.Add(plan.Key, laid = Installation.Of(_home, calendar));
        Run asItIs = laid[0].Run;
        var cases = new Variant[laid.Count];
        cases[0] = new Variant { Load = _load.Load, SolarAc = _sun.WallAc, Plant = asItIs.Plant, Site = asItIs.Site, SetPoints = asItIs.SetPoints };
        for (int i = 0; i < _cells.Length; i++) cases[i + 1] = Begin(year, i, laid[i + 1].Run);
        return cases;
    }

    /// <summary>Takes what came of a year, in the order in which it was asked.</summary>
    public void End(int year, YearPlan plan, TariffCalendar calendar, ReadOnlySpan<VariantSums> sums)
    {
        _years.Add(new YearConditions
        {
            Year = year,
            Plan = plan,
            Calendar = calendar,
            LoadKwh = _load.Kwh,
            SolarKwh = _sun.Kwh,
            AsItIs = sums[0].Meters[0],
        });
        for (int i = 0; i < _cells.Length; i++) _offerYears[i].Add(End(year, i, _laid[plan.Key][i + 1].Run, sums[i + 1]));
    }

    private Variant Begin(int year, int offer, Run first)
    {
        _isReplaced[offer] = _cells[offer].BeginYear(year);
        Plant plant = _plants[offer] = Aged(first.Plant, _cells[offer], _home.Offers[offer]);
        bool replaces = _home.Offers[offer].ReplacesSolarInverter;
        return new Variant
        {
            Load = _load.Load,
            SolarDc = replaces ? _sun.Dc : null,
            SolarAc = replaces ? null : _sun.WallAc,
            Plant = plant,
            Site = first.Site,
            SetPoints = ReferenceEquals(plant, first.Plant) ? first.SetPoints : first.SetPoints.ForCapacity(first.Plant, plant),
            StartKwh = _endKwh[offer] is double end ? Math.Min(end, plant.HighestKwh) : null,
        };
    }

    private OfferYear End(int year, int offer, Run first, VariantSums sums)
    {
        AgeingCells cells = _cells[offer];
        Plant plant = _plants[offer];
        _endKwh[offer] = sums.EndKwh;
        double given = sums.Flows.Kwh(LedgerColumn.CellsToLoadKw) + sums.Flows.Kwh(LedgerColumn.CellsToGridKw);
        double toAc = plant.InverterEfficiency * plant.DischargeEfficiency, outKwh = given / toAc;
        double fraction = cells.CapacityFraction;
        cells.EndYear(year, outKwh);
        return new OfferYear
        {
            CapacityFraction = fraction,
            EndCapacityFraction = cells.CapacityFraction,
            UsableKwh = plant.UsableKwh,
            FullCycles = first.Plant.UsableKwh > 0 ? outKwh / first.Plant.UsableKwh : 0,
            GivenKwh = given,
            IsReplaced = _isReplaced[offer],
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
}
