using System.CommandLine;
using System.Globalization;
using System.Text;
using EnergySim.Files;
using EnergySim.Studies.Outages;
using NodaTime;

namespace EnergySim.Cli;

/// <summary><c>energysim outage</c>: how long each offer carries the house when the grid is down.</summary>
internal static class OutageVerb
{
    private static readonly string[] s_starts = ["2025-01-15T18:00", "2025-01-15"];

    public static Command Command(TextWriter output)
    {
        var defaults = new OutageTerms();
        var home = CompareVerb.HomeArgument();
        var start = new Option<string?>("--start") { Description = $"Local start of the outage told in detail ({s_starts[0]} or {s_starts[1]}); left out: the worst start of the first offer." };
        var hours = new Option<int>("--hours") { DefaultValueFactory = _ => defaults.NamedHours, Description = "Its length, h." };
        var horizon = new Option<int>("--horizon") { DefaultValueFactory = _ => defaults.HorizonHours, Description = "How far every start of the year is walked, h." };
        var cloud = new Option<double>("--cloud") { DefaultValueFactory = _ => defaults.CloudFactor, Description = "Share of the recorded sun that is left: 0 = none." };
        var kept = new Option<double>("--kept") { DefaultValueFactory = _ => 1.0, Description = "Share of the house's load that is kept running." };
        var charge = new Option<string>("--charge") { DefaultValueFactory = _ => "everyday", Description = "What the battery holds at the start: everyday, full (a storm seen coming) or reserve." };
        charge.AcceptOnlyFromAmong("everyday", "full", "reserve");
        var trips = new Option<bool>("--overload-trips") { Description = "Overload trips the inverter; left out: excess load is shed." };
        var json = new Option<bool>("--json") { Description = "The result as one JSON document." };
        var command = new Command(
            "outage",
            "How long each offer carries the house when the grid is down: from every start of the year, and one outage in detail.\n\n"
            + $"Example: energysim outage profiles/demo-home.yaml --start {s_starts[0]} --hours 72 --cloud 0.3 --kept 0.5")
        {
            home, start, hours, horizon, cloud, kept, charge, trips, json,
        };
        command.SetAction(parsed => Run(
            parsed.GetValue(home) ?? Commands.DemoHome,
            new OutageTerms
            {
                HorizonHours = parsed.GetValue(horizon),
                CloudFactor = parsed.GetValue(cloud),
                Kept = KeptLoad.Share(parsed.GetValue(kept)),
                StartCharge = parsed.GetValue(charge) switch { "full" => StartCharge.Full, "reserve" => StartCharge.Reserve, _ => StartCharge.Everyday },
                ManagesLoad = !parsed.GetValue(trips),
                NamedStart = parsed.GetValue(start) is string text ? StartOf(text) : null,
                NamedHours = parsed.GetValue(hours),
            },
            parsed.GetValue(json),
            output));
        return command;
    }

    private static int Run(string path, OutageTerms terms, bool asJson, TextWriter output)
    {
        HomeReading reading = HomeFile.Read(path);
        OutageResult result = OutageStudy.Of(reading.Home, terms);
        if (asJson)
        {
            using var stream = new MemoryStream();
            OutageJson.Write(stream, result);
            output.WriteLine(Encoding.UTF8.GetString(stream.ToArray()));
        }
        else
        {
            OutageText.Write(output, result, reading.Repairs);
        }
        return Commands.Done;
    }

    private static LocalDateTime StartOf(string text)
    {
        if (OutageTerms.TryParseStart(text, out LocalDateTime at)) return at;
        throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"--start \"{text}\" is not a local date and time like {s_starts[0]}."));
    }
}
