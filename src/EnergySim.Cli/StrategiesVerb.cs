using System.CommandLine;
using EnergySim.Bound;
using EnergySim.Files;
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
        var bound = new Option<bool>("--bound") { Description = "Also the bound: the least that anyone with perfect foresight could pay. Takes some seconds an offer for data of hours, half a minute for quarter-hours." };
        var json = new Option<bool>("--json") { Description = "The result as one JSON document." };
        var command = new Command(
            "strategies",
            "What a battery can be told to do, each in a sentence; what each comes to for this home; why the offer's own saves; its set-points of a week.\n\n"
            + "Example: energysim strategies profiles/demo-home.yaml --bound --week 2025-07-14")
        {
            home, week, bound, json,
        };
        command.SetAction(parsed => Run(parsed.GetValue(home) ?? Commands.DemoHome, parsed.GetValue(week), parsed.GetValue(bound), parsed.GetValue(json), output));
        return command;
    }

    private static int Run(string path, string? week, bool withBound, bool asJson, TextWriter output)
    {
        Home home = HomeFile.Read(path).Home;
        LocalDate first = week is null ? DefaultWeek(home) : DateOf(week, home);
        StrategyComparison strategies = StrategyComparison.Of(home);
        IReadOnlyList<SavingCauses> causes = CauseStudy.Of(home);
        IReadOnlyList<BoundQuote> bounds = withBound ? BoundStudy.Of(home) : [];
        if (asJson) Output.WriteJson(output, stream => StrategiesJson.Write(stream, strategies, causes, bounds));
        else StrategiesText.Write(output, home, strategies, causes, bounds, first);
        return Commands.Done;
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
