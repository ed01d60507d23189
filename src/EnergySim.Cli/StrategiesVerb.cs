using System.CommandLine;
using EnergySim.Bound;
using EnergySim.Files;
using EnergySim.Reports;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Causes;
using EnergySim.Studies.Control;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Cli;

/// <summary><c>energysim strategies</c>: what a battery can be told to do, what that comes to, and how far it is from the best that anyone could reach.</summary>
internal static class StrategiesVerb
{
    public static Command Command(TextWriter output)
    {
        var home = CompareVerb.HomeArgument();
        var week = new Option<string?>("--week") { Description = "First day of the week whose set-points are shown, such as 2025-07-14; left out: the second week of July, or the data's first." };
        var bound = new Option<bool>("--bound") { Description = "Also the bound: the least that anyone with perfect foresight could pay. Takes a second an offer for data of hours, some for quarter-hours; up to a minute under plans whose rules must be tried both ways." };
        var picture = new Option<string?>("--out") { Description = "Also write that week as a picture: .png or .svg." };
        var phone = new Option<bool>("--phone") { Description = "A narrow picture, for a phone." };
        var offer = new Option<string?>("--offer") { Description = "The offer of the picture; left out: the first." };
        var json = new Option<bool>("--json") { Description = "The result as one JSON document." };
        var command = new Command(
            "strategies",
            "What a battery can be told to do, each in a sentence; what each comes to for this home; why the offer's own saves; its set-points of a week.\n\n"
            + "Example: energysim strategies profiles/demo-home.yaml --week 2025-07-14 --out week.png\nExample: energysim strategies profiles/demo-home.yaml --bound")
        {
            home, week, bound, picture, phone, offer, json,
        };
        command.SetAction(parsed => Run(
            new Terms(
                parsed.GetValue(home) ?? Commands.DemoHome, parsed.GetValue(week), parsed.GetValue(bound), parsed.GetValue(picture),
                parsed.GetValue(phone) ? ChartSize.Phone : ChartSize.Laptop, parsed.GetValue(offer), parsed.GetValue(json)),
            output));
        return command;
    }

    private sealed record Terms(string Home, string? Week, bool WithBound, string? Picture, ChartSize Size, string? Offer, bool AsJson);

    private static int Run(Terms terms, TextWriter output)
    {
        PictureFile.Check("--out", terms.Picture);
        Home home = HomeFile.Read(terms.Home).Home;
        LocalDate first = terms.Week is null ? DefaultWeek(home) : DateOf(terms.Week, home);
        StrategyComparison strategies = StrategyComparison.Of(home);
        IReadOnlyList<SavingCauses> causes = CauseStudy.Of(home);
        IReadOnlyList<BoundQuote> bounds = terms.WithBound ? BoundStudy.Of(home) : [];
        if (terms.Picture is not null) Draw(terms.Picture, terms.Size, OfferOf(strategies, terms.Offer), strategies.Home, first);
        if (terms.AsJson)
        {
            Output.WriteJson(output, stream => StrategiesJson.Write(stream, strategies, causes, bounds));
        }
        else
        {
            StrategiesText.Write(output, strategies, causes, bounds, first);
            if (terms.Picture is not null) output.WriteLine($"Written: {terms.Picture}");
        }
        return Commands.Done;
    }

    private static void Draw(string file, ChartSize size, OfferStrategies offer, string home, LocalDate first)
    {
        WantedWeek week = WantedWeek.Of(home, offer.Name, offer.Results[0].Run, first);
        PictureFile.Write(file, png => WeekChart.WritePng(week, png, size), svg => WeekChart.WriteSvg(week, svg, size));
    }

    private static OfferStrategies OfferOf(StrategyComparison strategies, string? name)
    {
        if (strategies.Offers.Count == 0) throw new ArgumentException("--out: the home has no offer to draw.");
        return name is null ? strategies.Offers[0] : strategies.Offers.FirstOrDefault(o => o.Name == name)
            ?? throw new ArgumentException($"--offer: there is no offer called \"{name}\"; there are {string.Join(", ", strategies.Offers.Select(o => o.Name))}.");
    }

    private static LocalDate DefaultWeek(Home home)
    {
        LocalDate first = home.Load.Axis.LocalDateOf(0), last = home.Load.Axis.LocalDateOf(home.Load.Axis.Count - 1);
        LocalDate july = new LocalDate(first.Year, 7, 8).Next(IsoDayOfWeek.Monday);
        return july >= first && july.PlusDays(6) <= last ? july : first;
    }

    private static LocalDate DateOf(string text, Home home)
    {
        NodaTime.Text.ParseResult<LocalDate> date = LocalDatePattern.Iso.Parse(text);
        if (!date.Success) throw new ArgumentException($"--week \"{text}\" is no date such as 2025-07-14.");
        LocalDate first = home.Load.Axis.LocalDateOf(0), last = home.Load.Axis.LocalDateOf(home.Load.Axis.Count - 1);
        if (date.Value < first || date.Value > last) throw new ArgumentException($"--week {text}: the data run from {LocalDatePattern.Iso.Format(first)} to {LocalDatePattern.Iso.Format(last)}.");
        return date.Value;
    }
}
