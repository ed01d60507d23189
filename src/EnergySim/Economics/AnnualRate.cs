namespace EnergySim.Economics;

/// <summary>Whether money and rates hold the general rise of prices.</summary>
public enum MoneyBasis
{
    /// <summary>Money of the day; rates with inflation in them.</summary>
    Nominal,

    /// <summary>Money of the start; rates above inflation.</summary>
    Real,
}

/// <summary>A rate a year that says whether inflation is in it, so that the two kinds are never mixed.</summary>
/// <param name="Fraction">The rate, above −1: 0.05 = 5 % a year.</param>
/// <param name="Basis">Whether inflation is in it.</param>
public readonly record struct AnnualRate(double Fraction, MoneyBasis Basis)
{
    /// <summary>The same rate on another basis: 1 + nominal = (1 + real)(1 + inflation) (NIST Handbook 135, nominal and real discount rates).</summary>
    /// <param name="basis">The basis wanted.</param>
    /// <param name="inflationFraction">General rise of prices a year, above −1.</param>
    public AnnualRate In(MoneyBasis basis, double inflationFraction) => basis == Basis ? this
        : basis == MoneyBasis.Nominal ? new(((1 + Fraction) * (1 + inflationFraction)) - 1, basis)
        : new(((1 + Fraction) / (1 + inflationFraction)) - 1, basis);
}
