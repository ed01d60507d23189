using System.Globalization;
using EnergySim.Engine;
using EnergySim.Studies.Outages;
using EnergySim.Studies.WiringFit;
using EnergySim.Wiring;
using Spectre.Console;

namespace EnergySim.Cli;

/// <summary>Prints the ways to connect: a table an offer, what limits take, the inverter, and the rules on request.</summary>
internal static class WiringText
{
    public static void Write(TextWriter output, WiringComparison result, bool withRules, IReadOnlyList<string> repairs)
    {
        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{result.Home} · {result.Tariff} · ways to connect by the {result.Plan.Edition.Year} edition · bill as it is {Money(result.AsItIsBill)} {result.Currency}"));
        foreach (OfferWays offer in result.Offers) WriteOffer(output, result, offer, withRules);
        output.WriteLine();
        Output.WriteNotes(output, result.Notes.Concat(repairs));
    }

    private static void WriteOffer(TextWriter output, WiringComparison result, OfferWays offer, bool withRules)
    {
        output.WriteLine();
        output.WriteLine(offer.Offer.Name);
        Output.WriteTable(output, TableOf(result, offer));
        output.WriteLine(offer.Cheapest is WayResult cheapest
            ? string.Create(CultureInfo.InvariantCulture, $"Cheapest over {result.Plan.Years} years: {cheapest.Fit.Way.Name}, {Whole(cheapest.Run!.YearsCost)} {result.Currency}{Kept(offer, cheapest, result.Currency)}")
            : "None of these ways may be.");
        foreach (WayResult way in offer.Ways.Where(w => w.Run is null))
            output.WriteLine($"May not be, {Word(way.Fit.Standing)}: {way.Fit.Way.Name}: {way.Fit.Why}.");
        WriteLosses(output, offer, result.Currency);
        WriteInverters(output, offer, result);
        if (withRules) WriteRules(output, result.Plan.Edition, offer);
    }

    private static Table TableOf(WiringComparison result, OfferWays offer)
    {
        Table table = Output.NewTable();
        table.AddColumn(new TableColumn("").NoWrap());
        foreach (string header in (string[])["wiring", "price", "bill a year", "saved a year", string.Create(CultureInfo.InvariantCulture, $"{result.Plan.Years} years"), "kW off grid", "9 in 10 last, h"]) table.AddFigures(header);
        table.AddColumn(new TableColumn("").NoWrap());
        foreach (WayResult way in offer.Ways.Where(w => w.Run is not null))
        {
            WayRun run = way.Run!;
            table.AddTexts(
                way.Fit.Way.Name,
                (way.Costs.Any(c => c.IsPlaceholder) ? "~" : "") + Whole(way.WiringPrice),
                way.Price is decimal price ? Whole(price) : "",
                Money(run.AnnualBill),
                Money(result.AsItIsBill - run.AnnualBill),
                Whole(run.YearsCost),
                run.Backup is WayBackup backup ? Number(backup.PowerKw) : "–",
                run.Backup is WayBackup lasting ? Hours(lasting.Survival) : "–",
                way.DominatedBy is null ? "" : "dominated");
        }
        return table;
    }

    private static string Kept(OfferWays offer, WayResult cheapest, string currency)
    {
        if (cheapest.Run!.Backup is not null) return ".";
        WayResult? backed = offer.Ways.FirstOrDefault(w => w.Run?.Backup is not null);
        return backed is null ? "; it keeps nothing running in an outage."
            : $"; it keeps nothing running in an outage. Cheapest that does: {backed.Fit.Way.Name}, {Whole(backed.Run!.YearsCost - cheapest.Run.YearsCost)} {currency} more.";
    }

    private static void WriteLosses(TextWriter output, OfferWays offer, string currency)
    {
        var told = offer.Ways.Where(w => w.Run is not null)
            .SelectMany(w => w.Run!.Losses.Where(l => l.Hours > 0 || l.BillCost != 0).Select(l => (Way: w.Fit.Way.Name, Loss: l)))
            .GroupBy(t => t.Loss with { }).ToArray();
        if (told.Length == 0)
        {
            output.WriteLine("No limit of the wiring or the agreement ever bound.");
            return;
        }
        output.WriteLine("What limits took in the span:");
        foreach (var same in told)
        {
            LimitLoss l = same.Key;
            string[] parts =
            [
                string.Create(CultureInfo.InvariantCulture, $"{l.Hours:#,0.##} h"),
                l.ThrottledChargeKwh > 0 ? string.Create(CultureInfo.InvariantCulture, $"charging {l.ThrottledChargeKwh:#,0.0} kWh") : "",
                l.ThrottledDischargeKwh > 0 ? string.Create(CultureInfo.InvariantCulture, $"output {l.ThrottledDischargeKwh:#,0.0} kWh") : "",
                l.CurtailedKwh > 0 ? string.Create(CultureInfo.InvariantCulture, $"curtailed {l.CurtailedKwh:#,0.0} kWh") : "",
                $"{Money(l.BillCost)} {currency}",
            ];
            output.WriteLine($"  {Words(l.Limit)}: {string.Join(", ", parts.Where(p => p.Length > 0))} ({string.Join("; ", same.Select(s => s.Way))})");
        }
    }

