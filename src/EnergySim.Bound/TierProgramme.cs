using EnergySim.Tariffs;

namespace EnergySim.Bound;

/// <summary>
/// Tiers as a linear programme: the bill's kWh are cut into steps, the allowance's credit being one of them. Rising prices fill the cheapest steps
/// first of themselves; that a step is full before the next begins is else a choice. Prices by period, or of two versions, hold for shares of
/// each step, which a linear programme only keeps within each period's kWh.
/// </summary>
internal sealed class TierProgramme(Programme programme, TariffCalendar calendar)
{
    public void Add(BillLines lines, int bill, TariffVersion atEnd, Expression[] billed, int[] buckets)
    {
        if (buckets.All(b => TiersOf(b) is null)) return;
        double allowanceKwh = AllowanceKwh(bill, atEnd);
        IEnumerable<double> cuts = buckets.Select(TiersOf).OfType<Tiers>()
            .SelectMany(t => t.Steps.Select(s => s.FromFraction * allowanceKwh).Append(t.CreditPerKwh is null ? 0 : allowanceKwh));
        double[] from = [.. cuts.Append(0).Distinct().Order()];
        double[][] prices = [.. from.Select(kwh => buckets.Select(b => PriceOf(b, kwh, allowanceKwh)).ToArray())];
        var total = new Expression();
        foreach (Expression kwh in billed) total.Plus(kwh);
        double mostKwh = Math.Max(0, programme.HighOf(total));
        int[] steps = [.. from.Select((kwh, s) => programme.Column(0, s + 1 < from.Length ? Math.Min(mostKwh, from[s + 1] - kwh) : mostKwh))];
        Fill(steps, from, prices, total);
        for (int s = 0; s < steps.Length; s++)
        {
            if (prices[s].Distinct().Count() == 1) lines["tier"].Plus(steps[s], prices[s][0]);
            else lines["tier"].Plus(Shared(steps[s], prices[s], KwhOf(billed)));
        }
    }

    // Together the steps hold the bill's kWh, or nothing where its net is below zero.
    private void Fill(int[] steps, double[] from, double[][] prices, Expression total)
    {
        var filled = new Expression();
        foreach (int step in steps) filled.Plus(step);
        if (programme.LowOf(total) >= 0) programme.Row(new Expression().Plus(filled).Minus(total), 0, 0);
        else
        {
            programme.AtLeastZero(new Expression().Plus(filled).Minus(total));
            programme.Either("a net below zero is in no step", new Expression().Plus(total).Minus(filled), new Expression().Minus(filled));
        }
        for (int s = 1; s < steps.Length; s++)
            if (prices[s].Min() < prices[s - 1].Max())
                programme.Either(
                    "a step begins where the last is full", new Expression().Plus(steps[s - 1]).Plus(-(from[s] - from[s - 1])), new Expression().Minus(steps[s]));
    }

    // Columns of the kWh that steps are shared out by: none below zero.
    private int[] KwhOf(Expression[] billed)
    {
        var columns = new int[billed.Length];
        for (int i = 0; i < columns.Length; i++)
        {
            if (billed[i].Terms is [(int only, 1)] && billed[i].Constant == 0) columns[i] = only;
            else if (programme.LowOf(billed[i]) >= 0) columns[i] = programme.Named(billed[i], 0);
            else
            {
                columns[i] = programme.PositivePart(billed[i]);
                programme.Either("a net below zero has no share of a step", new Expression().Plus(billed[i]).Minus(columns[i]), new Expression().Minus(columns[i]));
            }
        }
        return columns;
    }

    private Expression Shared(int step, double[] prices, int[] kwh)
    {
        int[] shares = [.. kwh.Select(k => programme.Column(0, programme.Columns[k].High))];
        Expression sum = new(), amount = new();
        for (int i = 0; i < shares.Length; i++)
        {
            sum.Plus(shares[i]);
            amount.Plus(shares[i], prices[i]);
            programme.AtLeastZero(new Expression().Plus(kwh[i]).Minus(shares[i]));
        }
        programme.Row(sum.Minus(step), 0, 0);
        programme.Claim("a step's kWh are shared out over the periods by their kWh", values => ProRata.Holds(values, shares, kwh));
        return amount;
    }

    private Tiers? TiersOf(int bucket) => calendar.Tariff.Versions[calendar.Buckets[bucket].Version].Tiers;

    // The credit is part of the price: the kWh under the allowance cost so much less.
    private double PriceOf(int bucket, double kwh, double allowanceKwh)
    {
        if (TiersOf(bucket) is not Tiers tiers) return 0;
        TierStep? step = tiers.Steps.LastOrDefault(s => s.FromFraction * allowanceKwh <= kwh);
        double price = step is null ? 0 : (double)(step.PricePerKwh ?? step.ByPeriod!.GetValueOrDefault(calendar.Buckets[bucket].Period));
        return price - (tiers.CreditPerKwh is decimal credit && kwh < allowanceKwh ? (double)credit : 0);
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
}
