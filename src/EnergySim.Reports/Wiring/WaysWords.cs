using System.Globalization;
using System.Text;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.WiringFit;
using EnergySim.Wiring;

namespace EnergySim.Reports.Wiring;

/// <summary>Everything the picture of ways says.</summary>
internal sealed class WaysWords(WiringComparison comparison, OfferWays offer, Money money)
{
    public string Title => $"Ways to connect: {Lettering.Clean(offer.Offer.Name)}";

    public string Lead => offer.Cheapest is WayResult cheapest
        ? $"Cost over {Years}, the least first. Cheapest: {Lettering.Clean(cheapest.Fit.Way.Name)}."
        : "None of these ways may be.";

    public IReadOnlyList<string> Origin => [Lettering.Clean(comparison.Home), "tariff " + Lettering.Clean(comparison.Tariff)];

    public string Caution
    {
        get
        {
            string? note = comparison.Notes.FirstOrDefault(n => n.Contains("invented", StringComparison.OrdinalIgnoreCase));
            bool placeholders = offer.Ways.SelectMany(w => w.Costs).Any(c => c.IsPlaceholder);
            return string.Join(" ", new[] { WiringComparison.ToBeConfirmed, placeholders ? "Wiring prices are placeholders." : null, note is null ? null : Lettering.Clean(note) }.OfType<string>());
        }
    }

    /// <summary>Every figure, in words.</summary>
    public string Description
    {
        get
        {
            var words = new StringBuilder($"{Title}. {Lead}");
            foreach (WayResult way in offer.Ways.Where(w => w.Run is not null))
            {
                words.Append(CultureInfo.InvariantCulture, $" {Name(way)}: {money.Exact(way.Run!.YearsCost)} ({string.Join(", ", Parts(way).Select((p, i) => $"{Part(i)} {money.Exact(p)}"))}), {Figures(way)}.");
            }
            foreach (WayResult way in offer.Ways.Where(w => w.Run is null)) words.Append(CultureInfo.InvariantCulture, $" {Barred(way)}.");
            return words.Append(CultureInfo.InvariantCulture, $" {string.Join("; ", Origin)}. {Caution}").ToString();
        }
    }

    private string Years => string.Create(CultureInfo.InvariantCulture, $"{comparison.Plan.Years} years");

    public static string Part(int part) => part switch { 0 => "battery", 1 => "wiring", _ => "bills at today's prices" };

    public static string Name(WayResult way) => Lettering.Clean(way.Fit.Way.Name) + (way.DominatedBy is null ? "" : " (dominated)");

    /// <summary>Battery, wiring, bills of the years.</summary>
    public decimal[] Parts(WayResult way) => [(way.Price ?? way.WiringPrice) - way.WiringPrice, way.WiringPrice, comparison.Plan.Years * way.Run!.AnnualBill];

    /// <summary>Bill a year, power and hours off the grid; in few words for a narrow picture.</summary>
    public string Figures(WayResult way, bool isNarrow = false)
    {
        string bill = $"{money.Whole(way.Run!.AnnualBill)} a year";
        if (way.Run.Backup is not WayBackup backup) return isNarrow ? bill : $"{bill} · nothing in an outage";
        double hours = backup.Survival.HoursLastedBy(0.9);
        string least = hours >= backup.Survival.HorizonHours ? "≥ " : "";
        if (isNarrow) return string.Create(CultureInfo.InvariantCulture, $"{bill} · {backup.PowerKw:0.#} kW, {least}{hours:0.#} h");
        return string.Create(CultureInfo.InvariantCulture, $"{bill} · {(backup.KeptFraction < 1 ? "kept circuits" : "whole home")}: {backup.PowerKw:0.#} kW, {least}{hours:0.#} h in 9 of 10 outages");
    }

    public static string Barred(WayResult way) => $"{(way.Fit.Standing == Standing.Unknown ? "A fact is missing" : "May not be")}: {Lettering.Clean(way.Fit.Way.Name)}, {way.Fit.Why}";
}
