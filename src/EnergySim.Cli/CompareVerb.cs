using System.CommandLine;
using System.Globalization;
using EnergySim.Files;
using EnergySim.Studies;
using EnergySim.Studies.Sweeps;
using EnergySim.Tariffs;

namespace EnergySim.Cli;

/// <summary><c>energysim compare</c>: the home as it is and with each offer, side by side.</summary>
internal static class CompareVerb
{
    public static Command Command(TextWriter output)
    {
        var home = HomeArgument();
        var tariff = new Option<string?>("--tariff") { Description = "A tariff file to use in place of the home's." };
        var json = new Option<bool>("--json") { Description = "The result as one JSON document." };
        var ledger = new Option<string?>("--ledger") { Description = "Also write every flow of every interval, a CSV file a column of the comparison: FILE-as-it-is.csv, FILE-<offer>.csv." };
        var command = new Command(
            "compare",
            "The home as it is and with each offer, side by side.\n\nExample: energysim compare profiles/demo-home.yaml --tariff tariffs/marrow-creek-flat.yaml --json")
        {
            home, tariff, json, ledger,
        };
        command.SetAction(parsed => Run(
            parsed.GetValue(home) ?? Commands.DemoHome, parsed.GetValue(tariff), parsed.GetValue(json), parsed.GetValue(ledger), output));
        return command;
    }

    /// <summary>The comparison of the demo home, and what to try next.</summary>
    public static int Demo(TextWriter output)
    {
        int code = Run(Commands.DemoHome, null, asJson: false, ledger: null, output);
        output.WriteLine();
        output.WriteLine("Next: energysim compare MY-HOME.yaml    your own home (profiles/demo-home.yaml shows how it is written)");
        output.WriteLine("      energysim chart --out savings.png the savings chart      energysim compare --help    all options");
        return code;
    }

    internal static Argument<string?> HomeArgument() =>
        new("HOME") { Arity = ArgumentArity.ZeroOrOne, Description = "A home file (YAML); left out: the bundled demo home." };

    private static int Run(string path, string? tariff, bool asJson, string? ledger, TextWriter output)
    {
        HomeReading reading = HomeFile.Read(path, tariff);
        Comparison comparison = ComparisonStudy.Of(reading.Home);
        if (ledger is not null) WriteLedgers(reading.Home, ledger);
        if (asJson)
        {
            Output.WriteJson(output, stream => ComparisonJson.Write(stream, comparison));
        }
        else
        {
            ComparisonText.Write(output, comparison, reading.Repairs);
        }
        return Commands.Done;
    }

    private static void WriteLedgers(Home home, string path)
    {
        var calendar = new TariffCalendar(home.Tariff, home.Load.Axis, home.Account, home.Load.Kw);
        string stem = Path.Combine(Path.GetDirectoryName(path) ?? "", Path.GetFileNameWithoutExtension(path));
        string ending = Path.GetExtension(path) is { Length: > 0 } e ? e : ".csv";
        var taken = new HashSet<string>(StringComparer.Ordinal);
        foreach (Installation installation in Installation.Of(home, calendar))
        {
            // Names that differ only in signs must not share a file.
            string plain = PathName.Of(installation.Name) is { Length: > 0 } written ? written : "offer", name = plain;
            for (int n = 2; !taken.Add(name); n++) name = string.Create(CultureInfo.InvariantCulture, $"{plain}-{n}");
            LedgerCsv.Write($"{stem}-{name}{ending}", installation.Run.Ledger());
        }
    }
}
