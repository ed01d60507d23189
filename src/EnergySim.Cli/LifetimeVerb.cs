using System.CommandLine;
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
        var charts = new Option<string?>("--charts") { Description = "Also write the charts, PNG and SVG, into this folder: lifetime-cash and lifetime-band." };
        var command = new Command(
            "lifetime",
            "What each offer comes to over the years: every year simulated again, with its prices, its sun and an older battery; cash, loan and lease; bands, and "
            + "when a second battery pays.\n\nExample: energysim lifetime profiles/demo-home.yaml --charts charts")
        {
            home, tariff, json, charts,
        };
        command.SetAction(parsed => Run(
            parsed.GetValue(home) ?? Commands.DemoHome, parsed.GetValue(tariff), parsed.GetValue(json), parsed.GetValue(charts), output));
        return command;
    }

    private static int Run(string path, string? tariff, bool asJson, string? charts, TextWriter output)
    {
        HomeReading reading = HomeFile.Read(path, tariff);
        LifetimeResult result = LifetimeStudy.Of(reading.Home, reading.Outage.StartCharge);
        if (asJson) Output.WriteJson(output, stream => LifetimeJson.Write(stream, result));
        else LifetimeText.Write(output, result, reading.Repairs);
        if (charts is not null) WriteCharts(result, charts, asJson ? TextWriter.Null : output);
        return Commands.Done;
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
