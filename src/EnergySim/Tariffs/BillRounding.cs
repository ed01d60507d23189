namespace EnergySim.Tariffs;

/// <summary>Where a bill is rounded, and to what; always half away from zero.</summary>
/// <param name="OfTotal">True when only the total is rounded; false when each line is, and the total is their sum.</param>
/// <param name="To">The least step of money, above 0: 0.01 for the cent.</param>
public sealed record BillRounding(bool OfTotal, decimal To)
{
    /// <summary>What holds where a plan does not say otherwise.</summary>
    public static BillRounding LinesToTheCent { get; } = new(false, 0.01m);

    /// <summary>An amount, rounded.</summary>
    public decimal Of(decimal amount) => To == 0.01m ? Math.Round(amount, 2, MidpointRounding.AwayFromZero) + 0.00m : Math.Round(amount / To, MidpointRounding.AwayFromZero) * To;
}
