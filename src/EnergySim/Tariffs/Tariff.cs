using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tariffs;

/// <summary>A rate plan: its versions in force one after another. Prices are data with an effective date, never constants in code.</summary>
public sealed record Tariff
{
    /// <summary>The plan's name.</summary>
    public required string Name { get; init; }

    /// <summary>Who publishes it.</summary>
    public string Publisher { get; init; } = "";

    /// <summary>ISO 4217 code of its money.</summary>
    public string Currency { get; init; } = "USD";

    /// <summary>The zone whose wall clock its periods are read from.</summary>
    public required DateTimeZone Zone { get; init; }

    /// <summary>The versions by rising effective date, at least one. The first also holds before its date.</summary>
    public required IReadOnlyList<TariffVersion> Versions { get; init; }
}

/// <summary>What a plan charges from one date on.</summary>
public sealed record TariffVersion
{
    /// <summary>The name of the only season where none is given.</summary>
    public const string WholeYear = "all";

    /// <summary>First local date on which it holds.</summary>
    public required LocalDate Effective { get; init; }

    /// <summary>Seasons; every day of the year in exactly one. Empty = one season, <see cref="WholeYear"/>.</summary>
    public IReadOnlyList<Season> Seasons { get; init; } = [];

    /// <summary>The plan's own holidays; empty = none.</summary>
    public IReadOnlyList<HolidayRule> Holidays { get; init; } = [];

    /// <summary>Periods; every minute of every day in exactly one.</summary>
    public required IReadOnlyList<PeriodRule> Periods { get; init; }

    /// <summary>Energy prices by season and period.</summary>
    public required IReadOnlyList<EnergyPrice> EnergyPrices { get; init; }

    /// <summary>The part that second-generation netting never offsets; null = none.</summary>
    public string? NeverOffsetPart { get; init; }

    /// <summary>Fixed charge a day, money.</summary>
    public decimal FixedPerDay { get; init; }

    /// <summary>Fixed charge a month, money.</summary>
    public decimal FixedPerMonth { get; init; }

    /// <summary>True when the monthly charge is scaled by days/30; false when it is taken once a bill.</summary>
    public bool FixedPerMonthByDays { get; init; }

    /// <summary>Tiers or baseline, if any.</summary>
    public Tiers? Tiers { get; init; }

    /// <summary>Minimum bill, if any.</summary>
    public MinimumBill? Minimum { get; init; }

    /// <summary>Taxes and discounts, in the order in which they are taken.</summary>
    public IReadOnlyList<Percentage> Percentages { get; init; } = [];

    /// <summary>Demand charges.</summary>
    public IReadOnlyList<DemandCharge> Demand { get; init; } = [];

    /// <summary>Critical-peak events, if any.</summary>
    public EventCharge? Events { get; init; }

    /// <summary>Where bills are rounded, and to what.</summary>
    public BillRounding Rounding { get; init; } = BillRounding.LinesToTheCent;

    /// <summary>What exported energy earns.</summary>
    public ExportTerms Export { get; init; } = new ExportTerms.Nothing();

    /// <summary>Length of the meter's interval in minutes; null = that of the run.</summary>
    public int? MeterMinutes { get; init; }

    /// <summary>True when import and export are netted inside the meter's interval.</summary>
    public bool NetsInsideMeterInterval { get; init; }
}

/// <summary>A named period: when it holds. Left-out selectors mean always.</summary>
/// <param name="Period">Its name.</param>
public sealed record PeriodRule(string Period)
{
    /// <summary>Only in this season; null = in all.</summary>
    public string? Season { get; init; }

    /// <summary>Only on these days; empty = on all. A holiday counts as a weekend day where no rule names holidays; an event day keeps its day type where none names events.</summary>
    public IReadOnlyList<DayType> Days { get; init; } = [];

    /// <summary>Only in this window of the local clock; each minute has its own date's day type, also past midnight.</summary>
    public ClockWindow Window { get; init; } = ClockWindow.WholeDay;
}

/// <summary>One part of a price (delivery, supply, …).</summary>
/// <param name="Part">Its name, which is also the kind of its bill lines.</param>
/// <param name="PricePerKwh">Money per kWh; may be negative.</param>
public sealed record PricePart(string Part, decimal PricePerKwh);

