using System.CommandLine;
using EnergySim.Files;
using EnergySim.Reports;
using EnergySim.Solar;
using EnergySim.Studies.Outages;
using NodaTime;

namespace EnergySim.Cli;

/// <summary><c>energysim outage</c>: how long each offer carries the house when the grid is down.</summary>
internal static class OutageVerb
{
    private const string StartExample = "2025-01-15T18:00";

    public static Command Command(TextWriter output)
    {
        var home = CompareVerb.HomeArgument();
        var start = new Option<string?>("--start") { Description = $"Local start of the outage told in detail ({StartExample} or a date); else the home file's; else the worst start of the first offer." };
        var hours = new Option<int?>("--hours") { Description = "Its length, h." };
        var horizon = new Option<int?>("--horizon") { Description = "How far every start of the year is walked, h." };
        var cloud = new Option<double?>("--cloud") { Description = "Share of the recorded sun that is left: 0 = none." };
        var spell = new Option<int?>("--spell") { Description = "So many cloudy days in a row, the darkest of the roof's weather, laid from the outage's start on; without --start on their own dates. Needs a home with roof planes." };
        var kept = new Option<double?>("--kept") { Description = "Share of the house's load (of its rest, where the home file names parts) that is kept running." };
        var charge = new Option<string?>("--charge") { Description = "What the battery holds at the start: everyday, full, reserve or storm (made ready --storm-lead hours ahead)." };
        charge.AcceptOnlyFromAmong("everyday", "full", "reserve", "storm");
        var lead = new Option<double?>("--storm-lead") { Description = "How long ahead the storm is seen coming, h; implies --charge storm." };
        var trips = new Option<bool>("--overload-trips") { Description = "Overload trips the inverter; left out: as the home file says." };
        var wishHours = new Option<double?>("--wish-hours") { Description = "The outage that the reserve is to last, h." };
        var wishShare = new Option<double?>("--wish-share") { Description = "In which share of starts it is to last." };
        var frontier = new Option<bool>("--frontier") { Description = "Also what each reserve from 0 to 100 % saves and lasts, and the reserve for the wish." };
        var charts = new Option<string?>("--charts") { Description = "Also write the charts, as PNG and SVG, into this folder." };
        var json = new Option<bool>("--json") { Description = "The result as one JSON document." };
        var command = new Command(
            "outage",
            "How long each offer carries the house when the grid is down: from every start of the year, and one outage in detail. The home file's section "
            + "\"outage\" asks more; options go before it.\n\n"
            + $"Example: energysim outage profiles/demo-home.yaml --start {StartExample} --hours 72 --cloud 0.3 --kept 0.5 --frontier --charts .")
        {
            home, start, hours, horizon, cloud, spell, kept, charge, lead, trips, wishHours, wishShare, frontier, charts, json,
        };
        command.SetAction(parsed =>
        {
            HomeReading reading = HomeFile.Read(parsed.GetValue(home) ?? Commands.DemoHome);
            OutageTerms asked = reading.Outage;
            int horizonHours = parsed.GetValue(horizon) ?? asked.HorizonHours;
            OutageTerms terms = asked with
            {
                NamedStart = parsed.GetValue(start) is string text ? StartOf(text) : asked.NamedStart,
                NamedHours = parsed.GetValue(hours) ?? asked.NamedHours,
                HorizonHours = horizonHours,
                CloudFactor = parsed.GetValue(cloud) ?? asked.CloudFactor,
                Kept = parsed.GetValue(kept) is double share ? asked.Kept with { Base = LoadSource.Share(share) } : asked.Kept,
                StartCharge = parsed.GetValue(lead) is null ? ChargeOf(parsed.GetValue(charge)) ?? asked.StartCharge : StartCharge.Storm,
                StormLeadHours = parsed.GetValue(lead) ?? asked.StormLeadHours,
                ManagesLoad = asked.ManagesLoad && !parsed.GetValue(trips),
                // A wish that nobody stated gives way to a short horizon.
                Wish = new OutageWish(parsed.GetValue(wishHours) ?? Math.Min(asked.Wish.Hours, Math.Max(horizonHours, 1)), parsed.GetValue(wishShare) ?? asked.Wish.ShareOfStarts),
            };
            if (parsed.GetValue(spell) is int days) terms = WithSpell(reading.Home, terms with { NamedHours = parsed.GetValue(hours) ?? days * 24 }, days);
            return Run(reading, terms, parsed.GetValue(frontier), parsed.GetValue(charts), parsed.GetValue(json), output);
        });
        return command;
    }

    private static int Run(HomeReading reading, OutageTerms terms, bool withFrontier, string? charts, bool asJson, TextWriter output)
    {
        OutageResult result = OutageStudy.Of(reading.Home, terms);
        if (charts is not null && !Directory.Exists(charts)) throw new ArgumentException($"--charts: there is no folder \"{charts}\".");
        ReserveFrontier? frontier = withFrontier ? ReserveFrontier.Of(reading.Home, terms) : null;
        if (asJson)
        {
            Output.WriteJson(output, stream => OutageJson.Write(stream, result, frontier));
        }
        else
        {
            OutageText.Write(output, result, frontier, reading.Repairs);
        }
        if (charts is not null) WriteCharts(OutageCharts.Of(result, frontier), charts, asJson ? TextWriter.Null : output);
        return Commands.Done;
    }

    private static OutageTerms WithSpell(Home home, OutageTerms terms, int days)
    {
        if (home.Solar?.Modelled is not ModelledRoof roof) throw new ArgumentException("--spell: the home names no roof planes and weather to take cloudy days from; --cloud says a share of the sun.");
        DailyClearness sky = DailyClearness.Of(roof.Weather);
        CloudySpell spell = CloudySpell.Darkest(sky, days);
        LocalDate first = home.Solar.Profile.Axis.LocalDateOf(0), own = spell.Days[0].Date;
        LocalDateTime start = terms.NamedStart ?? new LocalDate(first.Year, own.Month, own.Day).AtMidnight();
        return terms with { NamedStart = start, SolarInOutage = new SpellSolar(spell, sky).FromItsDays(home.Solar.Profile, start.Date), SpellName = spell.Name };
    }

    private static void WriteCharts(IReadOnlyList<NamedChart> charts, string folder, TextWriter output)
    {
        foreach (NamedChart chart in charts)
        {
            string path = Path.Combine(folder, chart.Name);
            WholeFile.Write(path + ".png", chart.WritePng);
            WholeFile.Write(path + ".svg", chart.WriteSvg);
            output.WriteLine($"Written: {path}.png, {path}.svg");
        }
    }

    private static StartCharge? ChargeOf(string? text) => text switch
    {
        "everyday" => StartCharge.Everyday,
        "full" => StartCharge.Full,
        "reserve" => StartCharge.Reserve,
        "storm" => StartCharge.Storm,
        _ => null,
    };

    private static LocalDateTime StartOf(string text) => OutageTerms.TryParseStart(text, out LocalDateTime at)
        ? at
        : throw new ArgumentException($"--start \"{text}\" is not a local date and time like {StartExample}.");
}
