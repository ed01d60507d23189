using System.Globalization;
using EnergySim.Studies.Sweeps;

namespace EnergySim.Files.Tests.Sweeps;

public sealed class SweepFileTests : IDisposable
{
    private readonly TempFolder _folder = new();

    public SweepFileTests()
    {
        SweepRunTests.WriteHome(_folder);
    }

    public void Dispose() => _folder.Dispose();

    private const string Head = "sweep: test\nhomes: home.yaml\n";

    private string Problems(string text) => _folder.ProblemsOf(() => SweepFile.Read(_folder.Write("s.yaml", text)));

    private SweepRow[] Rows(string text, bool quickly = true)
    {
        SweepStudy study = SweepFile.Read(_folder.Write("s.yaml", text), quickly).Study();
        return [.. study.Rows(0, study.Variants.Count, 2, TestContext.Current.CancellationToken)];
    }

    [Theory]
    [InlineData("outputs: annualSavings", "s.yaml line 3 column 10, outputs[1]: \"annualSavings\" asks for no figure that there is; the nearest is annualSaving.")]
    [InlineData("outputs: three.annualSaving", "s.yaml line 3 column 10, outputs[1]: \"three.annualSaving\" names no offer of these homes; there are as-it-is, one, two.")]
    [InlineData("outputs: as-it-is.annualSaving", "s.yaml line 3 column 10, outputs[1]: \"as-it-is.annualSaving\" is a figure of offers, not of the home as it is.")]
    [InlineData("outputs: []", "s.yaml line 3 column 1, outputs: there is no output.")]
    [InlineData("outputs: annualSaving\ninputs: [{input: offers.thre.price, list: 5}]", "s.yaml line 4 column 18, inputs[1].input: \"offers.thre.price\" names no item with thre; there are one, two (home.yaml).")]
    [InlineData("outputs: annualSaving\ninputs: [{input: offers.two.pric, list: 5}]", "s.yaml line 4 column 18, inputs[1].input: \"offers.two.pric\" ends in pric, which is not a key here; the nearest is price (home.yaml).")]
    [InlineData("outputs: annualSaving\ninputs: [{input: offers.two, list: 5}]", "s.yaml line 4 column 18, inputs[1].input: \"offers.two\" holds several values; name one of offer, battery, units, price, breakerAmps, strategy (home.yaml).")]
    [InlineData("outputs: annualSaving\ninputs: [{input: offers.two.price, list: 5, uniform: {from: 1, to: 2}}]", "s.yaml line 4 column 10, inputs[1]: an input has one of list, range, uniform, triangular, normal, lognormal, observed, not list and uniform.")]
    [InlineData("outputs: annualSaving\ninputs: [{input: offers.two.price, uniform: {from: 2, to: 2}}]", "s.yaml line 4 column 59, inputs[1].uniform.to: \"2\" is not above from.")]
    [InlineData("outputs: annualSaving\ninputs: [{input: offers.two.price, normal: {mean: 2, deviation: 0}}]", "s.yaml line 4 column 65, inputs[1].normal.deviation: \"0\" is not above 0.")]
    [InlineData("outputs: annualSaving\ninputs: [{input: offers.two.price, uniform: {from: 1, to: 2}}]", "s.yaml line 1 column 1: a grid walks lists and ranges; offers.two.price is a distribution.")]
    [InlineData("outputs: annualSaving\ndesign: sobol\ninputs: [{input: offers.two.price, uniform: {from: 1, to: 2}}]", "s.yaml line 1 column 1: a sampled design needs points, how many are taken for each home and tariff.")]
    [InlineData("outputs: annualSaving\npoints: 5", "s.yaml line 4 column 1, points: only a sampled design takes a number of points.")]
    [InlineData("outputs: annualSaving\ninputs: [{input: place, times: true, list: 2}]", "s.yaml line 4 column 18, inputs[1].input: \"place\" has no number there to multiply (home.yaml).")]
    [InlineData("outputs: annualSaving\ntariffs: x*.yaml", "s.yaml line 4 column 10, tariffs[1]: \"x*.yaml\" fits no file.")]
    public void Read_APlanThatDoesNotFit_SaysOneThing(string rest, string problem) => Assert.Equal(problem, Problems(Head + rest));

    [Fact]
    public void Rows_AValueThatBreaksARule_IsAnErrorInItsPlace()
    {
        SweepRow[] rows = Rows(Head + "outputs: annualBill\ninputs: [{input: offers.*.strategy.reserve, list: [0.1, 1.2, 20 %, lots]}, {input: service.mainAmps, list: [200, -1]}]");
        Assert.Equal([null, "service.mainAmps: \"-1\" is not above 0.", "offers[1].strategy.reserve: \"1.2\" is above 1; a share lies between 0 and 1, or 0 % and 100 %.",
            "service.mainAmps: \"-1\" is not above 0."], rows.Take(4).Select(r => r.Error));
        Assert.Null(rows[4].Error);
        Assert.StartsWith("offers[1].strategy.reserve: \"lots\" is no share", rows[6].Error, StringComparison.Ordinal);
    }

