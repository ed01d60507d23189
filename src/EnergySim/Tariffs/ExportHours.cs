using NodaTime;

namespace EnergySim.Tariffs;

/// <summary>Prices of exported energy hour by hour, one hour after another without a gap.</summary>
/// <param name="First">When the first hour begins.</param>
/// <param name="Parts">Names of the parts.</param>
/// <param name="PricesPerKwh">For each hour a price a part, money per kWh; may be negative.</param>
public sealed record ExportHours(Instant First, IReadOnlyList<string> Parts, IReadOnlyList<IReadOnlyList<decimal>> PricesPerKwh)
{
    /// <summary>When the last hour ends.</summary>
    public Instant End => First + Duration.FromHours(PricesPerKwh.Count);

    /// <summary>The hour that a moment lies in.</summary>
    /// <exception cref="ArgumentException">The moment is outside the hours.</exception>
    internal int IndexOf(Instant moment)
    {
        if (moment < First || moment >= End)
            throw new ArgumentException($"The hourly export prices run from {First} to {End}; the data hold {moment}.");
        return (int)((moment - First).TotalTicks / NodaConstants.TicksPerHour);
    }
}
