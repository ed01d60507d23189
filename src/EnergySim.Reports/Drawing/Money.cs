using System.Globalization;

namespace EnergySim.Reports.Drawing;

/// <summary>Amounts of a currency in words.</summary>
internal sealed class Money
{
    private const string NoBreakSpace = "\u00a0";

    /// <param name="code">ISO 4217 code.</param>
    public Money(string code) => Symbol = code switch
    {
        "USD" => "$",
        "EUR" => "€",
        "GBP" => "£",
        "AUD" => "A$",
        "CAD" => "C$",
        _ => Drawing.Lettering.Clean(code),
    };

    /// <summary>What stands before an amount; the code itself where a currency has no sign of its own here.</summary>
    public string Symbol { get; }

    /// <summary>To the whole unit, half away from zero: <c>$2,412</c>, <c>−CHF 35</c>.</summary>
    public string Whole(decimal amount) => Signed(Rounded(amount), Prefix + WholeDigits(amount));

    /// <summary>To the cent.</summary>
    public string Exact(decimal amount) => Signed(amount, Prefix + amount.ToString("#,0.00;#,0.00", CultureInfo.InvariantCulture));

    /// <summary>The price of a unit: at least to the cent, at most to a tenth of it.</summary>
    public string PerKwh(decimal price) => Signed(price, Prefix + price.ToString("#,0.00#;#,0.00#", CultureInfo.InvariantCulture));

    /// <summary>To the whole unit, without the currency.</summary>
    public static string Bare(decimal amount) => Signed(Rounded(amount), WholeDigits(amount));

    /// <summary>Puts a minus, not a hyphen, before what is below zero.</summary>
    public static string Signed(decimal amount, string unsigned) => amount < 0 ? "−" + unsigned : unsigned;

    private string Prefix => Symbol.Length > 2 ? Symbol + NoBreakSpace : Symbol;

    private static string WholeDigits(decimal amount) => Math.Abs(Rounded(amount)).ToString("#,0", CultureInfo.InvariantCulture);

    private static decimal Rounded(decimal amount) => Math.Round(amount, 0, MidpointRounding.AwayFromZero);
}
