using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.Time;

namespace EnergySim.Studies.Control;

/// <summary>What each offer's bill is under its own strategy and under others, on the same home, plan, reserve and agreement.</summary>
public sealed record StrategyComparison
{
    /// <summary>The home.</summary>
    public required string Home { get; init; }

    /// <summary>ISO 4217 code.</summary>
    public required string Currency { get; init; }

    /// <summary>Bills of the home as it is.</summary>
    public required decimal AsItIsBill { get; init; }

    /// <summary>The offers.</summary>
    public required IReadOnlyList<OfferStrategies> Offers { get; init; }

    // Before the morning's first use, to what five like days lead one to expect. Common practice.
    private static readonly OvernightCharge s_asExpected = new(new ClockWindow(0, 300), 1, 5);

    /// <summary>Compares strategies.</summary>
    /// <param name="home">The home.</param>
    /// <exception cref="ArgumentException">The plan does not fit the axis, or an offer cannot be run.</exception>
    public static StrategyComparison Of(Home home)
    {
        ArgumentNullException.ThrowIfNull(home);
        var calendar = new TariffCalendar(home.Tariff, home.Load.Axis, home.Account, home.Load.Kw);
        decimal asItIs = BillOf(Installation.Of(home with { Offers = [] }, calendar)[0], calendar);
        return new StrategyComparison
        {
            Home = home.Name,
            Currency = home.Tariff.Currency,
            AsItIsBill = asItIs,
            Offers = [.. home.Offers.Select(o => new OfferStrategies { Name = o.Name, Results = ResultsOf(home, o, calendar, asItIs) })],
        };
    }

    private static List<StrategyResult> ResultsOf(Home home, Offer offer, TariffCalendar calendar, decimal asItIs)
    {
        Strategy own = offer.Strategy;
        var results = new List<StrategyResult>();
        Add(own, true);
        Strategy plain = new() { Base = Steering.SelfUse, ReserveFraction = own.ReserveFraction, Integrity = own.Integrity };
        foreach (Steering steering in (Steering[])[Steering.Hold, Steering.SelfUse, Steering.PeakWindow, Steering.Planned])
            if (own.Base != steering) Add(plain with { Base = steering }, false);
        if (own.Integrity != IntegrityRule.SolarOnly) Add(plain with { Base = Steering.PeakWindow, KeepsForDearest = true, Overnight = s_asExpected }, false);
        if (own.Integrity != IntegrityRule.NeverExports) Add(plain with { SellsByPrice = true }, false);
        if (home.Tariff.Versions.Any(v => v.Events is not null)) Add(plain with { Base = Steering.PeakWindow, Events = new EventResponse(6, own.Integrity == IntegrityRule.SolarOnly ? 0 : 1) }, false);
        return results;

        void Add(Strategy strategy, bool isOwn)
        {
            Installation installation = Installation.Of(home with { Offers = [offer with { Strategy = strategy }] }, calendar)[1];
            decimal bill = BillOf(installation, calendar);
            results.Add(new StrategyResult { Strategy = strategy, IsOwn = isOwn, Bill = bill, Saved = asItIs - bill, Run = installation.Run });
        }
    }

    private static decimal BillOf(Installation installation, TariffCalendar calendar) => Biller.Total(MeterSums.Of(calendar, installation.Run.Sums().Meter));
}

/// <summary>One offer under several strategies, its own first.</summary>
public sealed record OfferStrategies
{
    /// <summary>The offer.</summary>
    public required string Name { get; init; }

    /// <summary>The results.</summary>
    public required IReadOnlyList<StrategyResult> Results { get; init; }
}

/// <summary>An offer under one strategy.</summary>
public sealed record StrategyResult
{
    /// <summary>The strategy.</summary>
    public required Strategy Strategy { get; init; }

    /// <summary>True when it is the one that the offer states.</summary>
    public required bool IsOwn { get; init; }

    /// <summary>Bills of the span, money.</summary>
    public required decimal Bill { get; init; }

    /// <summary>Saved against the home as it is, money.</summary>
    public required decimal Saved { get; init; }

    /// <summary>The run, with what it was compiled to.</summary>
    public required Run Run { get; init; }
}
