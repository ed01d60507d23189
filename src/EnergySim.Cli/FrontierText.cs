using System.Globalization;
using EnergySim.Studies.Outages;
using Spectre.Console;

namespace EnergySim.Cli;

/// <summary>Prints money against hours, reserve by reserve.</summary>
internal static class FrontierText
{
    public static void Write(TextWriter output, ReserveFrontier frontier)
    {
        foreach (OfferFrontier offer in frontier.Offers)
        {
            output.WriteLine();
            output.WriteLine($"{offer.Name}, reserve by reserve");
            Table table = Output.NewTable();
            foreach (string head in (string[])["reserve", $"saves a year, {frontier.Currency}", "nine in ten last, h", "half last, h", OutageText.Say($"last {frontier.Wish.Hours:0.##} h")])
                table.AddColumn(new TableColumn(head).RightAligned());
            foreach (FrontierPoint point in offer.Points)
                table.AddRow(
                    OutageText.Say($"{point.ReserveFraction:0 %}{(point == offer.Recommended ? " ←" : "")}"),
                    point.AnnualSaving.ToString("#,0.00", CultureInfo.InvariantCulture),
                    OutageText.Hours(point.Lasting, 0.9),
                    OutageText.Hours(point.Lasting, 0.5),
                    OutageText.Say($"{point.WishFraction:0.0 %}"));
            Output.WriteTable(output, table);
            output.WriteLine(Advice(frontier, offer));
        }
    }

    private static string Advice(ReserveFrontier frontier, OfferFrontier offer)
    {
        string wish = OutageText.Say($"{frontier.Wish.ShareOfStarts:0.# %} of outages of {frontier.Wish.Hours:0.##} h");
        if (offer.Recommended is FrontierPoint point)
        {
            FrontierPoint today = offer.Points.MinBy(p => Math.Abs(p.ReserveFraction - offer.ReserveFraction))!;
            decimal more = point.AnnualSaving - today.AnnualSaving;
            return OutageText.Say($"For {wish}: a reserve of {point.ReserveFraction:0 %} ({point.WishFraction:0.0 %} last so long); against the {offer.ReserveFraction:0 %} of today it saves {Math.Abs(more):#,0.00} {frontier.Currency} a year {(more < 0 ? "less" : "more")}.");
        }
        FrontierPoint best = offer.Points.MaxBy(p => p.WishFraction)!;
        return OutageText.Say($"For {wish} no reserve of this offer is enough: with {best.ReserveFraction:0 %} {best.WishFraction:0.0 %} last so long.");
    }
}
