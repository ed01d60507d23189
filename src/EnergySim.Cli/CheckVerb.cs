using System.CommandLine;
using EnergySim.Files;
using EnergySim.Studies.Plans;

namespace EnergySim.Cli;

/// <summary><c>energysim check</c>: what a tariff file was understood to say, and what is wrong with it.</summary>
internal static class CheckVerb
{
    public static Command Command(TextWriter output)
    {
        var file = new Argument<string>("TARIFF") { Description = "A tariff file (YAML)." };
        var json = new Option<bool>("--json") { Description = "The result as one JSON document." };
        var command = new Command(
            "check",
            "What a tariff file was understood to say: its periods as a picture, sample prices, sample bills; and what is wrong with it. Exit code 1 where something is.\n\n"
            + "Example: energysim check tariffs/marrow-creek-evening-peak.yaml")
        {
            file, json,
        };
        command.SetAction(parsed => Run(parsed.GetValue(file)!, parsed.GetValue(json), output));
        return command;
    }

    private static int Run(string path, bool asJson, TextWriter output)
    {
        PlanCheck check;
        try
        {
            check = PlanCheck.Of(TariffFile.Read(path));
        }
        catch (ProblemsException problems) when (File.Exists(path))
        {
            // To be told of these is what was asked.
            check = PlanCheck.Refused([.. problems.Problems.Select(p => p.ToString())], problems.More);
        }
        if (asJson) Output.WriteJson(output, stream => PlanCheckJson.Write(stream, check));
        else PlanCheckText.Write(output, check);
        return check.Findings.Count > 0 ? Commands.Finding : Commands.Done;
    }
}
