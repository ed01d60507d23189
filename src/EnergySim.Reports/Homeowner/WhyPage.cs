using EnergySim.Reports.Causes;
using EnergySim.Reports.Days;
using EnergySim.Studies.Causes;
using EnergySim.Studies.Days;

namespace EnergySim.Reports.Homeowner;

/// <summary>Page 2: why an offer saves, to the cent, and what it does on two ordinary days.</summary>
internal static class WhyPage
{
    public static ReportPage Of(ReportWords told)
    {
        IReadOnlyList<SavingCauses> causes = told.Findings.Causes;
        var blocks = new List<ReportBlock>
        {
            new TextBlock(TextKind.Plain, "The battery fills when power is cheap or the sun gives more than you use, and gives it back when power is dear. Some of that gains you money and some of it costs you. The rows add up to the saving, to the cent."),
            new TableBlock("Where the saving comes from", [.. causes.Select(c => Drawing.Lettering.Clean(c.Name))], Rows(told, causes)),
        };
        if (causes[0].Causes.Count > 0)
            blocks.Add(new ChartBlock("causes", size => new CausesLayout(told.Comparison, 1, causes[0], size).Lay()));
        blocks.Add(new HeadingBlock($"Two ordinary days with {Drawing.Lettering.Clean(causes[0].Name)}"));
        ChartBlock[] days = [.. told.Findings.OrdinaryDays.Select((d, i) => Day(d, i))];
        blocks.Add(days.Length == 2 ? new PairBlock(days[0], days[1]) : days[0]);
        return new ReportPage("Why", blocks);
    }

    private static ChartBlock Day(DayFlows day, int index) => new(index == 0 ? "day-1" : "day-2", size => new DayLayout(day, size).Lay());

    private static List<TableRow> Rows(ReportWords told, IReadOnlyList<SavingCauses> causes)
    {
        Cause[] any = [.. causes.SelectMany(c => c.Causes).Select(c => c.Cause).Distinct().Order()];
        var rows = any.Select(cause => new TableRow(Plain(cause), [.. causes.Select(c => c.Causes.FirstOrDefault(one => one.Cause == cause) is SavingCause one ? told.Rough.Money.Exact(one.Amount) : "–")])).ToList();
        rows.Add(new TableRow($"What you save {told.PerSpan}", [.. causes.Select(c => told.Rough.Money.Exact(c.Saving))], IsSum: true));
        return rows;
    }

    private static string Plain(Cause cause) => cause switch
    {
        Cause.ShiftedIntoPeak => "Stored power used in the dearest hours",
        Cause.UsedAtHome => "Stored power used at other hours",
        Cause.SoldFromBattery => "Stored power sold to the grid",
        Cause.ForgoneCredit => "Sun you store and so do not sell",
        Cause.BoughtToCharge => "Power bought to fill the battery",
        Cause.LossesAndStandby => "Power lost inside the battery",
        Cause.Demand => "Lower charges for your highest draw",
        Cause.Tiers => "Less power at the higher price steps",
        Cause.Events => "Less bought on the utility's event days",
        _ => "Minimum bill, taxes and fixed charges",
    };
}
