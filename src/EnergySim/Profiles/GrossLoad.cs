using System.Globalization;

namespace EnergySim.Profiles;

/// <summary>The house's load behind a net meter: what was bought, less what was sold, plus what the roof gave.</summary>
public static class GrossLoad
{
    private const double ToleranceKw = 1e-6;
    private const int MostNamed = 20;

    /// <summary>Import − export + solar, interval by interval.</summary>
    /// <param name="import">Bought at the meter, kW.</param>
    /// <param name="export">Sold at the meter, kW.</param>
    /// <param name="solarAc">AC solar behind the meter, kW.</param>
    /// <exception cref="ArgumentException">The three are not on one axis, or the load comes out below 0; up to twenty intervals are named.</exception>
    public static Profile Of(Profile import, Profile export, Profile solarAc)
    {
        ArgumentNullException.ThrowIfNull(import);
        ArgumentNullException.ThrowIfNull(export);
        ArgumentNullException.ThrowIfNull(solarAc);
        if (!import.Axis.IsSameAs(export.Axis) || !import.Axis.IsSameAs(solarAc.Axis))
            throw new ArgumentException("Import, export and solar must be on one axis.", nameof(solarAc));
        var kw = new double[import.Axis.Count];
        var below = new List<string>();
        int count = 0;
        for (int i = 0; i < kw.Length; i++)
        {
            kw[i] = import.Kw[i] - export.Kw[i] + solarAc.Kw[i];
            if (kw[i] < -ToleranceKw && count++ < MostNamed)
                below.Add(string.Create(CultureInfo.InvariantCulture, $"interval {i} ({import.Axis.OffsetStartOf(i):uuuu-MM-dd'T'HH:mm}): {kw[i]:0.###} kW"));
            kw[i] = Math.Max(0, kw[i]);
        }
        if (count > 0)
            throw new ArgumentException($"Import − export + solar is below 0 in {count} intervals, so one of the three is wrong or shifted: {string.Join("; ", below)}.", nameof(solarAc));
        return new Profile(import.Axis, kw.AsSpan());
    }
}
