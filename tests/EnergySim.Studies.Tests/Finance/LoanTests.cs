using EnergySim.Economics;
using EnergySim.Studies.Finance;

namespace EnergySim.Studies.Tests.Finance;

public class LoanTests
{
    [Theory]
    // PMT of the documentation and two published worked answers (REFERENCE.md §5.1).
    [InlineData(10000, 0.08 / 12, 10, 1037.0320893592)]
    [InlineData(150000, 0.0475 / 12, 300, 855.17604207164)]
    [InlineData(25000, 0.085, 12, 3403.82145169876)]
    public void Payment_SpreadsheetExamples_Agree(double principal, double rate, int periods, double payment) =>
        Assert.Equal(payment, LoanSchedule.Payment(principal, rate, periods), 1e-8);

    [Fact]
    public void Schedule_TwentyThousandOverTenYears_IsTheTable()
    {
        // REFERENCE.md §5.2 (computed there): 20,000 at 6 % a year, monthly, 120 payments.
        LoanSchedule loan = LoanSchedule.Of(new LoanTerms { RateFraction = 0.06, Months = 120 }, 20000);
        Assert.Equal(222.04100388330, loan.FirstPayment, 1e-9);
        Row(1, 100.00, 122.0410, 19877.9590);
        Row(12, 93.1174, 128.9236, 18494.5556);
        Row(60, 58.2450, 163.7960, 11485.1954);
        Row(120, 1.1047, 220.9363, 0);
        Assert.Equal(6644.9205, loan.TotalInterest, 5e-5);
        Assert.Equal(26644.9205, loan.TotalPaid, 5e-5);
        Assert.Equal(12 * loan.FirstPayment, loan.PaidInYear(10), 1e-9);
        Assert.Equal(0, loan.PaidInYear(11));
        // Without fees the true rate is the stated one.
        Assert.Equal(0.06, loan.AnnualPercentageRate(20000)!.Value, 1e-9);

        void Row(int month, double interest, double principal, double balance)
        {
            LoanMonth row = loan.Months[month - 1];
            Assert.Equal(interest, row.Interest, 5e-5);
            Assert.Equal(principal, row.Principal, 5e-5);
            Assert.Equal(balance, row.Balance, 5e-5);
        }
    }

    [Fact]
    public void Fees_AreLentToo_AndRaiseTheTrueRate()
    {
        var terms = new LoanTerms { RateFraction = 0.04, Months = 240, FeeFraction = 0.25, Fee = 100, Down = 1000 };
        LoanSchedule loan = LoanSchedule.Of(terms, 20000);
        Assert.Equal(20000 - 1000 + 5000 + 100, loan.Principal, 1e-9);
        double rate = loan.AnnualPercentageRate(19000)!.Value;
        Assert.InRange(rate, 0.06, 0.09);
        // By its meaning: at that rate the payments are worth the cash.
        Assert.Equal(19000, Enumerable.Range(1, 240).Sum(m => loan.FirstPayment * Math.Pow(1 + (rate / 12), -m)), 1e-4);
    }

    [Fact]
    public void NewPayments_PaydownMade_StayTheSame_NotMade_Jump()
    {
        // 20,000 at 6 % over 120 months; the first 18 payments count on 6,000 being paid down in month 18.
        LoanTerms With(bool paid) => new() { RateFraction = 0.06, Months = 120, Reamortisation = new Reamortisation(18, 0.3, paid) };
        LoanSchedule paid = LoanSchedule.Of(With(true), 20000), not = LoanSchedule.Of(With(false), 20000);
        Assert.Equal(LoanSchedule.Payment(14000, 0.005, 120), paid.FirstPayment, 1e-9);
        Assert.Equal(paid.FirstPayment, not.FirstPayment);
        // By hand: what is owed after 18 such payments, over the 102 months left.
        double owed = (20000 * Math.Pow(1.005, 18)) - (paid.FirstPayment * (Math.Pow(1.005, 18) - 1) / 0.005);
        Assert.Equal(LoanSchedule.Payment(owed - 6000, 0.005, 102), paid.LastPayment, 1e-8);
        Assert.Equal(LoanSchedule.Payment(owed, 0.005, 102), not.LastPayment, 1e-8);
        Assert.True(not.LastPayment > 1.4 * not.FirstPayment);
        Assert.Equal(6000, paid.Months.Sum(m => m.Paydown), 1e-9);
        Assert.Equal(0, paid.Months[^1].Balance, 1e-6);
        Assert.Equal(0, not.Months[^1].Balance, 1e-6);
    }

    [Fact]
    public void Schedule_ThatCanNotBe_IsRefused()
    {
        Assert.Contains("Nothing is lent", Assert.Throws<ArgumentException>(() => LoanSchedule.Of(new LoanTerms { RateFraction = 0, Months = 12, Down = 100 }, 100)).Message, StringComparison.Ordinal);
        Assert.Contains("within the loan's months", Assert.Throws<ArgumentException>(() => LoanSchedule.Of(
            new LoanTerms { RateFraction = 0, Months = 12, Reamortisation = new Reamortisation(12, 0.3, true) }, 100)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Payment_WithoutInterest_IsAnEqualShare() => Assert.Equal(100, LoanSchedule.Payment(1200, 0, 12));
}
