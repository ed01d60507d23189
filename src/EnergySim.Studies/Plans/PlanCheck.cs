using System.Globalization;
using EnergySim.Billing;
using EnergySim.Tariffs;

namespace EnergySim.Studies.Plans;

/// <summary>What a plan was understood to say, and what is wrong with it.</summary>
public sealed record PlanCheck
{
    /// <summary>The plan; null where the file breaks a rule, so that there is none.</summary>
    public Tariff? Tariff { get; init; }

    /// <summary>A reading a version of the plan, by rising effective date.</summary>
    public IReadOnlyList<VersionReading> Versions { get; init; } = [];

    /// <summary>What is wrong, a sentence each: gaps, overlaps and the like, or what is said in vain. Empty = nothing.</summary>
    public required IReadOnlyList<string> Findings { get; init; }

    /// <summary>Reads a plan back.</summary>
    /// <param name="tariff">The plan; it covers every minute.</param>
    public static PlanCheck Of(Tariff tariff)
    {
        ArgumentNullException.ThrowIfNull(tariff);
        return new PlanCheck
        {
            Tariff = tariff,
            Versions = [.. tariff.Versions.Select((version, v) => new VersionReading
            {
                Version = version,
                Pictures = PlanPicture.Of(version),
                Prices = PricesOf(version),
                SampleBills = SampleBill.Of(tariff, v),
            })],
            Findings = UnusedTerms.Of(tariff),
        };
    }

    /// <summary>The check of a file that is no plan.</summary>
    /// <param name="problems">What is wrong with it.</param>
    /// <param name="more">How many problems are not listed.</param>
    public static PlanCheck Refused(IReadOnlyList<string> problems, int more) => new()
    {
        Findings = more == 0 ? problems : [.. problems, string.Create(CultureInfo.InvariantCulture, $"and {more} more")],
    };

    private static List<(string Season, string Period, EnergyPrice Price)> PricesOf(TariffVersion version)
    {
        var rules = new DayRules(version, version.Effective.Year, version.Effective.Year);
        var prices = new List<(string, string, EnergyPrice)>();
        foreach (string season in rules.Seasons.Select(s => s.Name).Distinct())
            foreach (string period in version.Periods.Where(p => (p.Season ?? season) == season).Select(p => p.Period).Distinct())
                if (rules.PriceOf(season, period) is EnergyPrice price) prices.Add((season, period, price));
        return prices;
    }
}

/// <summary>One version of a plan, read back.</summary>
public sealed record VersionReading
{
    /// <summary>The version.</summary>
    public required TariffVersion Version { get; init; }

    /// <summary>Its periods through the year, a picture a kind of day.</summary>
    public required IReadOnlyList<PlanPicture> Pictures { get; init; }

    /// <summary>The energy price of every season and period.</summary>
    public required IReadOnlyList<(string Season, string Period, EnergyPrice Price)> Prices { get; init; }

    /// <summary>A bill a season, simple enough to work by hand; see <see cref="SampleBill"/>.</summary>
    public required IReadOnlyList<(string Season, Bill Bill)> SampleBills { get; init; }
}
