using System.Globalization;
using EnergySim.Economics;

namespace EnergySim.Studies.Finance;

/// <summary>One month of a loan.</summary>
/// <param name="Payment">Paid, without a paydown.</param>
/// <param name="Interest">Of that, interest.</param>
/// <param name="Principal">Of that, repayment.</param>
/// <param name="Paydown">Paid down besides.</param>
/// <param name="Balance">Owed after it.</param>
public readonly record struct LoanMonth(double Payment, double Interest, double Principal, double Paydown, double Balance);

/// <summary>A loan month by month: level payments, worked out anew once where the terms say so. Amounts are not rounded.</summary>
public sealed record LoanSchedule
{
    /// <summary>Lent, fees included.</summary>
    public required double Principal { get; init; }

    /// <summary>The months.</summary>
    public required IReadOnlyList<LoanMonth> Months { get; init; }

    /// <summary>The first payment.</summary>
    public double FirstPayment => Months[0].Payment;

    /// <summary>The last payment: another one where the payments were worked out anew.</summary>
    public double LastPayment => Months[^1].Payment;

    /// <summary>All payments and paydowns.</summary>
    public double TotalPaid => Months.Sum(m => m.Payment + m.Paydown);

    /// <summary>All interest.</summary>
    public double TotalInterest => Months.Sum(m => m.Interest);

    /// <summary>What is paid in a year of the loan, counted from 1.</summary>
    public double PaidInYear(int year) => Months.Skip((year - 1) * 12).Take(12).Sum(m => m.Payment + m.Paydown);

    /// <summary>The level payment that repays a sum: P i / (1 − (1 + i)^−n), P / n without interest.</summary>
    /// <param name="principal">The sum.</param>
    /// <param name="rate">Interest of one period.</param>
    /// <param name="periods">Number of payments, each at a period's end.</param>
    public static double Payment(double principal, double rate, int periods) =>
        rate == 0 ? principal / periods : principal * rate / (1 - Math.Pow(1 + rate, -periods));

    /// <summary>The schedule of a loan.</summary>
    /// <param name="terms">The loan.</param>
    /// <param name="price">The cash price that it pays for, less what is paid at the start.</param>
    /// <exception cref="ArgumentException">Nothing is lent, or a term is out of its range.</exception>
    public static LoanSchedule Of(LoanTerms terms, decimal price)
    {
        ArgumentNullException.ThrowIfNull(terms);
        double cash = (double)price, principal = cash - (double)terms.Down + (terms.FeeFraction * cash) + (double)terms.Fee;
        if (terms.Months < 1) throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"A loan has at least one payment, not {terms.Months}."), nameof(terms));
        if (!(principal > 0)) throw new ArgumentException("Nothing is lent: what is paid at the start covers it all.", nameof(terms));
        double rate = terms.RateFraction / 12;
        double paydown = (terms.Reamortisation?.PaydownFraction ?? 0) * cash;
        if (terms.Reamortisation is { } again && (again.Month < 1 || again.Month >= terms.Months || paydown > principal))
            throw new ArgumentException("The payments are worked out anew within the loan's months, and no more is paid down than is lent.", nameof(terms));
        double payment = Payment(principal - paydown, rate, terms.Months), balance = principal;
        var months = new List<LoanMonth>(terms.Months);
        for (int month = 1; month <= terms.Months; month++)
        {
            double interest = balance * rate, repaid = payment - interest, down = 0;
            balance -= repaid;
            if (month == terms.Reamortisation?.Month)
            {
                down = terms.Reamortisation.IsPaid ? Math.Min(paydown, balance) : 0;
                balance -= down;
            }
            months.Add(new LoanMonth(payment, interest, repaid, down, balance));
            if (month == terms.Reamortisation?.Month) payment = Payment(balance, rate, terms.Months - month);
        }
        return new LoanSchedule { Principal = principal, Months = months };
    }

    /// <summary>The yearly rate, twelve times a month's, at which the payments are worth the cash that they stand in for: with fees it is above the stated rate.</summary>
    /// <param name="cash">What the loan pays for.</param>
    /// <returns>Null where no single rate does.</returns>
    public double? AnnualPercentageRate(double cash)
    {
        var flows = new CashFlows { Basis = MoneyBasis.Nominal, Upfront = cash, Yearly = [.. Months.Select(m => -(m.Payment + m.Paydown))] };
        return RatesOfReturn.Of(flows).Only is AnnualRate month ? 12 * month.Fraction : null;
    }
}
