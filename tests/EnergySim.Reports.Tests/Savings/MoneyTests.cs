using System.Globalization;
using EnergySim.Reports.Drawing;

namespace EnergySim.Reports.Savings;

public sealed class MoneyTests
{
    [Theory]
    [InlineData("USD", "2411.5", "$2,412", "$2,411.50")]
    [InlineData("USD", "-35.49", "−$35", "−$35.49")]
    [InlineData("USD", "-0.4", "$0", "−$0.40")]
    [InlineData("EUR", "0", "€0", "€0.00")]
    [InlineData("GBP", "14000", "£14,000", "£14,000.00")]
    [InlineData("AUD", "12", "A$12", "A$12.00")]
    [InlineData("CAD", "12", "C$12", "C$12.00")]
    [InlineData("CHF", "-1200", "−CHF\u00a01,200", "−CHF\u00a01,200.00")]
    public void Whole_AndExact_SayCurrencySignAndDigits(string code, string amount, string whole, string exact)
    {
        decimal value = decimal.Parse(amount, CultureInfo.InvariantCulture);
        Assert.Equal(whole, new Money(code).Whole(value));
        Assert.Equal(exact, new Money(code).Exact(value));
    }
}
