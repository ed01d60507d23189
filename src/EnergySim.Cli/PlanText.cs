using EnergySim.Studies;
using EnergySim.Studies.Plans;
using Spectre.Console;

namespace EnergySim.Cli;

/// <summary>Prints one home on several plans: a row a plan, a column an installation, and the cheapest plan of each.</summary>
internal static class PlanText
{
    public static void Write(TextWriter output, PlanComparison plans)
    {
        Comparison first = plans.Plans[0];
        output.WriteLine($"{plans.Home} · {plans.Plans.Count} plans · {first.Currency} from {Date(first.From)} to {Date(first.To)}");
        output.WriteLine();
        Table table = Output.NewTable();
        table.AddColumn("");
        foreach (ComparisonColumn column in first.Columns) table.AddFigures(column.Name);
        foreach (Comparison plan in plans.Plans)
            table.AddTexts(plan.Columns.Select((c, i) => (plans.Cheapest[i].Plan == plan.Tariff ? "least " : "") + BillText.Money(c.AnnualBill)).Prepend(plan.Tariff));
        Output.WriteTable(output, table);
        foreach (CheapestPlan cheapest in plans.Cheapest)
            output.WriteLine($"{cheapest.Column}: cheapest on {cheapest.Plan}, {BillText.Money(cheapest.Bill)}"
                + (cheapest.BelowFirst > 0 ? $", {BillText.Money(cheapest.BelowFirst)} less than on {first.Tariff}." : "."));
        output.WriteLine();
    }

    private static string Date(NodaTime.LocalDate date) => NodaTime.Text.LocalDatePattern.Iso.Format(date);
}
