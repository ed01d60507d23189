using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Studies.Outages;

/// <summary>What the battery holds when the grid fails.</summary>
public enum StartCharge
{
    /// <summary>What the everyday run holds at that instant.</summary>
    Everyday,

    /// <summary>Full, whatever came before. The best case.</summary>
    Full,

    /// <summary>The strategy's reserve and no more.</summary>
    Reserve,

    /// <summary>What it holds after it was made ready for a storm seen coming <see cref="OutageTerms.StormLeadHours"/> ahead.</summary>
    Storm,
}

/// <summary>Solar of another year of weather, in the measure and on the axis of the home's own.</summary>
/// <param name="Name">What the year is called.</param>
/// <param name="Solar">The solar profile.</param>
public sealed record WeatherYear(string Name, Profile Solar);

/// <summary>A wish for the reserve: so many outages of so many hours are to be lasted.</summary>
/// <param name="Hours">Length, h.</param>
/// <param name="ShareOfStarts">Share of starts that must last it, 0–1.</param>
public sealed record OutageWish(double Hours = 24, double ShareOfStarts = 0.9);

/// <summary>What is asked of an outage. Everything has a default.</summary>
public sealed record OutageTerms
{
    /// <summary>How far each start is walked, h. What lasts so long lasted "at least" so long.</summary>
    public int HorizonHours { get; init; } = 336;

    /// <summary>Share of the sun that is left, ≥ 0; 0 = none, 1 = as recorded.</summary>
    public double CloudFactor { get; init; } = 1;

    /// <summary>
    /// Share of the sun that is left on each day (24 h from the start) of the outage told in detail, ≥ 0; the last holds on. Empty = none but
    /// <see cref="CloudFactor"/>. The starts of the year are not asked with it.
    /// </summary>
    public IReadOnlyList<double> CloudFactorByDay { get; init; } = [];

    /// <summary>Solar that takes the place of the recorded while the grid is down, in its measure and on its axis; null = the recorded.</summary>
    public Profile? SolarInOutage { get; init; }

    /// <summary>What that solar is called (the days that it is made of); told with the results. null = nothing is told.</summary>
    public string? SpellName { get; init; }

    /// <summary>More years of weather for the starts; the home's own is the first.</summary>
    public IReadOnlyList<WeatherYear> WeatherYears { get; init; } = [];

    /// <summary>True when the solar comes from a typical year stitched together from months of several years; null = not said.</summary>
    public bool? IsTypicalYear { get; init; }

    /// <summary>What of the house is kept running.</summary>
    public KeptLoad Kept { get; init; } = new();

    /// <summary>What the battery holds at the start.</summary>
    public StartCharge StartCharge { get; init; } = StartCharge.Everyday;

    /// <summary>How long before the outage a storm is seen coming, h, 0–336; with <see cref="StartCharge.Storm"/>.</summary>
    public double StormLeadHours { get; init; } = 12;

    /// <summary>True when excess load is shed; false when overload trips the inverter.</summary>
    public bool ManagesLoad { get; init; } = true;

    /// <summary>Restarts, held-back energy and the generator. Sheddable parts come from <see cref="Kept"/>.</summary>
    public OutageRules Rules { get; init; } = OutageRules.None;

    /// <summary>Motors whose start is to be carried.</summary>
    public IReadOnlyList<Motor> Motors { get; init; } = [];

    /// <summary>How the kept load lies on the two legs of a split-phase service; null = not known.</summary>
    public LegShares? Legs { get; init; }

    /// <summary>What the reserve is to do.</summary>
    public OutageWish Wish { get; init; } = new();

    /// <summary>How long outages are where the home stands; null = not asked.</summary>
    public OutageDurations? Durations { get; init; }

    /// <summary>Start of the outage that is told in detail; null = the worst start of the first offer.</summary>
    public LocalDateTime? NamedStart { get; init; }

    /// <summary>Its length, h.</summary>
    public int NamedHours { get; init; } = 72;

    /// <summary>Reads a local start, <c>2025-01-15T18:00</c> or a date alone for its midnight.</summary>
    public static bool TryParseStart(string text, out LocalDateTime start)
    {
        ParseResult<LocalDate> date = LocalDatePattern.Iso.Parse(text);
        ParseResult<LocalDateTime> time = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm").Parse(text);
        start = date.Success ? date.Value.AtMidnight() : time.Success ? time.Value : default;
        return date.Success || time.Success;
    }

    /// <summary>Checks the ranges.</summary>
    /// <exception cref="ArgumentException">Names the first number out of range.</exception>
    public void Validate()
    {
        if (HorizonHours is < 1 or > 8760) throw new ArgumentException($"The horizon is {HorizonHours} h; it lies between 1 and 8760.");
        if (NamedHours is < 1 or > 8760) throw new ArgumentException($"The outage is {NamedHours} h long; it lies between 1 and 8760.");
        foreach (double factor in CloudFactorByDay.Append(CloudFactor))
            if (!(factor is >= 0 and <= 2)) throw new ArgumentException("The cloud factor lies between 0 (no sun) and 2.");
        if (!Enum.IsDefined(StartCharge)) throw new ArgumentException("The start charge is not one that is known.");
        if (!(StormLeadHours is >= 0 and <= 336)) throw new ArgumentException("The storm is seen coming 0 to 336 h ahead.");
        if (!(Wish.Hours > 0 && Wish.Hours <= HorizonHours && Wish.ShareOfStarts is > 0 and <= 1))
            throw new ArgumentException("The wish is for hours within the horizon and a share of starts above 0 and at most 1.");
        if (Rules.Sheddable.Count > 0) throw new ArgumentException("Sheddable parts are stated with what is kept.");
        Kept.Validate();
        Rules.Validate();
        Legs?.Validate();
        Durations?.Validate();
    }
}
