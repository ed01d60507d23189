using System.CommandLine;
using EnergySim.Files;
using EnergySim.Reports;
using EnergySim.Reports.Drawing;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Cli;

/// <summary><c>energysim chart</c>: one picture of a home, by its kind.</summary>
internal static class ChartVerb
{
    public static Command Command(TextWriter output)
    {
        var home = CompareVerb.HomeArgument();
        var kind = new Option<string>("--kind") { HelpName = "KIND", Description = "Which picture; the kinds are listed above.", DefaultValueFactory = _ => ChartKinds.All[0].Name };
        kind.AcceptOnlyFromAmong([.. ChartKinds.All.Select(k => k.Name)]);
        var offer = new Option<string?>("--offer") { Description = "The offer's name or number (0 = as it is); left out: the last offer." };
        var date = new Option<string?>("--date") { Description = "The day of --kind day, 2025-07-15." };
        var month = new Option<int?>("--month") { Description = "1–12: the month whose days --kind average-day means; left out: all." };
        var file = new Option<string?>("--out") { Description = "The picture: .png or .svg; left out: the kind's name and .png." };
        var phone = new Option<bool>("--phone") { Description = "Narrow, for a phone." };
        var page = new Option<bool>("--page") { Description = "As wide as a printed page's text." };
        var command = new Command("chart", "One picture of a home: its bills, its saving, its days, its months, its outages or its years.\n\n"
            + "Kinds:\n" + string.Concat(ChartKinds.All.Select(k => $"  {k.Name,-14} {k.Words}\n"))
            + "\nExample: energysim chart profiles/demo-home.yaml --kind day --date 2025-07-15 --offer 2 --out day.svg")
        {
            home, kind, offer, date, month, file, phone, page,
        };
        command.SetAction(parsed =>
        {
            string name = parsed.GetValue(kind)!;
            var wanted = new ChartWish
            {
                Offer = parsed.GetValue(offer),
                Date = parsed.GetValue(date) is string text ? DateOf(text) : null,
                Month = MonthOf(parsed.GetValue(month)),
                Size = parsed.GetValue(phone) ? ChartSize.Phone : parsed.GetValue(page) ? ChartSize.Page : ChartSize.Laptop,
            };
            return Run(parsed.GetValue(home) ?? Commands.DemoHome, name, wanted, parsed.GetValue(file) ?? name + ".png", output);
        });
        return command;
    }

    private static int Run(string path, string kind, ChartWish wish, string file, TextWriter output)
    {
        PictureFile.Check("--out", file);
        NamedChart chart = ChartKinds.All.First(k => k.Name == kind).Draw(HomeFile.Read(path), wish);
        PictureFile.Write(file, chart.WritePng, chart.WriteSvg);
        output.WriteLine($"Written: {file}");
        return Commands.Done;
    }

    private static LocalDate DateOf(string text) => LocalDatePattern.Iso.Parse(text) is { Success: true } date
        ? date.Value
        : throw new ArgumentException($"--date: \"{text}\" is not a date such as 2025-07-15.");

    private static int? MonthOf(int? month) => month is < 1 or > 12 ? throw new ArgumentException(FormattableString.Invariant($"--month: {month} is not 1–12.")) : month;
}
