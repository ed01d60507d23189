#:project ../src/EnergySim.Files
#:property RestoreLockedMode=false
#:property RestorePackagesWithLockFile=false
#:property PublishAot=false

//# # What makes the second battery pay
//# Which uncertain inputs move what a second battery adds to the saving of the invented demo home, and at which growth of energy prices it
//# begins to pay. Every figure is a computation on invented data, not a promise.

using EnergySim.Files;
using EnergySim.Studies.Sweeps;

string root = Environment.GetEnvironmentVariable("ENERGYSIM_ROOT") ?? Directory.GetCurrentDirectory();
SweepTable Swept(string text)
{
    string plan = Path.Combine(Path.GetTempPath(), $"second-{Environment.ProcessId}.yaml");
    File.WriteAllText(plan, text);
    SweepReading reading = SweepFile.Read(plan);
    File.Delete(plan);
    return SweepTable.Of(reading.Study(), reading.Plan, reading.Homes.OwnValue, Environment.ProcessorCount);
}

//# How much of the spread each input stands for: first-order and total Sobol indices, with the band in which nine in ten resamples lie.

SweepTable spread = Swept($$"""
    sweep: What moves the second battery
    homes: {{root}}/profiles/demo-home.yaml
    design: sobol-indices
    points: 64
    seed: 11
    inputs:
      - {input: batteries.tenfold.capacityKwh, name: capacity, uniform: {from: 6, to: 14}}
      - {input: batteries.tenfold.inverterKw, name: inverter, uniform: {from: 3, to: 7}}
      - {input: offers.*.strategy.reserve, name: reserve, triangular: {from: 0, peak: 20 %, to: 60 %}}
    outputs: two-batteries.addedSaving
    """);
SobolIndices indices = SobolIndices.Of(spread, 0, 0)!;
Console.WriteLine(FormattableString.Invariant($"the second battery adds {indices.Mean:0.00} a year on average, standard deviation {Math.Sqrt(indices.Variance):0.00}"));
foreach (SobolIndex index in indices.Inputs)
    Console.WriteLine(FormattableString.Invariant($"  {index.Input}: by itself {index.First:0.00} ({index.FirstBand.Low:0.00} to {index.FirstBand.High:0.00}), in all {index.Total:0.00} ({index.TotalBand.Low:0.00} to {index.TotalBand.High:0.00})"));

//# Where its present value is zero: the price a unit and the growth of energy prices.

SweepTable grown = Swept($$"""
    sweep: Price and growth
    homes: {{root}}/profiles/demo-home.yaml
    inputs:
      - {input: stepMinutes, list: 60}
      - {input: offers.two-batteries.price, name: price, list: [6000, 9000, 12000, 15000]}
      - {input: money.growth.energy, name: growth, list: [0, 4 %, 8 %, 12 %]}
    outputs: two-batteries.netPresentValue
    """);
BreakEvenContour contour = BreakEvenContour.Of(grown, 0, 0)!;
foreach (((double price, double growth) from, (double price, double growth) to) in contour.Zero)
    Console.WriteLine(FormattableString.Invariant($"  it begins to pay between {from.price:0} at {from.growth:0.0 %} and {to.price:0} at {to.growth:0.0 %} a year"));
if (contour.Zero.Count == 0) Console.WriteLine("  nowhere in this range does the sign change");

//# A check: a dearer offer is worth less by just what it costs more, and prices that grow faster make it worth more.

for (int g = 0; g < contour.UpAt.Count; g++)
    for (int p = 0; p + 1 < contour.AlongAt.Count; p++)
        if (Math.Abs(contour.Output[g][p] - contour.Output[g][p + 1] - 3000) > 0.01) throw new InvalidOperationException("A price of 3,000 more is not worth 3,000 less.");
Console.WriteLine("a price of 3,000 more is worth 3,000 less, at any growth");
