namespace EnergySim.Tariffs;

/// <summary>Where a bill is rounded, and to what; always half away from zero.</summary>
/// <param name="OfTotal">True when only the total is rounded; false when each line is, and the total is their sum.</param>
/// <param name="To">The least step of money, above 0: 0.01 for the cent.</param>
public sealed record BillRounding(bool OfTotal, decimal To)
{
    /// <summary>What holds where a plan does not say otherwise.</summary>
    public static BillRounding LinesToTheCent { get; } = new(false, 0.01m);

    /// <summary>An amount, rounded.</summary>
    public decimal Of(decimal amount) => To == 0.01m ? ToTheCent(amount) : Math.Round(amount / To, MidpointRounding.AwayFromZero) * To;

    /// <summary>An amount of two places, rounded half away from zero.</summary>
    internal static decimal ToTheCent(decimal amount)
    {
        // The usual amount is a whole number of 64 bits over a power of ten: one division, where the general way takes several. A bill has dozens of amounts, a sweep millions of bills.
        Span<int> bits = stackalloc int[4];
        decimal.GetBits(amount, bits);
        ulong whole = ((ulong)(uint)bits[1] << 32) | (uint)bits[0];
        int more = amount.Scale - 2;
        if (bits[2] != 0 || whole > long.MaxValue || (uint)more >= (uint)PowersOfTen.Length) return Math.Round(amount, 2, MidpointRounding.AwayFromZero) + 0.00m;
        // A division by a number that the compiler knows is a multiplication; these are kWh of six places at prices of four and five.
        ulong cents = more switch
        {
            8 => (whole + 50_000_000) / 100_000_000,
            9 => (whole + 500_000_000) / 1_000_000_000,
            _ => (whole + (PowersOfTen[more] / 2)) / PowersOfTen[more],
        };
        return new decimal((int)cents, (int)(cents >> 32), 0, bits[3] < 0 && cents != 0, 2);
    }

    private static ReadOnlySpan<ulong> PowersOfTen =>
    [
        1, 10, 100, 1_000, 10_000, 100_000, 1_000_000, 10_000_000, 100_000_000, 1_000_000_000, 10_000_000_000, 100_000_000_000, 1_000_000_000_000, 10_000_000_000_000,
        100_000_000_000_000, 1_000_000_000_000_000, 10_000_000_000_000_000, 100_000_000_000_000_000, 1_000_000_000_000_000_000,
    ];
}
