using EnergySim.Reports.Savings;
using EnergySim.Studies;
using EnergySim.Studies.Lifetime;
using EnergySim.Studies.Outages;
using EnergySim.Studies.WiringFit;

namespace EnergySim.Reports.Homeowner;

/// <summary>Page 1: what is paid now, what each offer makes of it, and what it costs.</summary>
internal static class AnswerPage
{
    public static ReportPage Of(ReportWords told)
    {
        var blocks = new List<ReportBlock>
        {
            new TextBlock(TextKind.Lead, Lead(told)),
            new CardsBlock($"Your bill {told.PerSpan}", [.. told.Columns.Select((c, i) => Card(told, c, i))]),
            new TableBlock("The offers side by side", [.. told.Names.Skip(1)], Rows(told)),
        };
        if (told.Columns[0].Bills.Bills.Count <= SavingsLayout.MostBills)
        {
            Comparison drawn = told.Comparison with { Columns = [.. told.Columns.Take(told.Drawn)] };
            blocks.Add(new ChartBlock("bills", size => SavingsLayout.Of(drawn, size), 210));
        }
        if (told.Drawn < told.Columns.Count) blocks.Add(new TextBlock(TextKind.Small, $"The pictures show the first {told.Drawn - 1} offers; the tables show all."));
        return new ReportPage("The answer", blocks);
    }

    private static string Lead(ReportWords told)
    {
        Rough rough = told.Rough;
        ComparisonColumn now = told.Columns[0];
        string pay = now.AnnualBill < 0
            ? $"Now your utility owes you {rough.About(-now.AnnualBill)} {told.PerSpan}."
            : $"Now you pay {rough.About(now.AnnualBill)} {told.PerSpan} for power.";
        string offers = string.Join(' ', told.Columns.Skip(1).Take(2).Select((c, i) => Changes(told, c, i)));
        return $"{pay} {offers}";
    }

    private static string Changes(ReportWords told, ComparisonColumn column, int offer)
    {
        Rough rough = told.Rough;
        string name = told.Names[offer + 1];
        if (offer > 0)
        {
            string more = column.AddedSaving >= 0 ? $"{rough.About(column.AddedSaving)} more" : $"{rough.About(-column.AddedSaving)} less";
            return $"{name} would save {more} than {told.Names[offer]}.";
        }
        return column.AnnualSaving switch
        {
            > 0 => $"{name} would save you {rough.About(column.AnnualSaving)} of that{(told.IsYear ? " each year" : "")}.",
            < 0 => $"{name} would cost you {rough.About(-column.AnnualSaving)} more{(told.IsYear ? " each year" : "")}.",
            _ => $"{name} would change nothing on your bill.",
        };
    }

    private static FigureCard Card(ReportWords told, ComparisonColumn column, int index)
    {
        string[] below = index == 0 ? ["what you pay now"]
            : [column.AnnualSaving >= 0 ? $"saves about {told.Rough.Bare(column.AnnualSaving)}" : $"costs about {told.Rough.Bare(-column.AnnualSaving)} more"];
        return new FigureCard(ReportWords.Capital(told.Names[index]), told.Rough.Bare(column.AnnualBill), $"{told.PerSpan}, rounded", below, index < told.Drawn ? told.Styles[index] : null);
    }

    private static List<TableRow> Rows(ReportWords told)
    {
        ComparisonColumn[] offers = [.. told.Columns.Skip(1)];
        IReadOnlyList<OfferOutages> outages = told.Findings.Outages.Offers;
        var rows = new List<TableRow>
        {
            new("Price, installed", [.. offers.Select(o => told.Price(o.Price))]),
            new($"You save {told.PerSpan}", [.. offers.Select(o => told.Rough.About(o.AnnualSaving))]),
        };
        if (offers.Length > 1) rows.Add(new TableRow("It adds to the offer before it", ["–", .. offers.Skip(1).Select(o => told.Rough.About(o.AddedSaving))]));
        if (told.Findings.Lifetime is LifetimeResult years)
            rows.Add(new TableRow("It has paid for itself after", [.. years.Offers.Select(o => Payback(o, years.Terms.HorizonYears))]));
        rows.Add(new TableRow("In the bad spell on page 3 it runs the house for", [.. outages.Select(o => Rough.Hours(o.Named.FirstUnservedHours ?? o.Named.Hours, o.Named.Hours))]));
        rows.Add(new TableRow("Nine outages in ten it lasts for", [.. outages.Select(o => Rough.Hours(o.Any.HoursLastedBy(0.9), o.Any.HorizonHours))]));
        rows.Add(new TableRow("Fits your panel", [.. offers.Select((_, i) => Fits(told, i))]));
        return rows;
    }

    private static string Payback(LifetimeOffer offer, int horizon)
    {
        if (offer.Indicators is null) return "no price stated";
        return Rough.Years(offer.Indicators.SimplePaybackYears, horizon) + (offer.Indicators.FallsBelowAgain ? ", then a new battery is due" : "");
    }

    private static string Fits(ReportWords told, int offer)
    {
        if (told.Findings.Wiring is null) return "not asked";
        if (told.WayOf(offer) is not WayResult way) return "no way found";
        return $"yes, by: {way.Fit.Way.Name}{(ReportWords.RuleOf(way)?.Section is string section ? $", {section}" : "")}";
    }
}
