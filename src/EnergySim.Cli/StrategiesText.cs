using System.Globalization;
using EnergySim.Reports.Causes;
using EnergySim.Strategies;
using EnergySim.Studies.Causes;
using EnergySim.Studies.Control;
using NodaTime;
using Spectre.Console;

namespace EnergySim.Cli;

/// <summary>Prints strategies: what each does, what it comes to, why the offer's own saves, and a week of set-points.</summary>
internal static class StrategiesText
{
    private static readonly (Steering Steering, string Sentence)[] s_words =
    [
        (Steering.Hold, "The battery stays full for outages and does nothing else."),
        (Steering.SelfUse, "Solar goes to the house first, then into the battery; the battery serves the house whenever it would buy."),
        (Steering.PeakWindow, "Self-use inside the rate plan's dearest hours; at other times the battery only charges."),
        (Steering.DemandShaving, "The battery holds what the house buys at a level, to keep a demand charge low."),
        (Steering.Planned, "Each day is planned at its start, on like days of the past and the rate sheet: buy cheap, use dear, and never more than is needed."),
    ];

    private static readonly (string Key, string Sentence)[] s_rules =
    [
        ("overnight", "The grid charges it in a window of every night, to a level or to what like days lead one to expect."),
        ("keepsForDearest", "Where its energy will not last through the peak, the dearest hours are served first."),
        ("ratchets", "A demand that could not be held is paid for, so until the bill ends it holds that one."),
        ("sell", "It sells in a window of every day, down to a level."),
        ("sellsByPrice", "It sells in hours that pay better than every use until it is filled again, and filling up costs less."),
        ("events", "It is filled before the hours of the utility's events and serves the house within them."),
        ("storm", "It is filled and held ahead of named storms, or of dark days in a row."),
        ("rule", "It keeps an agreement's rule: charge only from solar, or never export."),
    ];

    public static void Write(
        TextWriter output, StrategyComparison strategies, IReadOnlyList<SavingCauses> causes, IReadOnlyList<BoundQuote> bounds, LocalDate week)
    {
        output.WriteLine($"{strategies.Home} · what the battery can be told to do");
        output.WriteLine();
        foreach ((Steering steering, string sentence) in s_words) output.WriteLine($"  {StrategyWords.Of(steering),-15} {sentence}");
        output.WriteLine("  besides, by their keys in a home file:");
        foreach ((string key, string sentence) in s_rules) output.WriteLine($"  {key,-15} {sentence}");
        for (int o = 0; o < strategies.Offers.Count; o++)
        {
            output.WriteLine();
            WriteResults(output, strategies, strategies.Offers[o], bounds.Count > 0 ? bounds[o] : null);
            WriteCauses(output, causes[o], strategies.Currency);
            WriteWeek(output, WantedWeek.Of(strategies.Home, strategies.Offers[o].Name, strategies.Offers[o].Results[0].Run, week));
        }
        output.WriteLine();
        Output.WriteNotes(output,
        [
            "The planned strategy knows only the past and the rate sheet; it does not see tiers, demand or a minimum bill.",
            .. bounds.Count == 0 ? [] : (string[])["The bound knows the whole span ahead, which nobody does: it says how much of a saving is control. It is worked out on means over each interval; within an interval nothing can be moved."],
        ]);
    }

    private static void WriteResults(TextWriter output, StrategyComparison strategies, OfferStrategies offer, BoundQuote? bound)
    {
        Table table = Output.NewTable();
        table.AddColumn(offer.Name);
        table.AddFigures($"bill, {strategies.Currency}");
        table.AddFigures("saved");
        if (bound is not null) table.AddFigures("of the possible");
        foreach (StrategyResult result in offer.Results)
        {
            List<string> cells = [NameOf(result), BillText.Money(result.Bill), BillText.Money(result.Saved)];
            if (bound is not null) cells.Add(bound.MostSaved > 0.005 ? ((double)result.Saved / bound.MostSaved).ToString("0 %", CultureInfo.InvariantCulture) : "");
            table.AddTexts(cells);
        }
        if (bound is not null) table.AddTexts("the bound (perfect foresight)", BillText.Money((decimal)bound.Bill), BillText.Money((decimal)bound.MostSaved), "100 %");
        Output.WriteTable(output, table);
        if (bound?.ReachedFraction is double reached)
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {offer.Name} saves {bound.Saved:#,0} of the {bound.MostSaved:#,0} {strategies.Currency} possible ({reached:0 %}). Replayed in the engine the bound's bill is {bound.ReplayBill:#,0.00}."));
        if (bound?.LeftOpen.Count > 0) output.WriteLine($"  The bound is not exact: nobody pays less, but it leaves open that {string.Join("; that ", bound.LeftOpen)}.");
    }

    private static string NameOf(StrategyResult result) => StrategyWords.Of(result.Strategy) + (result.IsOwn ? " (the offer's)" : "");

    private static void WriteCauses(TextWriter output, SavingCauses causes, string currency)
    {
        Table table = Output.NewTable();
        table.AddColumn($"why {causes.Name} saves");
        table.AddFigures(currency);
        foreach (SavingCause cause in causes.Causes) table.AddTexts(CauseWords.Of(cause.Cause), BillText.Money(cause.Amount));
        table.AddTexts("together", BillText.Money(causes.Saving));
        Output.WriteTable(output, table);
    }

    private static void WriteWeek(TextWriter output, WantedWeek week)
    {
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  set-points of the week from {week.First:uuuu-MM-dd}, each sign a half-hour"));
        output.WriteLine("             0     3     6     9     12    15    18    21");
        foreach (string line in SetPointWeek.Lines(week)) output.WriteLine("  " + line);
        output.WriteLine("  " + SetPointWeek.Legend);
    }
}
