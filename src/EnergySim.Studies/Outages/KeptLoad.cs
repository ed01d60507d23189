using EnergySim.Profiles;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Outages;

/// <summary>Days on which an appliance runs.</summary>
public enum ApplianceDays
{
    /// <summary>All.</summary>
    Every,

    /// <summary>Monday to Friday.</summary>
    Weekdays,

    /// <summary>Saturday and Sunday.</summary>
    Weekends,
}

/// <summary>Something that draws a stated power at stated hours.</summary>
public sealed record Appliance
{
    /// <summary>What it is.</summary>
    public required string Name { get; init; }

    /// <summary>Mean draw while it is on, W, ≥ 0.</summary>
    public required double Watts { get; init; }

    /// <summary>When it is on, local clock; an interval counts by its start.</summary>
    public ClockWindow Window { get; init; } = ClockWindow.WholeDay;

    /// <summary>On which days.</summary>
    public ApplianceDays Days { get; init; }

    /// <summary>Adds its draw to a column of kW.</summary>
    internal void AddTo(double[] kw, TimeAxis axis)
    {
        for (int i = 0; i < kw.Length; i++)
        {
            bool weekend = axis.LocalDateOf(i).DayOfWeek is IsoDayOfWeek.Saturday or IsoDayOfWeek.Sunday;
            bool today = Days == ApplianceDays.Every || weekend == (Days == ApplianceDays.Weekends);
            if (today && Window.Contains(axis.LocalMinuteOf(i))) kw[i] += Watts / 1000;
        }
    }
}

/// <summary>How much something uses: a share of the house, a profile, or a list of appliances. Exactly one is stated.</summary>
public sealed record LoadSource
{
    /// <summary>Share of the house's recorded load, 0–1.</summary>
    public double? HouseFraction { get; init; }

    /// <summary>A profile on the house's axis.</summary>
    public Profile? Profile { get; init; }

    /// <summary>Appliances.</summary>
    public IReadOnlyList<Appliance> Appliances { get; init; } = [];

    /// <summary>Of a share of the house.</summary>
    public static LoadSource Share(double fraction) => new() { HouseFraction = fraction };

    internal double[] Kw(Profile house)
    {
        if (HouseFraction is double share) return [.. house.Kw.ToArray().Select(kw => kw * share)];
        if (Profile is Profile profile)
        {
            if (!profile.Axis.IsSameAs(house.Axis)) throw new ArgumentException("A profile of kept load is not on the axis of the house's.");
            return profile.Kw.ToArray();
        }
        var kw = new double[house.Axis.Count];
        foreach (Appliance one in Appliances) one.AddTo(kw, house.Axis);
        return kw;
    }

    internal void Validate(string name)
    {
        if ((HouseFraction is null ? 0 : 1) + (Profile is null ? 0 : 1) + (Appliances.Count > 0 ? 1 : 0) != 1)
            throw new ArgumentException($"{name}: a share, a profile or a list of appliances says how much; one of them.");
        if (HouseFraction is double share && !(share is >= 0 and <= 1)) throw new ArgumentException($"{name}: the share of the load kept running lies between 0 and 1.");
        foreach (Appliance one in Appliances)
            if (!(one.Watts >= 0) || double.IsInfinity(one.Watts)) throw new ArgumentException($"{one.Name}: its watts are at least 0.");
    }
}

/// <summary>A part of the house that is treated apart: turned down, off in any outage, or shed by stored energy.</summary>
public sealed record LoadPart
{
    /// <summary>What it is.</summary>
    public required string Name { get; init; }

    /// <summary>What it uses on any day.</summary>
    public required LoadSource Source { get; init; }

    /// <summary>Share of it that runs in an outage: 0 = off in any outage (a vehicle), 0.6 = turned down (heating with a setback), 1 = as ever.</summary>
    public double KeptFraction { get; init; } = 1;

    /// <summary>It goes off below this share of usable energy; null = it is not shed.</summary>
    public double? OffBelowFraction { get; init; }

    /// <summary>It comes on again at this share; null = 10 % of usable energy above where it goes off.</summary>
    public double? OnAboveFraction { get; init; }
}

/// <summary>
/// What of the house is kept running. With a share, the parts are taken out of the recorded load and the share is of the rest; a profile or a list
/// of appliances is the load itself, and the parts come on top. What a part did not use is not made up for later.
/// </summary>
public sealed record KeptLoad
{
    /// <summary>What runs whatever happens, but for the parts.</summary>
    public LoadSource Base { get; init; } = LoadSource.Share(1);

    /// <summary>Parts treated apart.</summary>
    public IReadOnlyList<LoadPart> Parts { get; init; } = [];

    /// <summary>A share of the whole house, and no part apart.</summary>
    public static KeptLoad Share(double fraction) => new() { Base = LoadSource.Share(fraction) };

    internal void Validate()
    {
        Base.Validate("kept");
        foreach (LoadPart part in Parts)
        {
            part.Source.Validate(part.Name);
            if (!(part.KeptFraction is >= 0 and <= 1)) throw new ArgumentException($"{part.Name}: the share that runs lies between 0 and 1.");
            if (part.OnAboveFraction is not null && part.OffBelowFraction is null) throw new ArgumentException($"{part.Name}: it comes on again only where it goes off.");
        }
    }
}
