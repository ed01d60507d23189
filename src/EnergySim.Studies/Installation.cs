using EnergySim.Batches;
using EnergySim.Engine;
using EnergySim.Tariffs;

namespace EnergySim.Studies;

/// <summary>One way a home can be: as it is, or with an offer. The run that stands for it, and what its solar gives.</summary>
public sealed record Installation
{
    /// <summary>Name of the first column.</summary>
    public const string AsItIs = "as it is";

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Number of battery units.</summary>
    public required int Units { get; init; }

    /// <summary>Price installed; null = none stated.</summary>
    public required decimal? Price { get; init; }

    /// <summary>The run.</summary>
    public required Run Run { get; init; }

    /// <summary>Solar that an inverter on the wall clips above its rating, or a battery's single solar inputs above theirs, kWh in the measure of the profile.</summary>
    public required double ClippedKwh { get; init; }

    /// <summary>The home as it is and with each of its offers, on the same series.</summary>
    /// <param name="home">The home.</param>
    /// <param name="calendar">Its plan on its axis.</param>
    /// <exception cref="ArgumentException">An offer cannot be run; the message begins with its name.</exception>
    public static IReadOnlyList<Installation> Of(Home home, TariffCalendar calendar)
    {
        ArgumentNullException.ThrowIfNull(home);
        ArgumentNullException.ThrowIfNull(calendar);
        var series = new SiteSeries(home, calendar);
        (Variant asItIs, double clippedKwh) = series.AsItIs(home.Service);
        var all = new List<Installation> { new() { Name = AsItIs, Units = 0, Price = null, Run = asItIs.ToRun(), ClippedKwh = clippedKwh } };
        all.AddRange(home.Offers.Select(offer => Of(offer, home.Service, series)));
        return all;
    }

    /// <summary>One offer on series that others share.</summary>
    /// <exception cref="ArgumentException">It cannot be run; the message begins with its name.</exception>
    internal static Installation Of(Offer offer, Service service, SiteSeries series)
    {
        try
        {
            (Variant with, double clippedKwh) = series.Of(offer, service);
            return new Installation { Name = offer.Name, Units = offer.Units, Price = offer.Price, Run = with.ToRun(), ClippedKwh = clippedKwh };
        }
        catch (ArgumentException fault)
        {
            throw new ArgumentException($"{offer.Name}: {fault.Message}", fault);
        }
    }
}
