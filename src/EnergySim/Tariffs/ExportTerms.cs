using EnergySim.Time;

namespace EnergySim.Tariffs;

/// <summary>When left-over credit of a settlement year is dealt with.</summary>
public enum Settlement
{
    /// <summary>The energy amounts of the year are summed; a negative sum lapses.</summary>
    Year,

    /// <summary>A bill's credit pays later bills only.</summary>
    Carry,
}

/// <summary>What becomes of credit, or of kWh, left at a year's end.</summary>
public enum LeftOver
{
    /// <summary>It is lost.</summary>
    Lapses,

    /// <summary>It is kept.</summary>
    RollsOver,
}

/// <summary>What energy sold to the grid earns. Each regime is a strategy of its own.</summary>
public abstract record ExportTerms
{
    private ExportTerms() { }

    /// <summary>Exported energy earns nothing.</summary>
    public sealed record Nothing : ExportTerms;

    /// <summary>
    /// Retail netting: per bill and period, import − export at the retail price; a negative net earns dollars at the same price.
    /// </summary>
    /// <param name="NeverOffsetOnImport">Second generation: the never-offset part is paid on every metered kWh taken.</param>
    /// <param name="Settlement">How the year is settled.</param>
    /// <param name="SurplusPricePerKwh">Paid for kWh left over after a settlement year.</param>
    /// <param name="CreditLastsBills">With <see cref="Settlement.Carry"/>: how many bills after its own a credit may pay; null = all to the settlement.</param>
    public sealed record RetailNetting(
        bool NeverOffsetOnImport, Settlement Settlement, decimal SurplusPricePerKwh, int? CreditLastsBills = null) : ExportTerms;

    /// <summary>Net billing: no netting; exports earn a price of their own, in parts, each of which pays the kinds of line stated.</summary>
    public sealed record NetBilling : ExportTerms
    {
        /// <summary>The prices; the most telling entry holds (month, hour and day; month and hour; season and period; period; the rest).</summary>
        public required IReadOnlyList<ExportPrice> Prices { get; init; }

        /// <summary>Prices hour by hour, instead of <see cref="Prices"/>, which then are empty; null = none.</summary>
        public ExportHours? Hours { get; init; }

        /// <summary>For each part in the order in which parts pay: the kinds of line it may pay, in order. <c>*</c> as a part stands for those not named; no entry = it pays every kind.</summary>
        public IReadOnlyList<CreditUse> Pays { get; init; } = [];

        /// <summary>How many bills after the one that earned it a credit may pay; null = all to the settlement.</summary>
        public int? CreditLastsBills { get; init; }

        /// <summary>Paid for each unit of credit left at a settlement; null = none.</summary>
        public decimal? CashOutFraction { get; init; }

        /// <summary>What becomes of credit left at the year's end.</summary>
        public LeftOver YearEnd { get; init; }
    }

    /// <summary>Monthly netting: net kWh per bill; the surplus earns a price or is rolled over in kWh to the year's end.</summary>
    /// <param name="SurplusPricePerKwh">Price of the surplus; null = kWh are rolled over.</param>
    /// <param name="AcrossPeriods">True when periods are netted against each other.</param>
    /// <param name="CashOutPerKwh">Paid for kWh left at the year's end.</param>
    /// <param name="CreditLastsBills">How many bills after their own kWh rolled over may pay; null = all to the settlement.</param>
    public sealed record MonthlyNetting(
        decimal? SurplusPricePerKwh, bool AcrossPeriods, decimal CashOutPerKwh, int? CreditLastsBills = null) : ExportTerms;

    /// <summary>Two-way: exports in a window above a free allowance are charged, in another window rewarded.</summary>
    public sealed record TwoWay : ExportTerms
    {
        /// <summary>When exports are charged.</summary>
        public required ClockWindow ChargeWindow { get; init; }

        /// <summary>Money per kWh charged.</summary>
        public required decimal ChargePerKwh { get; init; }

        /// <summary>Free kWh a bill.</summary>
        public double FreeKwhPerBill { get; init; }

        /// <summary>Free kWh a day of the bill.</summary>
        public double FreeKwhPerDay { get; init; }

        /// <summary>When exports are rewarded.</summary>
        public required ClockWindow RewardWindow { get; init; }

        /// <summary>Money per kWh rewarded.</summary>
        public required decimal RewardPerKwh { get; init; }

        /// <summary>Money for every kWh exported besides.</summary>
        public decimal? AnyTimePerKwh { get; init; }
    }

    /// <summary>Buy-all, sell-all: all solar at a contract price, all load at retail.</summary>
    /// <param name="PricePerKwh">Money per kWh of solar.</param>
    public sealed record SellAll(decimal PricePerKwh) : ExportTerms;
}

/// <summary>A price for exported energy. Left-out selectors mean any.</summary>
public sealed record ExportPrice
{
    /// <summary>Month, 1–12.</summary>
    public int? Month { get; init; }

    /// <summary>Hour of the local clock, 0–23.</summary>
    public int? Hour { get; init; }

    /// <summary>Kind of day; weekend stands for holidays where no entry names them.</summary>
    public DayType? Day { get; init; }

    /// <summary>Season of the tariff.</summary>
    public string? Season { get; init; }

    /// <summary>Period of the tariff.</summary>
    public string? Period { get; init; }

    /// <summary>The parts.</summary>
    public required IReadOnlyList<PricePart> Parts { get; init; }
}

/// <summary>Which kinds of line a part of export credit may pay.</summary>
/// <param name="Part">The credit's part, or <c>*</c> for those not named.</param>
/// <param name="Kinds">The kinds, in order.</param>
public sealed record CreditUse(string Part, IReadOnlyList<string> Kinds);
