using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Economics;

/// <summary>What is assumed of the years to come. Everything has a default; <see cref="Unstated"/> says which of them are in use.</summary>
public sealed record MoneyTerms
{
    /// <summary>Years that are simulated, 1–50.</summary>
    public int HorizonYears { get; init; } = 20;

    /// <summary>Calendar year in which the first of them begins; null = the year after the data's.</summary>
    public int? FirstYear { get; init; }

    /// <summary>The basis on which <see cref="DiscountFraction"/> and <see cref="Growth"/> are stated. Loans and leases are contracts: nominal.</summary>
    public MoneyBasis Basis { get; init; }

    /// <summary>Discount rate a year.</summary>
    public double DiscountFraction { get; init; } = 0.05;

    /// <summary>General rise of prices a year.</summary>
    public double InflationFraction { get; init; } = 0.025;

    /// <summary>How prices move.</summary>
    public GrowthRates Growth { get; init; } = new();

    /// <summary>Share of their first output that panels lose a year, 0–1 (0.5 % is common practice).</summary>
    public double SolarFadeFraction { get; init; } = 0.005;

    /// <summary>Growth of the house's load a year.</summary>
    public double LoadGrowthFraction { get; init; }

    /// <summary>Loads that arrive (a car, say).</summary>
    public IReadOnlyList<AddedLoad> AddedLoads { get; init; } = [];

    /// <summary>What exports earn from stated dates on, whatever the plan says: an agreement's end, a table of credits by year. Rising dates.</summary>
    public IReadOnlyList<ExportChange> ExportChanges { get; init; } = [];

    /// <summary>How batteries age.</summary>
    public BatteryLife Life { get; init; } = new();

    /// <summary>Replacement of the battery's inverter; null = none.</summary>
    public InverterReplacement? BatteryInverter { get; init; }

    /// <summary>Replacement of today's solar inverter, which an offer that takes its place saves; null = none.</summary>
    public InverterReplacement? SolarInverter { get; init; }

    /// <summary>Upkeep a year (monitoring, insurance), at the prices of the first year.</summary>
    public decimal UpkeepPerYear { get; init; }

    /// <summary>Incentives; by default none.</summary>
    public IReadOnlyList<Incentive> Incentives { get; init; } = [];

    /// <summary>A loan to compare with cash; null = none.</summary>
    public LoanTerms? Loan { get; init; }

    /// <summary>A lease to compare with cash; null = none.</summary>
    public LeaseTerms? Lease { get; init; }

    /// <summary>What backup is worth to the household a year, in its own figure; told apart and never added. Null = no figure.</summary>
    public decimal? BackupValuePerYear { get; init; }

    /// <summary>How wide the bands are.</summary>
    public BandTerms Bands { get; init; } = new();

    /// <summary>Names of the assumptions that nobody stated, which stand at their defaults.</summary>
    public IReadOnlyList<string> Unstated { get; init; } = [];

    /// <summary>The discount rate with its basis.</summary>
    public AnnualRate Discount => new(DiscountFraction, Basis);

    /// <summary>The same terms with every rate nominal.</summary>
    public MoneyTerms InNominal() => Basis == MoneyBasis.Nominal ? this : this with
    {
        Basis = MoneyBasis.Nominal,
        DiscountFraction = Discount.In(MoneyBasis.Nominal, InflationFraction).Fraction,
        Growth = Growth.In(MoneyBasis.Real, MoneyBasis.Nominal, InflationFraction),
        Bands = Bands with
        {
            GrowthLowFraction = new AnnualRate(Bands.GrowthLowFraction, MoneyBasis.Real).In(MoneyBasis.Nominal, InflationFraction).Fraction,
            GrowthHighFraction = new AnnualRate(Bands.GrowthHighFraction, MoneyBasis.Real).In(MoneyBasis.Nominal, InflationFraction).Fraction,
        },
    };
}

/// <summary>A load that comes on top of the house's, evenly over a window of every day.</summary>
/// <param name="Name">What it is.</param>
/// <param name="From">First day.</param>
/// <param name="KwhPerDay">Energy a day, kWh ≥ 0.</param>
/// <param name="Window">When, local clock.</param>
public sealed record AddedLoad(string Name, LocalDate From, double KwhPerDay, ClockWindow Window);

/// <summary>What exports earn from a date on.</summary>
/// <param name="From">First day.</param>
/// <param name="Terms">The terms.</param>
/// <param name="Words">The terms in words.</param>
public sealed record ExportChange(LocalDate From, ExportTerms Terms, string Words);

/// <summary>What the low and the high case of each cause are.</summary>
public sealed record BandTerms
{
    /// <summary>Solar of a run of poor years, as a share of the data's (common practice: one year in ten is 5–8 % below the mean).</summary>
    public double SolarLowFraction { get; init; } = 0.95;

    /// <summary>Solar of a run of good years, as a share of the data's.</summary>
    public double SolarHighFraction { get; init; } = 1.05;

    /// <summary>How far the house's load may lie from the data's either way, as a share.</summary>
    public double LoadFraction { get; init; } = 0.1;

    /// <summary>Growth of energy prices in the low case.</summary>
    public double GrowthLowFraction { get; init; }

    /// <summary>Growth of energy prices in the high case.</summary>
    public double GrowthHighFraction { get; init; } = 0.04;

    /// <summary>By the name of the offer: what a year's saving would be under perfect foresight, where that has been worked out.</summary>
    public IReadOnlyDictionary<string, decimal> BoundSavingByOffer { get; init; } = new Dictionary<string, decimal>();
}
