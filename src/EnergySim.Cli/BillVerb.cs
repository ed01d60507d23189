using System.CommandLine;
using EnergySim.Files;
using EnergySim.Studies;
using EnergySim.Studies.Bills;
using EnergySim.Studies.Plans;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Cli;

/// <summary><c>energysim bill</c>: the bills line by line; the same home on several plans; a real bill re-created.</summary>
internal sealed class BillVerb
{
    private readonly TextWriter _output;

    private readonly Option<string[]> _tariffs = new("--tariff") { Description = "A tariff file to use in place of the home's. Said several times: the home on each plan, and the cheapest of them.", DefaultValueFactory = _ => [] };
    private readonly Option<string?> _offer = new("--offer") { Description = "Only this offer, with the price of each line; left out: all side by side. \"as it is\" is the home without an offer." };
    private readonly Option<string?> _month = new("--month") { Description = "Only the bills that have a day in this month, such as 2025-07; left out: the whole span." };
    private readonly Option<bool> _difference = new("--difference") { Description = "Each offer's bills against those of the home as it is, line by line." };
    private readonly Option<string?> _against = new("--against") { Description = "A CSV file with a real bill, its lines or only its total: says which line differs and by how much. Exit code 1 where a bill differs." };
    private readonly Option<string?> _csv = new("--csv") { Description = "Also write the bills of the home as it is, or of --offer, as a CSV file." };
    private readonly Option<bool> _json = new("--json") { Description = "The result as one JSON document." };

    private BillVerb(TextWriter output) => _output = output;

    public static Command Command(TextWriter output) => new BillVerb(output).Command();

    private Command Command()
    {
        var home = CompareVerb.HomeArgument();
        var command = new Command(
            "bill",
            "The bills line by line, as it is and with each offer.\n\n"
            + "Example: energysim bill profiles/demo-home.yaml --month 2025-07 --difference\n"
            + "         energysim bill profiles/demo-home.yaml --tariff tariffs/marrow-creek-evening-peak.yaml --tariff tariffs/marrow-creek-flat.yaml\n"
            + "         energysim bill profiles/demo-home.yaml --against july-bill.csv")
        {
            home, _tariffs, _offer, _month, _difference, _against, _csv, _json,
        };
        command.SetAction(parsed => Run(parsed.GetValue(home) ?? Commands.DemoHome, parsed));
        return command;
    }

    private int Run(string path, ParseResult parsed)
    {
        string[] tariffs = parsed.GetValue(_tariffs)!;
        bool asJson = parsed.GetValue(_json);
        foreach (Option option in (Option[])[_offer, _month, _difference, _against, _csv])
            if (tariffs.Length > 1 && parsed.GetResult(option) is { Implicit: false }) throw new ArgumentException($"{option.Name} speaks of one plan; leave it out, or name one --tariff.");
        HomeReading[] readings = tariffs.Length == 0 ? [HomeFile.Read(path)] : [.. tariffs.Select(t => HomeFile.Read(path, t))];
        if (parsed.GetValue(_against) is string stated) return RunAgainst(readings[0].Home, stated, parsed.GetValue(_offer) ?? Installation.AsItIs, asJson);

        PlanComparison plans = PlanComparison.Of([.. readings.Select(r => r.Home)]);
        if (parsed.GetValue(_csv) is string csv) BillCsv.Write(csv, ColumnOf(plans.Plans[0], parsed.GetValue(_offer) ?? Installation.AsItIs).Bills);
        if (asJson) Output.WriteJson(_output, stream => BillJson.Write(stream, plans));
        else if (plans.Plans.Count > 1) PlanText.Write(_output, plans);
        else WriteOne(plans.Plans[0], parsed);
        if (!asJson) Output.WriteNotes(_output, plans.Plans.SelectMany(p => p.Notes).Concat(readings.SelectMany(r => r.Repairs)).Distinct());
        return Commands.Done;
    }

    private void WriteOne(Comparison comparison, ParseResult parsed)
    {
        var text = new BillText(_output, comparison, parsed.GetValue(_month) is string month ? MonthOf(month) : null);
        ComparisonColumn? only = parsed.GetValue(_offer) is string offer ? ColumnOf(comparison, offer) : null;
        text.WriteTitle();
        if (parsed.GetValue(_difference)) foreach (ComparisonColumn column in only is null ? comparison.Columns.Skip(1) : [only]) text.WriteDifference(column);
        else if (only is not null) text.WriteLines(only);
        else text.WriteSideBySide();
    }

    private int RunAgainst(Home home, string file, string column, bool asJson)
    {
        IReadOnlyList<BillMatch> matches = BillRecreation.Of(home, BillCsv.Read(file), column);
        if (asJson) Output.WriteJson(_output, stream => BillJson.Write(stream, matches));
        else BillMatchText.Write(_output, home, column, matches);
        return matches.All(m => m.Agrees) ? Commands.Done : Commands.Finding;
    }

    private static ComparisonColumn ColumnOf(Comparison comparison, string name) => comparison.Columns.FirstOrDefault(c => c.Name == name)
        ?? throw new ArgumentException($"--offer \"{name}\" is none of {string.Join(", ", comparison.Columns.Select(c => $"\"{c.Name}\""))}.");

    private static YearMonth MonthOf(string text)
    {
        NodaTime.Text.ParseResult<YearMonth> month = YearMonthPattern.Iso.Parse(text);
        return month.Success ? month.Value : throw new ArgumentException($"--month \"{text}\" is no month such as 2025-07.");
    }
}
