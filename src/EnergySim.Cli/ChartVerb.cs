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
        string ending = Path.GetExtension(file).ToLowerInvariant();
        if (ending is not (".png" or ".svg")) throw new ArgumentException($"--out: \"{file}\" is neither .png nor .svg.");
        Comparison comparison = ComparisonStudy.Of(HomeFile.Read(path).Home);
        ChartSize size = phone ? ChartSize.Phone : ChartSize.Laptop;
        WholeFile.Write(file, stream =>
        {
            if (ending == ".png") SavingsChart.WritePng(comparison, stream, size);
            else SavingsChart.WriteSvg(comparison, stream, size);
        });
        output.WriteLine($"Written: {file}");
        return Commands.Done;
    }
}
