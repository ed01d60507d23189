using EnergySim.Economics;
using EnergySim.Studies.Finance;
using NodaTime;

namespace EnergySim.Studies.Lifetime;

/// <summary>The money of one offer over the years: its year table and, where it has a price, its flows.</summary>
internal sealed class OfferMoney
{
    private readonly OfferFlows _flows;
    private readonly MoneyTerms _terms;
    private readonly LocalDate _finished;
    private readonly decimal[] _savings;

    /// <param name="flows">The offer's years.</param>
    /// <param name="terms">What is assumed, nominal.</param>
    /// <param name="first">The first day of the first year, on which the installation is finished, and its calendar year.</param>
    /// <param name="asItIs">The bills of the home as it is.</param>
    /// <param name="bills">The offer's bills.</param>
    /// <param name="savingFactor">What every year's saving is multiplied by; 1 = as simulated.</param>
    public OfferMoney(OfferFlows flows, MoneyTerms terms, (LocalDate Finished, int CalendarYear) first, IReadOnlyList<decimal> asItIs, IReadOnlyList<decimal> bills, double savingFactor = 1)
    {
        (_flows, _terms, _finished) = (flows, terms, first.Finished);
        _savings = [.. asItIs.Zip(bills, (before, after) => savingFactor == 1 ? before - after : Cents((double)(before - after) * savingFactor))];
        Years = [.. Enumerable.Range(0, bills.Count).Select(t => YearOf(t, first.CalendarYear, bills[t]))];
    }

    /// <summary>The offer.</summary>
    public Offer Offer => _flows.Offer;

    /// <summary>When the first cells' warranty ended.</summary>
    public WarrantyEnd? WarrantyEnd => _flows.WarrantyEnd;

    /// <summary>The year table.</summary>
    public IReadOnlyList<LifetimeYear> Years { get; }

    /// <summary>Incentives paid once, at the start.</summary>
    public decimal UpfrontIncentives => Earned(isOwner: true).Sum(i => Cents(i.PriceFraction * (double)(Offer.Price ?? 0)) + i.Amount
        + Cents((double)i.AmountPerKw * FirstYear.MostOutKw) + Cents((double)i.AmountPerKwh * FirstYear.UsableKwh));

    /// <summary>Bills saved, and incentives paid by the year, less upkeep.</summary>
    public CashFlows Savings => Flows(0, y => y.Saving + y.IncentivePaid - y.Upkeep);

    /// <summary>Bills saved alone.</summary>
    public CashFlows BillSavings => Flows(0, y => y.Saving);

    /// <summary>Price less what is paid for it, and replacements less what is left of them, as positive costs.</summary>
    /// <exception cref="InvalidOperationException">The offer states no price.</exception>
    public CashFlows Investment => Flows((Offer.Price ?? throw new InvalidOperationException($"{Offer.Name} states no price.")) - UpfrontIncentives, y => y.Replacements - y.ResidualValue);

    /// <summary>Everything, bought for cash.</summary>
    public CashFlows Cash => Savings.Less(Investment);

    /// <summary>What it comes to, bought for cash; null where no price is stated.</summary>
    public Indicators? Indicators => Offer.Price is null ? null
        : Finance.Indicators.Of(Savings, Investment, Flows(0, y => y.Upkeep), [.. Years.Select(y => y.ShiftedKwh)], _terms.Discount, _terms.InflationFraction);

    /// <summary>Incentives paid by the year to one who owns the system or not.</summary>
    public decimal PaidInYear(int index, bool isOwner) => Earned(isOwner).Where(i => !(index >= i.Years))
        .Sum(i => Cents((double)i.YearlyPerKw * Math.Min(_flows.Years[index].MostOutKw, _flows.Years[index].AboveReserveKwh / i.EventHours)));

    /// <summary>An amount to the cent.</summary>
    public static decimal Cents(double amount) => Math.Round((decimal)amount, 2, MidpointRounding.AwayFromZero);

    private OfferYear FirstYear => _flows.Years[0];

    private IEnumerable<Incentive> Earned(bool isOwner) => _terms.Incentives.Where(i => i.Holds(_finished) && (isOwner || !i.ForOwnersOnly));

    private LifetimeYear YearOf(int index, int firstCalendarYear, decimal bill)
    {
        OfferYear year = _flows.Years[index];
        double costs = GrownPlan.Factor(_terms.Growth.Costs, index);
        double replaced = year.IsReplaced ? (double)_terms.Life.Replacement!.PricePerUnit * Offer.Units : 0;
        if (_terms.BatteryInverter is { } own && own.Year == index + 1) replaced += (double)own.Price * Offer.Units;
        if (_terms.SolarInverter is { } wall && wall.Year == index + 1 && Offer.ReplacesSolarInverter) replaced -= (double)wall.Price;
        return new LifetimeYear
        {
            Year = index + 1,
            CalendarYear = firstCalendarYear + index,
            CapacityFraction = year.CapacityFraction,
            UsableKwh = year.UsableKwh,
            FullCycles = year.FullCycles,
            ShiftedKwh = year.GivenKwh,
            Bill = bill,
            Saving = _savings[index],
            IncentivePaid = PaidInYear(index, isOwner: true),
            Upkeep = Cents((double)_terms.UpkeepPerYear * costs),
            Replacements = Cents(replaced * costs),
            ResidualValue = index == _flows.Years.Count - 1 ? ResidualValue() : 0,
            IsReplaced = year.IsReplaced,
        };
    }

    // Straight from new to the end of life; the first cells, and all else, are worth nothing at the end.
    private decimal ResidualValue()
    {
        int last = _flows.Years.Count - 1, came = last;
        while (came >= 0 && !_flows.Years[came].IsReplaced) came--;
        if (came < 0) return 0;
        double end = _terms.Life.EndOfLifeFraction, left = end < 1 ? Math.Max(0, (_flows.Years[last].EndCapacityFraction - end) / (1 - end)) : 0;
        return Cents((double)_terms.Life.Replacement!.PricePerUnit * Offer.Units * GrownPlan.Factor(_terms.Growth.Costs, came) * left);
    }

    private CashFlows Flows(decimal upfront, Func<LifetimeYear, decimal> yearly) =>
        new() { Basis = MoneyBasis.Nominal, Upfront = (double)upfront, Yearly = [.. Years.Select(y => (double)yearly(y))] };
}
