using System.Globalization;
using EnergySim.Billing;
using EnergySim.Economics;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;

namespace EnergySim.Studies.Lifetime;

/// <summary>
/// Simulates each year again, as it is and with each offer: the data's days with that year's load, sun, prices in force and capacity. A year
/// begins with the energy that the one before ended with, cut to what the cells still hold.
/// </summary>
internal sealed class LifetimeRuns
{
    private readonly Home _home;
    private readonly MoneyTerms _terms;
    private readonly PlanByYear _plans;
    private readonly YearSeries _series;
    private readonly MeterColumns _meter;
    private readonly Dictionary<string, (TariffCalendar Calendar, IReadOnlyList<Installation> Installations)> _laid = [];
    private readonly AgeingCells[] _cells;
    private readonly double?[] _endKwh;
    private readonly List<OfferYear>[] _years;

    private LifetimeRuns(Home home, MoneyTerms terms, double solarFactor, double loadFactor)
    {
        (_home, _terms) = (home, terms);
        _plans = PlanOf(home, terms);
        _series = new YearSeries(home, terms, _plans, solarFactor, loadFactor);
        _meter = new MeterColumns(home.Load.Axis.Count);
        _cells = [.. home.Offers.Select(o => new AgeingCells(terms.Life, (o.Battery.CapacityKwh - o.Battery.LowestKwh) * o.Units, o.Units))];
        _endKwh = new double?[home.Offers.Count];
        _years = [.. home.Offers.Select(_ => new List<OfferYear>(terms.HorizonYears))];
    }

    /// <summary>Simulates all years.</summary>
    /// <param name="home">The home.</param>
    /// <param name="terms">What is assumed.</param>
    /// <param name="solarFactor">What all solar is multiplied by, ≥ 0.</param>
    /// <param name="loadFactor">What all load is multiplied by, ≥ 0.</param>
    /// <exception cref="ArgumentException">The data are not of one year, or an offer cannot be run.</exception>
    public static LifetimeFlows Of(Home home, MoneyTerms terms, double solarFactor = 1, double loadFactor = 1)
    {
        int days = home.Load.Axis.LocalDayOf(home.Load.Axis.Count - 1) - home.Load.Axis.LocalDayOf(0) + 1;
        if (days is not (365 or 366))
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The data span {days} days; years to come are simulated from a whole year of data."), nameof(home));
        if (terms.HorizonYears is < 1 or > 50) throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The horizon is {terms.HorizonYears} years; it lies between 1 and 50."), nameof(terms));
        var runs = new LifetimeRuns(home, terms, solarFactor, loadFactor);
        YearConditions[] years = [.. Enumerable.Range(1, terms.HorizonYears).Select(runs.Simulate)];
        return new LifetimeFlows(years, [.. home.Offers.Select((o, i) => new OfferFlows(o, runs._years[i], runs._cells[i].FirstWarrantyEnd))]);
    }

    /// <summary>Which prices hold in which year.</summary>
    public static PlanByYear PlanOf(Home home, MoneyTerms terms) =>
        new(home.Tariff, terms.ExportChanges, home.Load.Axis, terms.FirstYear ?? home.Load.Axis.LocalDateOf(0).Year + 1);

    private YearConditions Simulate(int year)
    {
        YearPlan plan = _plans.Of(year);
        if (!_laid.TryGetValue(plan.Key, out (TariffCalendar Calendar, IReadOnlyList<Installation> Installations) laid))
        {
            laid.Calendar = new TariffCalendar(plan.Tariff, _home.Load.Axis, _home.Account, _home.Load.Kw);
            laid.Installations = Installation.Of(_home, laid.Calendar);
            _laid.Add(plan.Key, laid);
        }
        _series.Move(year);
        Run asItIs = laid.Installations[0].Run;
        var conditions = new YearConditions
        {
            Year = year,
            Plan = plan,
            Calendar = laid.Calendar,
            LoadKwh = _series.LoadKwh,
            SolarKwh = _series.SolarKwh,
            AsItIs = MeterSums.Of(laid.Calendar, new Run(_series.Load, _series.None, _series.WallAc ?? _series.None, asItIs.Plant, asItIs.Site, asItIs.SetPoints).Sums(_meter).Meter),
        };
        for (int i = 0; i < _cells.Length; i++) _years[i].Add(Simulate(year, i, laid.Calendar, laid.Installations[i + 1].Run));
        return conditions;
    }

    private OfferYear Simulate(int year, int offer, TariffCalendar calendar, Run first)
    {
        AgeingCells cells = _cells[offer];
        bool isReplaced = cells.BeginYear(year);
        Plant plant = Aged(first.Plant, cells, _home.Offers[offer]);
        SetPoints setPoints = ReferenceEquals(plant, first.Plant) ? first.SetPoints : first.SetPoints.ForCapacity(first.Plant, plant);
        bool replaces = _home.Offers[offer].ReplacesSolarInverter;
        double? start = _endKwh[offer] is double end ? Math.Min(end, plant.HighestKwh) : null;
        Profile none = _series.None;
        RunSums sums = new Run(_series.Load, (replaces ? _series.SolarDc : null) ?? none, (replaces ? null : _series.WallAc) ?? none, plant, first.Site, setPoints, start).Sums(_meter);
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
