using System.CommandLine;
using EnergySim.Bound;
using EnergySim.Files;
using EnergySim.Reports;
using EnergySim.Studies.Lifetime;

namespace EnergySim.Cli;

/// <summary><c>energysim lifetime</c>: what each offer comes to over the years.</summary>
internal static class LifetimeVerb
{
    public static Command Command(TextWriter output)
    {
        var home = CompareVerb.HomeArgument();
        var tariff = new Option<string?>("--tariff") { Description = "A tariff file to use in place of the home's." };
        var json = new Option<bool>("--json") { Description = "The result as one JSON document." };
        var bound = new Option<bool>("--bound") { Description = "Also work out what perfect foresight would save, for the band of control. Takes some seconds an offer for data of hours, half a minute for quarter-hours." };
        var charts = new Option<string?>("--charts") { Description = "Also write the charts, PNG and SVG, into this folder: lifetime-cash and lifetime-band." };
        var command = new Command(
            "lifetime",
            "What each offer comes to over the years: every year simulated again, with its prices, its sun and an older battery; cash, loan and lease; bands, and "
            + "when a second battery pays.\n\nExample: energysim lifetime profiles/demo-home.yaml --charts charts")
        {
            home, tariff, bound, json, charts,
        };
        command.SetAction(parsed => Run(
            HomeFile.Read(parsed.GetValue(home) ?? Commands.DemoHome, parsed.GetValue(tariff)), parsed.GetValue(bound), parsed.GetValue(json), parsed.GetValue(charts), output));
        return command;
    }

    private static int Run(HomeReading reading, bool withBound, bool asJson, string? charts, TextWriter output)
    {
        Home home = withBound ? WithBound(reading.Home) : reading.Home;
        LifetimeResult result = LifetimeStudy.Of(home, reading.Outage);
        if (asJson) Output.WriteJson(output, stream => LifetimeJson.Write(stream, result));
        else LifetimeText.Write(output, result, reading.Repairs);
        if (charts is not null) WriteCharts(result, charts, asJson ? TextWriter.Null : output);
        return Commands.Done;
    }

    private static Home WithBound(Home home)
    {
        var savings = BoundStudy.Of(home).ToDictionary(b => b.Name, b => (decimal)b.MostSaved);
        return home with { Money = home.Money with { Bands = home.Money.Bands with { BoundSavingByOffer = savings } } };
    }

    private static void WriteCharts(LifetimeResult result, string folder, TextWriter output)
    {
        Directory.CreateDirectory(folder);
        Write("lifetime-cash.png", stream => LifetimeCharts.WriteCashPng(result, stream));
        Write("lifetime-cash.svg", stream => LifetimeCharts.WriteCashSvg(result, stream));
        Write("lifetime-band.png", stream => LifetimeCharts.WriteBandPng(result, stream));
        Write("lifetime-band.svg", stream => LifetimeCharts.WriteBandSvg(result, stream));

        void Write(string name, Action<Stream> write)
        {
            string file = Path.Combine(folder, name);
            WholeFile.Write(file, write);
            output.WriteLine($"Written: {file}");
        }
    }
}
