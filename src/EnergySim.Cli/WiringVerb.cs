using System.CommandLine;
using EnergySim.Files;
using EnergySim.Reports;
using EnergySim.Studies.WiringFit;

namespace EnergySim.Cli;

/// <summary><c>energysim wiring</c>: the ways to connect each offer, by rule, by price and by what they cost each year.</summary>
internal static class WiringVerb
{
    public static Command Command(TextWriter output)
    {
        var home = CompareVerb.HomeArgument();
        var offer = new Option<string?>("--offer") { Description = "One offer by name; left out: all (for --sheet and --chart, the first)." };
        var way = new Option<string?>("--way") { Description = "The way of --sheet by name; left out: the cheapest that may be." };
        var rules = new Option<bool>("--rules") { Description = "Also every rule asked, with its arithmetic and section." };
        var sheet = new Option<bool>("--sheet") { Description = "The set-point sheet for the programmer: limits in A and kW, reserve, windows, and the test on site for each." };
        var json = new Option<bool>("--json") { Description = "The result as one JSON document." };
        var chart = new Option<string?>("--chart") { Description = "Also a picture of the ways compared: .png or .svg." };
        var command = new Command(
            "wiring",
            "The ways to connect each offer: whether they may be and by which rule, their price, and what their limits cost each year.\n\n"
            + "Example: energysim wiring profiles/demo-home.yaml --sheet --way \"Guarded busbar\"")
        {
            home, offer, way, rules, sheet, json, chart,
        };
        command.SetAction(parsed => Run(
            parsed.GetValue(home) ?? Commands.DemoHome,
            new Asked(parsed.GetValue(offer), parsed.GetValue(way), parsed.GetValue(rules), parsed.GetValue(sheet), parsed.GetValue(json), parsed.GetValue(chart)),
            output));
        return command;
    }

    private static int Run(string path, Asked asked, TextWriter output)
    {
        PictureFile.Check("--chart", asked.Chart);
        if (asked.Way is not null && !asked.Sheet) throw new ArgumentException("--way: only --sheet asks for one way.");
        HomeReading reading = HomeFile.Read(path);
        Home home = reading.Home;
        if (home.Wiring is null) throw new ArgumentException($"{path}: there is no wiring section; profiles/demo-home.yaml shows how it is written.");
        if (asked.Offer is not null)
        {
            home = home with { Offers = [.. home.Offers.Where(o => o.Name == asked.Offer)] };
            if (home.Offers.Count == 0) throw new ArgumentException($"--offer: there is no offer called \"{asked.Offer}\"; there are {string.Join(", ", reading.Home.Offers.Select(o => o.Name))}.");
        }
        WiringComparison result = WiringFitStudy.Of(home);
        if (asked.Chart is not null)
            PictureFile.Write(asked.Chart, png => WiringChart.WritePng(result, result.Offers[0], png), svg => WiringChart.WriteSvg(result, result.Offers[0], svg));
        if (asked.Sheet)
        {
            SetPointSheet sheet = SetPointSheet.Of(home, result, result.Offers[0], asked.Way);
            if (asked.Json) Output.WriteJson(output, stream => WiringJson.WriteSheet(stream, sheet));
            else SheetText.Write(output, sheet);
        }
        else if (asked.Json)
        {
            Output.WriteJson(output, stream => WiringJson.Write(stream, result));
        }
        else
        {
            WiringText.Write(output, result, asked.Rules, reading.Repairs);
        }
        return Commands.Done;
    }

    private sealed record Asked(string? Offer, string? Way, bool Rules, bool Sheet, bool Json, string? Chart);
}
