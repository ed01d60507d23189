using BenchmarkDotNet.Attributes;
using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Studies;
using EnergySim.Tariffs;

namespace EnergySim.Benchmarks;

/// <summary>The figures of README and DEVELOPERS.md: a year of quarter-hours on one core.</summary>
[MemoryDiagnoser]
public sealed class SpeedBenchmarks : IDisposable
{
    private readonly YearOfQuarters _year = new(allRules: false);
    private readonly YearOfQuarters _all = new(allRules: true);
    private readonly MeterColumns _meter = new(35040);
    private readonly (Run Run, TariffCalendar Calendar) _hours;
    private readonly YearOfOutages _outages = new(neverMeet: false);
    private readonly YearOfOutages _apart = new(neverMeet: true);
    private readonly YearOfSun _sun;
    private readonly LifetimeYears _lifetime = new();
    private readonly WholeReport _report = new();
    private readonly YearOfWeather _weather = new();
    private readonly YearOfMeter _meterFiles = new();
    private MeterSums? _sums;

    public SpeedBenchmarks()
    {
        _sun = new YearOfSun(_year.Axis);
        _hours = _year.ByTheHour();
    }

    [GlobalCleanup]
    public void Dispose()
    {
        _weather.Dispose();
        _meterFiles.Dispose();
    }

    [GlobalSetup]
    public void Setup() => _sums = MeterSums.Of(_year.Calendar, _year.Run.Sums(_meter).Meter);

    [Benchmark(Description = "year, sums only")]
    public RunSums Sums() => _year.Run.Sums(_meter);

    [Benchmark(Description = "year, sums only, with its bill", Baseline = true)]
    public BillSet SumsAndBill() => Biller.Bill(MeterSums.Of(_year.Calendar, _year.Run.Sums(_meter).Meter));

    [Benchmark(Description = "year, every rule in use, with its bill")]
    public BillSet AllRulesAndBill() => Biller.Bill(MeterSums.Of(_all.Calendar, _all.Run.Sums(_meter).Meter));

    [Benchmark(Description = "year, ledger")]
    public Ledger Ledger() => _year.Run.Ledger();

    [Benchmark(Description = "plan laid on the axis")]
    public TariffCalendar Compile() => new(_year.Calendar.Tariff, _year.Axis);

    [Benchmark(Description = "strategy compiled")]
    public EnergySim.Strategies.SetPoints Strategy() => _year.Strategy.Compile(_year.Plant, _year.Axis);

    [Benchmark(Description = "strategy of every rule that asks past and prices")]
    public EnergySim.Strategies.SetPoints StrategyOfForecasts() => StrategyCompiler.Compile(
        _year.Strategy with { KeepsForDearest = true, SellsByPrice = true, Overnight = new(new(0, 300), 1, 5), Storm = new([], 1) { Dark = new(2, 0.3), LeadHours = 24 } },
        _year.Run, _year.Solar, _year.Calendar);

    [Benchmark(Description = "demand shaving with a ratchet")]
    public EnergySim.Strategies.SetPoints StrategyOfRatchet() => StrategyCompiler.Compile(
        new() { Base = EnergySim.Strategies.Steering.DemandShaving, ShaveToKw = 2, RefillFraction = 0.5, Ratchets = true }, _year.Run, _year.Solar, _year.Calendar);

    [Benchmark(Description = "evening planner, a year")]
    public EnergySim.Strategies.SetPoints Planner() => EnergySim.Strategies.EveningPlanner.Plan(
        _year.Plant, _year.Load, _year.Solar, new MarginalPrices(_year.Calendar), new() { ReserveFraction = 0.2, ChargesFromGrid = true, SellsFromBattery = false });

    [Benchmark(Description = "bound, a year of hours")]
    public Bound.BoundResult BoundOfHours() => Bound.BoundStudy.Of(_hours.Run, _hours.Calendar);

    [Benchmark(Description = "bound, a year of quarter-hours")]
    public Bound.BoundResult BoundOfQuarters() => Bound.BoundStudy.Of(_year.Run, _year.Calendar);

    [Benchmark(Description = "bill from sums")]
    public BillSet Bill() => Biller.Bill(_sums!);

    [Benchmark(Description = "8,760 outages of 336 h, two offers")]
    public int Outages() => _outages.Walk();

    [Benchmark(Description = "the same, no two walks alike")]
    public int OutagesApart() => _apart.Walk();

    [Benchmark(Description = "solar of three planes from weather")]
    public object Solar() => _sun.FromWeather();

    [Benchmark(Description = "the same, sky shared")]
    public object SolarUnderSharedSky() => _sun.UnderSharedSky();

    [Benchmark(Description = "25 years, as it is and three offers")]
    public IReadOnlyList<IReadOnlyList<decimal>> Lifetime() => _lifetime.Bills();

    [Benchmark(Description = "the same with bands and break-even")]
    public Studies.Lifetime.LifetimeResult LifetimeWithBands() => _lifetime.Study();

    [Benchmark(Description = "report: every question of the demo")]
    public object ReportAsked() => _report.Ask();

    [Benchmark(Description = "report: its pages and pictures")]
    public int ReportWritten() => _report.Write();

    [Benchmark(Description = "hourly weather file read")]
    public object WeatherRead() => _weather.Read();

    [Benchmark]
    public object MeterTable() => _meterFiles.Table();

    [Benchmark]
    public object MeterXml() => _meterFiles.Xml();

    [Benchmark(Description = "darkest days of a year of weather")]
    public object Darkest() => _weather.Darkest();

    [Benchmark(Description = "100 synthetic years, days")]
    public object SyntheticDays() => _weather.Odds();

    [Benchmark(Description = "100 synthetic years, hours of weather")]
    public double SyntheticHours() => _weather.HundredYears();
}
