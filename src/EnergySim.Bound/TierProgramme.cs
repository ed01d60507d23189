using EnergySim.Tariffs;

namespace EnergySim.Bound;

/// <summary>Tiers as a linear programme: the bill's kWh are cut into steps whose prices rise, so that the cheapest are filled first of themselves.</summary>
internal sealed class TierProgramme(Programme programme, TariffCalendar calendar)
{
    public void Add(BillLines lines, int bill, TariffVersion atEnd, Expression[] billed, int[] buckets)
    {
        if (!calendar.Tariff.Versions.Any(v => v.Tiers is not null)) return;
        Tiers[] all = [.. buckets.Select(b => calendar.Tariff.Versions[calendar.Buckets[b].Version]).Distinct().Select(v => v.Tiers).OfType<Tiers>()];
        if (all.Length == 0) return;
        Tiers tiers = all[0];
        double allowanceKwh = AllowanceKwh(bill, atEnd);
        double[] prices = [.. PricesOf(tiers)];
        if (all.Skip(1).Any(t => !PricesOf(t).SequenceEqual(prices))) throw new NotSupportedException("Tiers whose prices change within a bill are not linear, so the bound does not cover them.");
        double[] from = [.. tiers.Steps.Select(s => s.FromFraction * allowanceKwh)];
        if (tiers.CreditPerKwh is decimal credit) (from, prices) = WithCredit(from, prices, allowanceKwh, (double)credit);
        for (int s = 1; s < prices.Length; s++)
            if (prices[s] < prices[s - 1]) throw new NotSupportedException("Tiers whose prices fall are not a linear charge, so the bound does not cover them.");

        var total = new Expression();
        foreach (Expression kwh in billed) total.Plus(kwh);
        var filled = new Expression();
        for (int s = 0; s < prices.Length; s++)
        {
            int step = programme.Column(0, s + 1 < from.Length ? from[s + 1] - from[s] : double.PositiveInfinity);
            filled.Plus(step);
            lines["tier"].Plus(step, prices[s]);
        }
        // A net below zero fills no step. Where the first step costs less than nothing, it may not be filled beyond the kWh.
        if (prices[0] >= 0) programme.Row(filled.Plus(total, -1), 0, double.PositiveInfinity);
        else if (calendar.Tariff.Versions[calendar.VersionAtEndOf(calendar.Bills[bill])].Export is ExportTerms.RetailNetting)
            throw new NotSupportedException("A credit under an allowance on netted kWh is not linear, so the bound does not cover it.");
        else programme.Row(filled.Plus(total, -1), 0, 0);
    }

    private double AllowanceKwh(int bill, TariffVersion atEnd)
    {
        if (atEnd.Tiers?.AllowanceKwhPerBill is double perBill) return perBill;
        double allowance = 0;
        foreach ((BillPart part, int days) in calendar.Parts)
            if (part.Bill == bill && calendar.Tariff.Versions[part.Version].Tiers?.AllowanceKwhPerDay is { } perDay)
                allowance += days * perDay.GetValueOrDefault(part.Season);
        return allowance;
    }

    private static IEnumerable<double> PricesOf(Tiers tiers) => tiers.Steps.Select(step => (double)(step.PricePerKwh
        ?? (step.ByPeriod!.Values.Distinct().Count() == 1
            ? step.ByPeriod.Values.First()
            : throw new NotSupportedException("Tiers whose prices differ by period are shared out pro rata, which is not linear, so the bound does not cover them."))));

    // The credit is a step of its own: the kWh under the allowance cost so much less.
    private static (double[] From, double[] Prices) WithCredit(double[] from, double[] prices, double allowanceKwh, double credit)
    {
        double[] cuts = [.. from.Append(0).Append(allowanceKwh).Distinct().Order()];
        double PriceAt(double kwh)
        {
            int step = Array.FindLastIndex(from, f => f <= kwh);
            return (step < 0 ? 0 : prices[step]) - (kwh < allowanceKwh ? credit : 0);
        }
        return (cuts, [.. cuts.Select(PriceAt)]);
    }
}
