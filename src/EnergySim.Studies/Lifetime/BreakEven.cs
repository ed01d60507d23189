namespace EnergySim.Studies.Lifetime;

/// <summary>What a larger offer adds to a smaller one, and at what it would begin to pay (its net present value reaching 0).</summary>
public sealed record BreakEven
{
    /// <summary>The smaller offer.</summary>
    public required string First { get; init; }

    /// <summary>The larger offer.</summary>
    public required string Second { get; init; }

    /// <summary>What is paid more for it.</summary>
    public required decimal AddedPrice { get; init; }

    /// <summary>Net present value of what it adds.</summary>
    public required double AddedNetPresentValue { get; init; }

    /// <summary>True when what it adds pays as assumed.</summary>
    public bool Pays => AddedNetPresentValue >= 0;

    /// <summary>The added price at and below which it pays; negative = it would not pay as a gift.</summary>
    public required decimal PaysUpToAddedPrice { get; init; }

    /// <summary>The growth of energy prices a year, nominal, at which it begins to pay; null = it does not change between −5 and 25 %.</summary>
    public required double? PaysFromGrowth { get; init; }

    /// <summary>Hours by which the dearest window of each day would have to begin earlier; 0 = none, null = not within six, or no such window.</summary>
    public required int? PaysFromLongerWindowHours { get; init; }

    /// <summary>True when the plan has a dearest window to lengthen.</summary>
    public required bool HasWindow { get; init; }

    /// <summary>The bands of what it adds.</summary>
    public required OfferBands Bands { get; init; }
}
