using System.Globalization;

namespace EnergySim.Studies.Lifetime;

/// <summary>The saving of an offer as it may be told: with its band and its assumptions.</summary>
public sealed class Headline
{
    /// <param name="disclosure">The assumptions.</param>
    /// <param name="offer">Name of the offer.</param>
    /// <param name="currency">ISO 4217 code.</param>
    /// <param name="years">The horizon.</param>
    /// <param name="bands">The figures with their bands.</param>
    public Headline(Disclosure disclosure, string offer, string currency, int years, OfferBands bands)
    {
        ArgumentNullException.ThrowIfNull(disclosure);
        ArgumentException.ThrowIfNullOrWhiteSpace(offer);
        ArgumentNullException.ThrowIfNull(bands);
        Disclosure = disclosure;
        Offer = offer;
        Text = string.Create(CultureInfo.InvariantCulture,
            $"{offer}: saves {Words(bands.FirstYearSaving)} {currency} in the first year and {Words(bands.TotalSaving)} in {years} years")
            + (bands.NetPresentValue is Band net ? $"; net present value {Words(net)}; {Payback(bands, years)}" : "; no price is stated")
            + ".";
    }

    /// <summary>The assumptions.</summary>
    public Disclosure Disclosure { get; }

    /// <summary>Name of the offer.</summary>
    public string Offer { get; }

    /// <summary>The saving in words.</summary>
    public string Text { get; }

    private static string Words(Band band) => string.Create(CultureInfo.InvariantCulture, $"{Amount(band.Likely)} ({Amount(band.Low)} to {Amount(band.High)})");

    private static string Payback(OfferBands bands, int years)
    {
        string never = string.Create(CultureInfo.InvariantCulture, $"not paid back within {years} years");
        if (bands.EarliestPaybackYears is not double earliest) return never;
        string best = string.Create(CultureInfo.InvariantCulture, $"paid back after {earliest:0.#} years at the best end of the band, ");
        return best + (bands.LatestPaybackYears is double latest ? string.Create(CultureInfo.InvariantCulture, $"after {latest:0.#} at the worst") : never + " at the worst");
    }

    private static string Amount(double value) => value.ToString("#,0;−#,0;0", CultureInfo.InvariantCulture);
}
