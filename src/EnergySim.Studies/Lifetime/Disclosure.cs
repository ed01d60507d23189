using System.Globalization;

namespace EnergySim.Studies.Lifetime;

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
