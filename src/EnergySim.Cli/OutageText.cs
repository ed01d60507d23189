using System.Globalization;
using EnergySim.Engine;
using EnergySim.Studies.Outages;
using NodaTime;
using Spectre.Console;

namespace EnergySim.Cli;

/// <summary>Prints what outages do: the survival table, the comparison on the same starts, and one outage told in words.</summary>
internal static class OutageText
{
    private static readonly int[] s_hours = [2, 8, 24, 72, 120, 168, 240, 336];

    public static void Write(TextWriter output, OutageResult result, IReadOnlyList<string> repairs)
    {
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(output) });
        if (Console.IsOutputRedirected || output != Console.Out) console.Profile.Width = 120;
        output.WriteLine($"{result.Home} · when the grid is down");
        output.WriteLine();
        console.Write(TableOf(result));
        foreach (PairedOutages pair in result.Pairs)
            output.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{pair.Second} against {pair.First} on the same starts: adds nothing in {pair.AddsNothingFraction:0.0%}, lasts longer in {pair.AddsHoursFraction:0.0%} (carries the night, to 06:00, that the first does not in {pair.CarriesNightFraction:0.0%}){(pair.TakesHoursFraction > 0 ? string.Create(CultureInfo.InvariantCulture, $", lasts less in {pair.TakesHoursFraction:0.0%}") : "")}."));
        output.WriteLine();
        foreach (OfferOutages offer in result.Offers) output.WriteLine(Story(offer));
        output.WriteLine();
        foreach (string note in result.Notes.Concat(repairs)) output.WriteLine($"– {note}");
    }

    private static Table TableOf(OutageResult result)
    {
        var table = new Table { Border = TableBorder.Simple, ShowRowSeparators = false };
        table.AddColumn(new TableColumn(""));
        foreach (OfferOutages offer in result.Offers) table.AddColumn(new TableColumn(Markup.Escape(offer.Name)).RightAligned());
        foreach (int hours in s_hours.Where(h => h <= result.Terms.HorizonHours))
            Row(string.Create(CultureInfo.InvariantCulture, $"starts that last {hours} h"), o => Percent(o.Any.AtLeast(hours)));
        Row("", _ => "");
        Row("nine starts in ten last, h", o => Hours(o.Any, 0.9));
        Row("half the starts last, h", o => Hours(o.Any, 0.5));
        Row("one start in ten lasts, h", o => Hours(o.Any, 0.1));
        Row("half last, for want of energy alone, h", o => Hours(o.OnEnergy, 0.5));
        for (int s = 0; s < result.Offers[0].BySeason.Count; s++)
        {
            int season = s;
            Row($"  half last, {result.Offers[0].BySeason[s].Season}, h", o => Hours(o.BySeason[season].Survival, 0.5));
        }
        Row("", _ => "");
        Row("share of the kept load served", o => Percent(o.Availability));
        Row("dark, h, mean of starts", o => Number(o.MeanDarkHours));
        Row("unserved, kWh, mean of starts", o => Number(o.MeanUnservedKwh));
        Row("worst starts", o => string.Join('\n', o.Worst.Select(w => At(w.At))));
        return table;

        void Row(string name, Func<OfferOutages, string> cell) =>
            table.AddRow([new Text(name), .. result.Offers.Select(o => new Text(cell(o)))]);
    }

    private static string Story(OfferOutages offer)
    {
        NamedOutage spell = offer.Named;
        UnservedByCause unserved = spell.Ledger.Sums.UnservedKwh;
        string begin = string.Create(CultureInfo.InvariantCulture, $"{offer.Name}, grid down on {At(spell.At)} for {spell.Hours:0} h, {spell.StartKwh:0.0} kWh stored: ");
        string without = spell.HoursLeftWithoutSun[0] is double hours ? string.Create(CultureInfo.InvariantCulture, $" Without any sun it would last {hours:0.##} h.") : "";
        if (spell.FirstUnservedHours is not double first) return begin + "the house is served throughout." + without;
        string causes = string.Join(", ", Causes(unserved).Where(c => c.Kwh >= 0.005).Select(c => string.Create(CultureInfo.InvariantCulture, $"{c.Kwh:0.0} kWh for {c.Why}")));
        string dark = spell.FirstDarkHours is double d ? string.Create(CultureInfo.InvariantCulture, $" It is dark from hour {d:0.##}") : " It is never wholly dark";
        string back = spell.FirstDarkHours is null ? "." : spell.RecoversHours is double r
            ? string.Create(CultureInfo.InvariantCulture, $" and first serves the whole house again at hour {r:0.##}.")
            : " and does not recover within the outage.";
        return begin + string.Create(CultureInfo.InvariantCulture, $"load is first left unserved after {first:0.##} h. Unserved: {causes}.") + dark + back
            + string.Create(CultureInfo.InvariantCulture, $" Sun not used: {spell.CurtailedKwh:0.0} kWh.") + without;
    }

    private static IEnumerable<(double Kwh, string Why)> Causes(UnservedByCause unserved) =>
    [
        (unserved.Energy, "want of energy"),
        (unserved.DischargeRate, "the cells' most power out"),
        (unserved.Inverter, "the inverter's rating"),
        (unserved.InverterBreaker, "the inverter's breaker"),
        (unserved.Busbar, "the busbar guard"),
        (unserved.Trip, "a tripped inverter"),
    ];

    private static string Hours(Survival survival, double share)
    {
        double hours = survival.HoursLastedBy(share);
        return (hours >= survival.HorizonHours ? "≥ " : "") + hours.ToString("0.##", CultureInfo.InvariantCulture);
    }

    private static string At(LocalDateTime at) => at.ToString("uuuu-MM-dd HH:mm", CultureInfo.InvariantCulture);

    private static string Percent(double? share) => share?.ToString("0.0 %", CultureInfo.InvariantCulture) ?? "";

    private static string Number(double value) => value.ToString("#,0.0", CultureInfo.InvariantCulture);
}
