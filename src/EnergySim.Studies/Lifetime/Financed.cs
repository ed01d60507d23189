using System.Globalization;
using EnergySim.Economics;
using EnergySim.Studies.Finance;

namespace EnergySim.Studies.Lifetime;

/// <summary>Works out cash, loan and lease of an offer.</summary>
internal static class Financed
{
    /// <summary>The ways that can be worked out: cash and loan where a price is stated, the lease where the terms name the offer.</summary>
    public static IReadOnlyList<FinancedOffer> Of(OfferMoney money, MoneyTerms terms)
    {
        var ways = new List<FinancedOffer>();
        if (money.Offer.Price is decimal price)
        {
            ways.Add(Cash(money, terms, price));
            if (terms.Loan is LoanTerms loan) ways.Add(Loan(money, terms, loan, price));
        }
        if (terms.Lease is LeaseTerms lease && lease.MonthlyByOffer.TryGetValue(money.Offer.Name, out decimal monthly)) ways.Add(Lease(money, terms, lease, monthly));
        return ways;
    }

    private static FinancedOffer Cash(OfferMoney money, MoneyTerms terms, decimal price)
    {
        CashFlows flows = money.Cash;
        return new FinancedOffer
        {
            Way = PaymentWay.Cash,
            PaidAtStart = price - money.UpfrontIncentives,
            Financed = 0,
            Fees = 0,
            FirstMonthly = null,
            LastMonthly = null,
            PaidDown = 0,
            AnnualPercentageRate = null,
            TotalPaid = price,
            FirstYearNet = money.Years[0].NetCash,
            NetPresentValue = flows.PresentValue(terms.Discount),
            Flows = flows,
            AtEnd = "",
        };
    }

    private static FinancedOffer Loan(OfferMoney money, MoneyTerms terms, LoanTerms loan, decimal price)
    {
        LoanSchedule schedule = LoanSchedule.Of(loan, price);
        double[] yearly = [.. money.Savings.Yearly.Select((saving, t) => saving - money.Investment.Yearly[t] - schedule.PaidInYear(t + 1))];
        int monthsPaid = 12 * yearly.Length;
        if (monthsPaid < schedule.Months.Count) yearly[^1] -= schedule.Months[monthsPaid - 1].Balance;
        var flows = new CashFlows { Basis = MoneyBasis.Nominal, Upfront = (double)(money.UpfrontIncentives - loan.Down), Yearly = yearly };
        return new FinancedOffer
        {
            Way = PaymentWay.Loan,
            PaidAtStart = loan.Down - money.UpfrontIncentives,
            Financed = OfferMoney.Cents(schedule.Principal),
            Fees = OfferMoney.Cents(schedule.Principal) - (price - loan.Down),
            FirstMonthly = OfferMoney.Cents(schedule.FirstPayment),
            LastMonthly = OfferMoney.Cents(schedule.LastPayment),
            PaidDown = OfferMoney.Cents(schedule.Months.Sum(m => m.Paydown)),
            AnnualPercentageRate = schedule.AnnualPercentageRate((double)(price - loan.Down)),
            TotalPaid = OfferMoney.Cents(schedule.TotalPaid) + loan.Down,
            FirstYearNet = OfferMoney.Cents(yearly[0]),
            NetPresentValue = flows.PresentValue(terms.Discount),
            Flows = flows,
            AtEnd = string.Create(CultureInfo.InvariantCulture, $"paid off after {loan.Months} months"),
        };
    }

    // The lessor keeps the system running; only bills saved and incentives open to all are the household's until it is bought.
    private static FinancedOffer Lease(OfferMoney money, MoneyTerms terms, LeaseTerms lease, decimal monthly)
    {
        double total = 0, first = (double)monthly;
        double? buyout = lease.BuyoutFraction is double share && money.Offer.Price is decimal price ? share * (double)price : null;
        var yearly = new double[money.Years.Count];
        for (int t = 0; t < Math.Max(yearly.Length, lease.Years); t++)
        {
            double paid = t < lease.Years ? 12 * first * GrownPlan.Factor(lease.EscalatorFraction, t) : 0;
            if (t == lease.Years - 1) paid += buyout ?? 0;
            total += paid;
            if (t >= yearly.Length) continue;
            LifetimeYear year = money.Years[t];
            bool isOwner = t >= lease.Years;
            yearly[t] = isOwner
                ? (buyout is null ? 0 : (double)(year.Saving + money.PaidInYear(t, isOwner) - year.Upkeep - year.Replacements + year.ResidualValue))
                : (double)(year.Saving + money.PaidInYear(t, isOwner)) - paid;
        }
        var flows = new CashFlows { Basis = MoneyBasis.Nominal, Upfront = 0, Yearly = yearly };
        return new FinancedOffer
        {
            Way = PaymentWay.Lease,
            PaidAtStart = 0,
            Financed = 0,
            Fees = 0,
            FirstMonthly = monthly,
            LastMonthly = OfferMoney.Cents(first * GrownPlan.Factor(lease.EscalatorFraction, lease.Years - 1)),
            PaidDown = 0,
            AnnualPercentageRate = null,
            TotalPaid = OfferMoney.Cents(total),
            FirstYearNet = OfferMoney.Cents(yearly[0]),
            NetPresentValue = flows.PresentValue(terms.Discount),
            Flows = flows,
            AtEnd = buyout is double bought
                ? string.Create(CultureInfo.InvariantCulture, $"bought for {bought:#,0} after {lease.Years} years")
                : string.Create(CultureInfo.InvariantCulture, $"taken away after {lease.Years} years: it saves nothing from then on"),
        };
    }
}
