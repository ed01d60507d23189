using System.Diagnostics;
using System.Globalization;
using BenchmarkDotNet.Running;
using EnergySim.Benchmarks;

// `--lanes` prints the speed of the step beside the same physics in C (`--lanes WORDS`: some of it).
// `--quick` prints the same figures from a stopwatch in a few seconds, `--quick WORDS` those whose name holds the words; without it BenchmarkDotNet
// measures them properly. `--page` drags sliders on the page's server.
if (args is ["--lanes", ..])
{
    LaneSpeed.Print(args.Length > 1 ? args[1] : "");
    return;
}
if (args is ["--page"])
{
    await PageLoad.Run();
    return;
}
if (args is not ["--quick", ..])
{
    BenchmarkSwitcher.FromAssembly(typeof(SpeedBenchmarks).Assembly).Run(args);
    return;
}
using var bench = new SpeedBenchmarks();
bench.Setup();
(string Name, Func<object> Work)[] works =
[
    ("year, sums only", bench.Sums),
    ("year, sums only, with its bill", bench.SumsAndBill),
    ("year, every rule in use, with its bill", bench.AllRulesAndBill),
    ("year, ledger", bench.Ledger),
    ("plan laid on the axis", bench.Compile),
    ("strategy compiled", bench.Strategy),
    ("strategy of every rule that asks past and prices", bench.StrategyOfForecasts),
    ("demand shaving with a ratchet", bench.StrategyOfRatchet),
    ("bill from sums", bench.Bill),
    ("evening planner, a year", bench.Planner),
    ("bound, a year of hours", bench.BoundOfHours),
    ("bound, a year of quarter-hours", bench.BoundOfQuarters),
    ("8,760 outages of 336 h, two offers", () => bench.Outages()),
    ("the same, no two walks alike", () => bench.OutagesApart()),
    ("solar of three planes from weather", bench.Solar),
    ("the same, sky shared", bench.SolarUnderSharedSky),
    ("25 years, as it is and three offers", bench.Lifetime),
    ("the same with bands and break-even", bench.LifetimeWithBands),
    ("report: every question of the demo", bench.ReportAsked),
    ("report: its pages and pictures", () => bench.ReportWritten()),
    ("hourly weather file read", bench.WeatherRead),
    ("darkest days of a year of weather", bench.Darkest),
    ("meter table, 35,040 rows, sniffed", bench.MeterTable),
    ("meter XML, 35,040 readings", bench.MeterXml),
    ("100 synthetic years, days", bench.SyntheticDays),
    ("100 synthetic years, hours of weather", () => bench.SyntheticHours()),
];
foreach ((string name, Func<object> work) in works)
{
    if (args.Length > 1 && !name.Contains(args[1], StringComparison.OrdinalIgnoreCase)) continue;
    double best = double.MaxValue;
    long bytes = 0;
    // Works of a second need no three hundred tries.
    long began = Stopwatch.GetTimestamp();
    for (int i = 0; i < 300 && Stopwatch.GetElapsedTime(began).TotalSeconds < 15; i++)
    {
        long before = GC.GetAllocatedBytesForCurrentThread();
        long start = Stopwatch.GetTimestamp();
        GC.KeepAlive(work());
        best = Math.Min(best, Stopwatch.GetElapsedTime(start).TotalMicroseconds);
        bytes = GC.GetAllocatedBytesForCurrentThread() - before;
        if (i % 50 == 49) Thread.Sleep(120);
    }
    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name,-42} {best,10:0.0} µs {best * 1000 / 35040,8:0.00} ns an interval {bytes,12:N0} bytes"));
}
