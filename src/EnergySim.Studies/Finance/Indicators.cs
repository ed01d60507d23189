using EnergySim.Economics;

namespace EnergySim.Studies.Finance;

/// <summary>
/// What an investment comes to, by the published practices: net present value (ASTM E917), savings-to-investment ratio (E964), internal
/// rate of return (E1057), payback (E1121), levelised cost (Schmidt et al. 2019).
/// </summary>
public sealed record Indicators
{
    /// <summary>All flows, nominal.</summary>
    public required CashFlows Flows { get; init; }

    /// <summary>Present value of all flows. Nominal flows at the nominal rate and real ones at the real rate give the same.</summary>
    public required double NetPresentValue { get; init; }

    /// <summary>Years until the flows have paid back the start; null = not within the horizon.</summary>
    public required double? SimplePaybackYears { get; init; }

    /// <summary>The same with each flow brought to the start.</summary>
    public required double? DiscountedPaybackYears { get; init; }

    /// <summary>Rates of return with inflation in them.</summary>
    public required RatesOfReturn NominalReturns { get; init; }

    /// <summary>Rates of return above inflation.</summary>
    public required RatesOfReturn RealReturns { get; init; }

    /// <summary>Present value of what is saved over present value of what is invested; null = nothing is invested.</summary>
    public required double? SavingsToInvestment { get; init; }

    /// <summary>Present value of all costs over present value of the kWh that the cells gave, money of the start; null = they gave nothing.</summary>
    public required double? CostPerKwhShifted { get; init; }

    /// <summary>True when the sum of the flows falls below 0 again after it was paid back (a replacement, say).</summary>
    public bool FallsBelowAgain
    {
        get
        {
            IReadOnlyList<double> sums = Flows.Cumulative();
            return SimplePaybackYears is double years && sums.Skip((int)Math.Ceiling(years)).Any(s => s < -0.005);
        }
    }

    /// <summary>Works them out.</summary>
    /// <param name="savings">Bills saved less upkeep, nominal; nothing at the start.</param>
    /// <param name="investment">Price and replacements less what is paid for them, as positive costs, nominal.</param>
    /// <param name="upkeep">Upkeep as positive costs, nominal: a part of the cost of a kWh.</param>
    /// <param name="shiftedKwh">What the cells gave in each year, kWh AC.</param>
    /// <param name="discount">Discount rate.</param>
    /// <param name="inflationFraction">General rise of prices a year.</param>
    public static Indicators Of(CashFlows savings, CashFlows investment, CashFlows upkeep, IReadOnlyList<double> shiftedKwh, AnnualRate discount, double inflationFraction)
    {
        ArgumentNullException.ThrowIfNull(savings);
        ArgumentNullException.ThrowIfNull(investment);
        ArgumentNullException.ThrowIfNull(upkeep);
        AnnualRate nominal = discount.In(MoneyBasis.Nominal, inflationFraction), real = discount.In(MoneyBasis.Real, inflationFraction);
        CashFlows flows = savings.Less(investment);
        double invested = investment.PresentValue(nominal);
        return new Indicators
        {
            Flows = flows,
            NetPresentValue = flows.PresentValue(nominal),
            SimplePaybackYears = flows.SimplePaybackYears(),
            DiscountedPaybackYears = flows.DiscountedPaybackYears(nominal),
            NominalReturns = RatesOfReturn.Of(flows),
            RealReturns = RatesOfReturn.Of(flows.In(MoneyBasis.Real, inflationFraction)),
            SavingsToInvestment = invested > 0 ? savings.PresentValue(nominal) / invested : null,
            CostPerKwhShifted = CostPerKwh(invested + upkeep.PresentValue(nominal), shiftedKwh, real.Fraction),
        };
    }

    /// <summary>Levelised cost: present value of the costs over Σ kWh / (1 + r)^t. The kWh are discounted at the real rate, so that the result is in money of the start.</summary>
    /// <param name="presentCost">Present value of the costs.</param>
    /// <param name="kwh">Energy of each year, kWh.</param>
    /// <param name="realRate">Real discount rate.</param>
    /// <returns>Null where there is no energy.</returns>
    public static double? CostPerKwh(double presentCost, IReadOnlyList<double> kwh, double realRate)
    {
        double energy = new CashFlows { Basis = MoneyBasis.Real, Upfront = 0, Yearly = kwh }.PresentValue(new AnnualRate(realRate, MoneyBasis.Real));
        return energy > 0 ? presentCost / energy : null;
    }
}
