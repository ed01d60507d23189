using System.CommandLine;
using EnergySim.Files;
using EnergySim.Reports;
using EnergySim.Studies;

namespace EnergySim.Cli;

/// <summary><c>energysim chart</c>: the homeowner's savings chart as a picture.</summary>
internal static class ChartVerb
{
    public static Command Command(TextWriter output)
    {
        var home = CompareVerb.HomeArgument();
        var file = new Option<string>("--out") { Description = "The picture: .png or .svg.", DefaultValueFactory = _ => "savings.png" };
        var phone = new Option<bool>("--phone") { Description = "Narrow, for a phone." };
        var command = new Command("chart", "The homeowner's savings chart: each month's bill as it is and with each offer.\n\nExample: energysim chart profiles/demo-home.yaml --out savings.svg")
        {
            home, file, phone,
        };
        command.SetAction(parsed => Run(parsed.GetValue(home) ?? Commands.DemoHome, parsed.GetValue(file)!, parsed.GetValue(phone), output));
        return command;
    }

    private static int Run(string path, string file, bool phone, TextWriter output)
    {
        PictureFile.Check("--out", file);
        Comparison comparison = ComparisonStudy.Of(HomeFile.Read(path).Home);
        ChartSize size = phone ? ChartSize.Phone : ChartSize.Laptop;
        PictureFile.Write(file, png => SavingsChart.WritePng(comparison, png, size), svg => SavingsChart.WriteSvg(comparison, svg, size));
        output.WriteLine($"Written: {file}");
        return Commands.Done;
    }
}
