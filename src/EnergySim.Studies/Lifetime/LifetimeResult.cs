using EnergySim.Economics;
using EnergySim.Studies.Finance;
using NodaTime;

namespace EnergySim.Studies.Lifetime;

/// <summary>What the offers come to over the years. It cannot be made without its <see cref="Disclosure"/>.</summary>
public sealed record LifetimeResult
{
    /// <summary>The home.</summary>
    public required string Home { get; init; }

    /// <summary>ISO 4217 code.</summary>
    public required string Currency { get; init; }

    /// <summary>First day of the first year.</summary>
    public required LocalDate From { get; init; }

    /// <summary>What was assumed, every rate nominal.</summary>
    public required MoneyTerms Terms { get; init; }

    /// <summary>What must be said beside every saving.</summary>
    public required Disclosure Disclosure { get; init; }

    /// <summary>The savings as they may be told, one an offer.</summary>
    public required IReadOnlyList<Headline> Headlines { get; init; }

    /// <summary>The home as it is, year by year.</summary>
    public required IReadOnlyList<AsItIsYear> AsItIs { get; init; }

    /// <summary>The offers.</summary>
    public required IReadOnlyList<LifetimeOffer> Offers { get; init; }

    /// <summary>What each larger offer adds to the one before it.</summary>
    public required IReadOnlyList<BreakEven> BreakEvens { get; init; }

    /// <summary>What no band holds, in words.</summary>
    public required IReadOnlyList<string> NotQuantified { get; init; }

    /// <summary>Sentences that belong under the figures.</summary>
    public required IReadOnlyList<string> Notes { get; init; }
}

/// <summary>One offer over the years.</summary>
public sealed record LifetimeOffer
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Number of battery units.</summary>
    public required int BatteryUnits { get; init; }

    /// <summary>Cash price installed; null = none stated.</summary>
    public required decimal? Price { get; init; }

    /// <summary>Incentives paid once, to an owner.</summary>
    public required decimal UpfrontIncentives { get; init; }

    /// <summary>Its years.</summary>
    public required IReadOnlyList<LifetimeYear> Years { get; init; }

    /// <summary>When the first cells' warranty ends; null = not within the horizon.</summary>
    public required WarrantyEnd? WarrantyEnd { get; init; }

    /// <summary>What it comes to, bought for cash; null where no price is stated.</summary>
    public required Indicators? Indicators { get; init; }

    /// <summary>Cash, loan and lease side by side, as far as they are stated.</summary>
    public required IReadOnlyList<FinancedOffer> Ways { get; init; }

    /// <summary>Present value of the household's own figure for backup, added to nothing; null = none stated.</summary>
    public required double? BackupValue { get; init; }

    /// <summary>Its bands.</summary>
    public required OfferBands Bands { get; init; }
}