    private static void WriteInverters(TextWriter output, OfferWays offer, WiringComparison result)
    {
        (string currency, int years) = (result.Currency, result.Plan.Years);
        if (offer.Inverters.Count == 0) return;
        output.WriteLine("Today's solar inverter:");
        foreach (InverterResult choice in offer.Inverters)
        {
            string name = choice.Choice switch { InverterChoice.Keep => "kept, battery AC-coupled", InverterChoice.Replace => "replaced by the battery's own", _ => "kept for part of the panels, split" };
            var parts = new List<string>();
            if (choice.AgreementArithmetic is string arithmetic) parts.Add($"{(choice.KeepsAgreement == true ? "keeps the agreement" : "loses the agreement")} ({arithmetic})");
            if (choice.WhyNot is string why) parts.Add(why);
            if (choice.Bill is decimal bill) parts.Add($"bill {Money(bill)} on today's plan by {choice.Way}");
            if (choice.NewBill is decimal next) parts.Add($"{Money(next)} on the new one, so the agreement is worth {Money(choice.AgreementWorth!.Value)} a year");
            if (choice.StorageRuleCost is decimal rule) parts.Add($"its rule on the battery costs {Money(rule)}");
            if (choice.YearsCost is decimal cost) parts.Add(string.Create(CultureInfo.InvariantCulture, $"{years} years {Whole(cost)} {currency}{(choice.WorkPrice > 0 ? $" with {(choice.WorkIsPlaceholder ? "~" : "")}{Whole(choice.WorkPrice)} for the work" : "")}"));
            output.WriteLine($"  {name}: {string.Join("; ", parts)}.");
        }
        if (offer.Inverters.Where(i => i.YearsCost is not null).MinBy(i => i.YearsCost) is InverterResult least)
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  least over {years} years: {least.Choice.ToString().ToLowerInvariant()}."));
    }

    private static void WriteRules(TextWriter output, CodeEdition edition, OfferWays offer)
    {
        foreach (WayResult way in offer.Ways)
        {
            output.WriteLine($"{way.Fit.Way.Name}, {Word(way.Fit.Standing)}: {way.Fit.Why}. {WiringComparison.ToBeConfirmed}");
            foreach (Verdict v in way.Fit.Verdicts.Concat(way.BackupVerdicts))
                output.WriteLine($"  {Word(v.Standing)}: {v.Arithmetic} [{(v.Section is null ? "no section" : v.Section + (edition.IsFromMemory(v.Rule) ? "*" : ""))}]");
            foreach (CostItem cost in way.Costs)
                output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {(cost.IsPlaceholder ? "~" : "")}{cost.Name}: labour {Whole(cost.Labour)}, parts {Whole(cost.Parts)}, {cost.Days:0.##} days"));
        }
    }

    private static string Word(Standing standing) => standing switch
    {
        Standing.Within => "within the rule",
        Standing.Beyond => "beyond the rule",
        Standing.NotInEdition => "not in this edition",
        _ => "a fact is missing",
    };

    private static string Words(Limit limit) => limit switch
    {
        Limit.InverterBreaker => "the inverters' breaker",
        Limit.Import => "the grid-current cap",
        Limit.Export => "the export cap",
        _ => "the guarded busbar or feeder",
    };

    private static string Hours(Survival survival)
    {
        double hours = survival.HoursLastedBy(0.9);
        return (hours >= survival.HorizonHours ? "≥ " : "") + Number(hours);
    }

    private static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    private static string Money(decimal amount) => amount.ToString("#,0.00", CultureInfo.InvariantCulture);

    private static string Whole(decimal amount) => amount.ToString("#,0", CultureInfo.InvariantCulture);
}
