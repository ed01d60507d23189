using System.Globalization;
using NodaTime;

namespace EnergySim.Studies.Lifetime;

/// <summary>What must be said beside any promised saving, as far as it is known. Null or blank = not known.</summary>
public sealed record AssumptionsTold
{
    /// <summary>Name of the tariff.</summary>
    public string? TariffName { get; init; }

    /// <summary>Effective date of its prices.</summary>
    public LocalDate? TariffDate { get; init; }

    /// <summary>The days that the data are of.</summary>
    public string? DataYear { get; init; }

    /// <summary>How prices are assumed to grow.</summary>
    public string? Growth { get; init; }

    /// <summary>What exported energy earns, and until when.</summary>
    public string? ExportRegime { get; init; }

    /// <summary>What the battery holds when an outage starts.</summary>
    public string? StartOfOutageCharge { get; init; }

    /// <summary>How wide the figure's band is, and of what causes.</summary>
    public string? Band { get; init; }
}

/// <summary>A saving was to be told without its assumptions.</summary>
public sealed class MissingAssumptionsException : ArgumentException
{
    internal MissingAssumptionsException(IReadOnlyList<string> missing)
        : base($"No saving is told without its assumptions; missing: {string.Join(", ", missing)}.") => Missing = missing;

    /// <summary>What is missing, in words.</summary>
    public IReadOnlyList<string> Missing { get; }
}

/// <summary>
/// The assumptions behind a saving, all of them. There is no other way to make one than <see cref="Of"/>, and no <see cref="Headline"/> without
/// one, so that no saving can be told bare.
/// </summary>
public sealed class Disclosure
{
    private Disclosure(AssumptionsTold told)
    {
        Tariff = string.Create(CultureInfo.InvariantCulture, $"{told.TariffName}, prices of {told.TariffDate:uuuu-MM-dd}");
        (DataYear, Growth, ExportRegime) = (told.DataYear!, told.Growth!, told.ExportRegime!);
        (StartOfOutageCharge, Band) = (told.StartOfOutageCharge!, told.Band!);
    }

    /// <summary>Name and date of the tariff.</summary>
    public string Tariff { get; }

    /// <summary>The days that the data are of.</summary>
    public string DataYear { get; }

    /// <summary>How prices are assumed to grow.</summary>
    public string Growth { get; }

    /// <summary>What exported energy earns.</summary>
    public string ExportRegime { get; }

    /// <summary>What the battery holds when an outage starts.</summary>
    public string StartOfOutageCharge { get; }

    /// <summary>The band and its causes.</summary>
    public string Band { get; }

    /// <summary>Each assumption with its name.</summary>
    public IReadOnlyList<(string Name, string Words)> All =>
    [
        ("tariff", Tariff), ("data", DataYear), ("growth", Growth), ("exports", ExportRegime), ("charge when an outage starts", StartOfOutageCharge), ("band", Band),
    ];

    /// <summary>Makes a disclosure.</summary>
    /// <param name="told">What is known.</param>
    /// <exception cref="MissingAssumptionsException">Something is not known; all of it is named.</exception>
    public static Disclosure Of(AssumptionsTold told)
    {
        ArgumentNullException.ThrowIfNull(told);
        var missing = new List<string>();
        Need(told.TariffName, "the tariff's name");
        Need(told.TariffDate is null ? null : "dated", "the tariff's date");
        Need(told.DataYear, "the data's year");
        Need(told.Growth, "the growth of prices");
        Need(told.ExportRegime, "what exports earn");
        Need(told.StartOfOutageCharge, "the charge when an outage starts");
        Need(told.Band, "the band");
        return missing.Count == 0 ? new Disclosure(told) : throw new MissingAssumptionsException(missing);

        void Need(string? words, string name)
        {
            if (string.IsNullOrWhiteSpace(words)) missing.Add(name);
        }
    }
}

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
            + (bands.NetPresentValue is Band net ? $"; net present value {Words(net)}; paid back {Payback(bands, years)}" : "; no price is stated")
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
        string Year(double? at) => at is double y ? string.Create(CultureInfo.InvariantCulture, $"after {y:0.#} years") : string.Create(CultureInfo.InvariantCulture, $"not within {years} years");
        string earliest = Year(bands.EarliestPaybackYears), latest = Year(bands.LatestPaybackYears);
        return earliest == latest ? earliest : $"{earliest} at the best and {latest} at the worst end of the band";
    }

    private static string Amount(double value) => value.ToString("#,0;−#,0;0", CultureInfo.InvariantCulture);
}