/// <summary>The energy price of a season and period.</summary>
public sealed record EnergyPrice
{
    /// <summary>Season; null = any that has no price of its own.</summary>
    public string? Season { get; init; }

    /// <summary>Period; null = any that has no price of its own.</summary>
    public string? Period { get; init; }

    /// <summary>The parts, in the order of the bill.</summary>
    public required IReadOnlyList<PricePart> Parts { get; init; }

    /// <summary>All parts together, money per kWh.</summary>
    public decimal TotalPerKwh => Parts.Sum(p => p.PricePerKwh);
}

/// <summary>A step of a tiered price.</summary>
/// <param name="FromFraction">Share of the allowance at which it begins.</param>
/// <param name="PricePerKwh">Money per kWh in every period; null where <paramref name="ByPeriod"/> holds them.</param>
/// <param name="ByPeriod">Money per kWh by period.</param>
public sealed record TierStep(double FromFraction, decimal? PricePerKwh, IReadOnlyDictionary<string, decimal>? ByPeriod = null);

/// <summary>Tiers by kWh a bill, or by an allowance a day; price steps, and a credit on the kWh under the allowance.</summary>
public sealed record Tiers
{
    /// <summary>Allowance a bill, kWh; null where it is by day.</summary>
    public double? AllowanceKwhPerBill { get; init; }

    /// <summary>Allowance a day by season, kWh.</summary>
    public IReadOnlyDictionary<string, double>? AllowanceKwhPerDay { get; init; }

    /// <summary>The steps, rising; the first begins at 0. Empty = credit only.</summary>
    public IReadOnlyList<TierStep> Steps { get; init; } = [];

    /// <summary>Credit on each kWh under the allowance, money per kWh.</summary>
    public decimal? CreditPerKwh { get; init; }
}

/// <summary>The least a bill comes to.</summary>
/// <param name="PerBill">Money a bill.</param>
/// <param name="PerDay">Money a day.</param>
/// <param name="Counts">Kinds of line that count toward it; empty = all that come before.</param>
public sealed record MinimumBill(decimal PerBill, decimal PerDay, IReadOnlyList<string> Counts);

/// <summary>A tax or discount.</summary>
/// <param name="Name">Its name, which is also the kind of its line.</param>
/// <param name="Rate">Share of its base (0.05 = 5 %); a discount is negative.</param>
/// <param name="Of">Kinds of line that make its base; empty = all that come before.</param>
public sealed record Percentage(string Name, decimal Rate, IReadOnlyList<string> Of);

/// <summary>A charge on the highest mean import of a bill.</summary>
public sealed record DemandCharge
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Length of the interval over which the mean is taken, minutes; it starts on the wall clock.</summary>
    public int Minutes { get; init; } = 15;

    /// <summary>Money per kW a bill in every season; null where <see cref="PriceBySeason"/> holds them.</summary>
    public decimal? PricePerKw { get; init; }

    /// <summary>Money per kW a bill by season.</summary>
    public IReadOnlyDictionary<string, decimal>? PriceBySeason { get; init; }

    /// <summary>Only in this season; null = in all.</summary>
    public string? Season { get; init; }

    /// <summary>Only on these days; empty = on all.</summary>
    public IReadOnlyList<DayType> Days { get; init; } = [];

    /// <summary>Only in this window.</summary>
    public ClockWindow Window { get; init; } = ClockWindow.WholeDay;

    /// <summary>Ratchet: at least this share of the highest measured demand of the last <see cref="RatchetBills"/> bills; 0 = none.</summary>
    public double RatchetFraction { get; init; }

    /// <summary>How many earlier bills the ratchet looks at.</summary>
    public int RatchetBills { get; init; }

    /// <summary>Cap: at most the last billed demand plus so many kW; null = none.</summary>
    public double? CapKw { get; init; }

    /// <summary>Measured demand of bills before the first of the run, kW, oldest first.</summary>
    public IReadOnlyList<double> EarlierMeasuredKw { get; init; } = [];

    /// <summary>Billed demand of bills before the first of the run, kW, oldest first.</summary>
    public IReadOnlyList<double> EarlierBilledKw { get; init; } = [];
}