    /// <summary>What the quick way lays over a home gives the same rows as reading the home anew with the values in its file.</summary>
    [Theory]
    [InlineData("offers.*.strategy.reserve", "uniform: {from: -0.1, to: 1.1}")]
    [InlineData("offers.two.units", "list: [0, 1, 2, 3, 50, 51, 2.5, x]")]
    [InlineData("offers.2.price", "list: [100, -1, 1e3, 12.345, 5 %]")]
    [InlineData("batteries.box.capacityKwh", "normal: {mean: 5, deviation: 5}")]
    [InlineData("batteries.box.chargeLimitKw", "uniform: {from: -1, to: 8}")]
    [InlineData("batteries.*.dischargeLimitKw", "uniform: {from: -1, to: 8}")]
    [InlineData("batteries.box.inverterKw", "lognormal: {median: 4, logDeviation: 0.4}")]
    [InlineData("batteries.box.standbyKw", "uniform: {from: -0.01, to: 0.1}")]
    [InlineData("batteries.box.chargeEfficiency", "uniform: {from: 0.8, to: 1.02}")]
    [InlineData("batteries.box.dischargeEfficiency", "list: [90 %, 0.95, 1, 0, 1e-1]")]
    [InlineData("batteries.box.inverterEfficiency", "uniform: {from: 0.8, to: 1.02}")]
    [InlineData("batteries.box.rectifierEfficiency", "uniform: {from: 0.8, to: 1.02}")]
    [InlineData("service.exportLimitKw", "uniform: {from: -1, to: 5}")]
    [InlineData("service.importLimitKw", "list: [0, 1, 5 %, 2, none]")]
    public void Rows_TheQuickWay_IsTheSlowWay(string input, string values)
    {
        string design = values.StartsWith("list", StringComparison.Ordinal) ? "" : "design: latin-hypercube\npoints: 25\n";
        string text = $"{Head}outputs: [annualBill, price, equivalentFullCycles, netPresentValue]\n{design}inputs: [{{input: {input}, {values}}}]".Replace(", netPresentValue", "", StringComparison.Ordinal);
        Assert.Equal(Rows(text, quickly: false).Select(Text), Rows(text, quickly: true).Select(Text));
        Assert.Contains(Rows(text), r => r.Error is null);
    }

    [Fact]
    public void Rows_PathsIntoTheTariff_ChangeItsPrices()
    {
        SweepRow[] rows = Rows(Head + "outputs: as-it-is.annualBill\ninputs: [{input: tariff.energy.*.price.*, times: true, list: [1, 2]}, {input: tariff.later.1.fixed.perMonth, list: [0, 30]}]");
        double[] bills = [.. rows.Select(r => r.Outputs[0]!.Value)];
        Assert.Equal(2, bills[1] - bills[0], 0.01);
        Assert.True(bills[2] > bills[0]);
        Assert.Equal(bills[3] - bills[2], bills[1] - bills[0], 0.01);
    }

    [Fact]
    public void Rows_LoadFactor_IsTheScaledLoad()
    {
        SweepRow[] rows = Rows(Head + "outputs: as-it-is.importKwh\ninputs: [{input: load.factor, list: [0, 1, 3]}, {input: solar.factor, list: 0}]");
        double[] bought = [.. rows.Select(r => r.Outputs[0]!.Value)];
        Assert.Equal(0, bought[0]);
        Assert.Equal(3 * bought[1], bought[2], 1e-6);
    }

    [Fact]
    public void OwnValue_WhatTheFileHas_IsTold()
    {
        SweepReading reading = SweepFile.Read(_folder.Write("s.yaml", Head + "outputs: annualBill\ndesign: one-at-a-time\ninputs: [{input: offers.two.strategy.reserve, list: 0}, {input: service.importLimitKw, list: 1}, {input: tariff.zone, list: [UTC]}]"));
        PlannedVariant first = new SweepVariants(reading.Plan)[0];
        Assert.Equal(["0.2", null, "America/New_York"], Enumerable.Range(0, 3).Select(i => reading.Homes.OwnValue(first, i)));
    }

    [Fact]
    public void PlanHash_AFileBehindThePlan_IsPartOfIt()
    {
        string plan = _folder.Write("s.yaml", Head + "outputs: annualBill");
        string before = SweepFile.Read(plan).PlanHash;
        Assert.Equal(before, SweepFile.Read(plan).PlanHash);
        File.AppendAllText(Path.Combine(_folder.Path, "evening-peak.yaml"), "# a word\n");
        string after = SweepFile.Read(plan).PlanHash;
        Assert.NotEqual(before, after);
        File.AppendAllText(Path.Combine(_folder.Path, "two-days.csv"), "\n");
        Assert.NotEqual(after, SweepFile.Read(plan).PlanHash);
    }

    private static string Text(SweepRow row) => string.Create(CultureInfo.InvariantCulture, $"{row.Variant.Index} {string.Join(' ', row.Outputs)} {row.Error}");
}
