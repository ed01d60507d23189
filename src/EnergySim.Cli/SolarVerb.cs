using System.CommandLine;
using EnergySim.Files;
using EnergySim.Reports;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Solar;

namespace EnergySim.Cli;

/// <summary><c>energysim solar</c>: what the roof gives by plane and month, what is lost, and the darkest days.</summary>
internal static class SolarVerb
{
    public static Command Command(TextWriter output)
    {
        var home = new Argument<string?>("HOME") { Arity = ArgumentArity.ZeroOrOne, Description = "A home file (YAML); left out: the bundled demo home with roof planes." };
        var picture = new Option<string?>("--out") { Description = "Also write the picture of months and hours: .png or .svg." };
        var phone = new Option<bool>("--phone") { Description = "A narrow picture, for a phone." };
        var json = new Option<bool>("--json") { Description = "The result as one JSON document." };
        var command = new Command(
            "solar",
            "What the roof gives by plane and month, what is clipped and curtailed, and the darkest days of the weather.\n\n"
            + "Example: energysim solar profiles/demo-roof-home.yaml --out sun.png")
        {
            home, picture, phone, json,
        };
        command.SetAction(parsed => Run(
            parsed.GetValue(home) ?? Commands.DemoRoofHome, parsed.GetValue(picture), parsed.GetValue(phone) ? ChartSize.Phone : ChartSize.Laptop, parsed.GetValue(json), output));
        return command;
    }

    private static int Run(string path, string? picture, ChartSize size, bool asJson, TextWriter output)
    {
        PictureFile.Check("--out", picture);
        HomeReading reading = HomeFile.Read(path);
        SolarYield solar = SolarStudy.Of(reading.Home);
        if (picture is not null) PictureFile.Write(picture, png => SolarChart.WritePng(solar, png, size), svg => SolarChart.WriteSvg(solar, svg, size));
        if (asJson)
        {
            Output.WriteJson(output, stream => SolarJson.Write(stream, solar with { Notes = [.. solar.Notes, .. reading.Repairs] }));
        }
        else
        {
            SolarText.Write(output, solar, reading.Repairs);
            if (picture is not null) output.WriteLine($"Written: {picture}");
        }
        return Commands.Done;
    }
}
