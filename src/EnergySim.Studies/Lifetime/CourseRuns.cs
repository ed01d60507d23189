using EnergySim.Billing;
using EnergySim.Economics;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;

namespace EnergySim.Studies.Lifetime;

/// <summary>One course of the years, simulated year by year.</summary>
internal sealed class CourseRuns
{
    private readonly Home _home;
    private readonly YearLoad _load;
    private readonly YearSun _sun;
    private readonly MeterColumns _meter;
    private readonly Dictionary<string, IReadOnlyList<Installation>> _laid = [];
    private readonly List<YearConditions> _years = [];
    private readonly AgeingCells[] _cells;
    private readonly double?[] _endKwh;
    private readonly List<OfferYear>[] _offerYears;

    public CourseRuns(Home home, MoneyTerms terms, YearLoad load, YearSun sun)
    {
        (_home, _load, _sun) = (home, load, sun);
        _cells = [.. home.Offers.Select(o => new AgeingCells(terms.Life, (o.Battery.CapacityKwh - o.Battery.LowestKwh) * o.Units, o.Units))];
        _meter = new MeterColumns(home.Load.Axis.Count);
        _endKwh = new double?[home.Offers.Count];
        _offerYears = [.. home.Offers.Select(_ => new List<OfferYear>(terms.HorizonYears))];
    }

    /// <summary>All years that have ended.</summary>
    public LifetimeFlows Flows() => new(_years, [.. _home.Offers.Select((o, i) => new OfferFlows(o, _offerYears[i], _cells[i].FirstWarrantyEnd))]);

    /// <summary>Simulates a year, counted from 1, whose load and sun the series stand at.</summary>
    public void Simulate(int year, YearPlan plan, TariffCalendar calendar)
    {
        if (!_laid.TryGetValue(plan.Key, out IReadOnlyList<Installation>? laid)) _laid.Add(plan.Key, laid = Installation.Of(_home, calendar));
        Run asItIs = laid[0].Run;
        _years.Add(new YearConditions
        {
            Year = year,
            Plan = plan,
            Calendar = calendar,
            LoadKwh = _load.Kwh,
            SolarKwh = _sun.Now.Kwh,
            AsItIs = MeterSums.Of(calendar, new Run(_load.Load, null, _sun.Now.Wall?.Ac, asItIs.Plant, asItIs.Site, asItIs.SetPoints).Sums(_meter).Meter),
        });
        for (int i = 0; i < _cells.Length; i++) _offerYears[i].Add(Simulate(year, i, calendar, laid[i + 1].Run));
    }

    private OfferYear Simulate(int year, int offer, TariffCalendar calendar, Run first)
    {
        AgeingCells cells = _cells[offer];
        bool isReplaced = cells.BeginYear(year);
        (WallSolar? stays, Profile? moved, _) = _sun.Now.Of(_home.Offers[offer]);
        Plant plant = Aged(first.Plant, cells, _home.Offers[offer]);
        SetPoints setPoints = ReferenceEquals(plant, first.Plant) ? first.SetPoints : first.SetPoints.ForCapacity(first.Plant, plant);
        double? start = _endKwh[offer] is double end ? Math.Min(end, plant.HighestKwh) : null;
        RunSums sums = new Run(_load.Load, moved, stays?.Ac, plant, first.Site, setPoints, start).Sums(_meter);
        _endKwh[offer] = sums.EndKwh;
        double given = sums.Kwh(LedgerColumn.CellsToLoadKw) + sums.Kwh(LedgerColumn.CellsToGridKw);
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
            IsReplaced = isReplaced,
            MostOutKw = fraction > 0 ? Math.Min(Math.Min(plant.InverterKw, first.Site.InverterBreakerKw), plant.DischargeLimitKw * plant.InverterEfficiency) : 0,
            AboveReserveKwh = plant.UsableKwh * (1 - _home.Offers[offer].Strategy.ReserveFraction) * toAc,
            Sums = MeterSums.Of(calendar, sums.Meter),
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
