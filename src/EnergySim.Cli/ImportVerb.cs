using System.CommandLine;
using System.Text;
using EnergySim.Files;
using EnergySim.Profiles;

namespace EnergySim.Cli;

/// <summary><c>energysim import</c>: reads what a customer has from the utility, says what was understood, and writes a profile.</summary>
internal static class ImportVerb
{
    public static Command Command(TextWriter output)
    {
        var files = new Argument<string[]>("FILE") { Arity = ArgumentArity.ZeroOrMore, Description = "Meter data: energy-usage XML (ESPI), a portal's CSV, several of one meter; left out with --bills." };
        var reading = new ReadingOptions();
        var solar = new Option<string?>("--solar") { Description = "A record of the roof's AC output for the same span: the load is import − export + solar." };
        var model = new Option<string?>("--solar-model") { Description = "The same, modelled: the error that shows is said." };
        var negatives = new Option<string>("--negatives") { DefaultValueFactory = _ => "refuse", Description = "Where import − export + solar is below 0: refuse, or zero." };
        negatives.AcceptOnlyFromAmong("refuse", "zero");
        var bills = new BillOptions();
        var to = new Option<string?>("--out") { Description = "Write the load as a profile (CSV: start, load_kw), which a home file reads." };
        var json = new Option<bool>("--json") { Description = "The result as one JSON document." };
        var command = new Command(
            "import",
            "Reads what a customer has from the utility (meter XML, a portal's CSV, or twelve bills), says what was understood, asks where two readings are possible, and writes a profile.\n\n"
            + "Example: energysim import profiles/demo-meter.csv --zone America/Denver\nExample: energysim import --bills profiles/demo-bills.csv --zone America/Denver --home profiles/demo-home.yaml --out load.csv")
        {
            files, solar, model, negatives, to, json,
        };
        reading.AddTo(command);
        bills.AddTo(command);
        command.SetAction(parsed =>
        {
            bool asJson = parsed.GetValue(json);
            if (parsed.GetValue(bills.File) is string billFile) return BillImport.Run(billFile, parsed.GetValue(files)!, bills.TermsOf(parsed), reading.Of(parsed), parsed.GetValue(to), asJson, output);
            var terms = new Terms(parsed.GetValue(files)!, reading.Of(parsed), parsed.GetValue(solar), parsed.GetValue(model),
                parsed.GetValue(negatives) == "zero" ? NegativeRule.Zero : NegativeRule.Refuse, parsed.GetValue(to), asJson);
            return Run(terms, output, parsed.InvocationConfiguration.Error);
        });
        return command;
    }

    private sealed record Terms(string[] Files, MeterOptions Options, string? Solar, string? Model, NegativeRule Negatives, string? Out, bool AsJson);

    private static int Run(Terms terms, TextWriter output, TextWriter errors)
    {
        if (terms.Files.Length == 0) throw new ArgumentException("import: name a file, or --bills FILE.");
        if (terms.Solar is not null && terms.Model is not null) throw new ArgumentException("--solar and --solar-model: say one of them.");
        try
        {
            MeterData data = MeterMerge.Of([.. terms.Files.Select(f => MeterFile.Read(f, terms.Options))], terms.Options);
            MeterLoadResult? load = LoadOf(data, terms);
            if (load is not null && terms.Out is not null) Save(terms.Out, load);
            if (terms.AsJson) output.WriteLine(JsonOf(stream => MeterJson.Write(stream, data, load, terms.Out)));
            else
            {
                ImportText.Write(output, data, load);
                if (terms.Out is not null) ImportText.Written(output, terms.Out, data.IsNetted);
            }
            return Commands.Done;
        }
        catch (MeterQuestionsException asked)
        {
            if (terms.AsJson) output.WriteLine(JsonOf(stream => MeterJson.Write(stream, asked)));
            else ImportText.Write(errors, asked);
            return Commands.BadInput;
        }
    }

    // The load where it is asked for; without --out and --solar a look at the file is enough.
    private static MeterLoadResult? LoadOf(MeterData data, Terms terms)
    {
        MeterOptions solarOptions = terms.Options with { Roles = new Dictionary<string, MeterRole>(), Meter = null, Unit = null, Stamp = null, IsSolarRecord = true, StepMinutes = data.StepMinutes };
        if (terms.Solar is not null) return MeterLoad.Of(data, MeterFile.Read(terms.Solar, solarOptions), terms.Negatives);
        if (terms.Model is not null) return MeterLoad.WithModel(data, MeterFile.Read(terms.Model, solarOptions));
        return terms.Out is null ? null : MeterLoad.Of(data);
    }

    private static void Save(string path, MeterLoadResult load)
    {
        var columns = new List<(string, Profile)> { ("load_kw", load.Load) };
        if (load.Solar is not null) columns.Add(("solar_ac_kw", load.Solar));
        ProfileCsv.Write(path, columns);
    }

    internal static string JsonOf(Action<Stream> write)
    {
        using var stream = new MemoryStream();
        write(stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }
}
