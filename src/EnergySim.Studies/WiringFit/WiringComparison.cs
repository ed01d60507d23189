using EnergySim.Engine;
using EnergySim.Studies.Outages;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Studies.WiringFit;

/// <summary>Each way to connect each offer: whether it may be, what it costs, and what its limits take a year.</summary>
public sealed record WiringComparison
{
    /// <summary>What stands under every verdict.</summary>
    public const string ToBeConfirmed = "To be confirmed by a licensed electrician and the local authority.";

    /// <summary>The home.</summary>
    public required string Home { get; init; }

    /// <summary>The plan.</summary>
    public required string Tariff { get; init; }

    /// <summary>ISO 4217 code.</summary>
    public required string Currency { get; init; }

    /// <summary>First local date of the data.</summary>
    public required LocalDate From { get; init; }

    /// <summary>Last local date.</summary>
    public required LocalDate To { get; init; }

    /// <summary>What was asked.</summary>
    public required WiringPlan Plan { get; init; }

    /// <summary>The bills of the span as it is.</summary>
    public required decimal AsItIsBill { get; init; }

    /// <summary>Each offer.</summary>
    public required IReadOnlyList<OfferWays> Offers { get; init; }

    /// <summary>What was assumed, and what the figures are not.</summary>
    public required IReadOnlyList<string> Notes { get; init; }
}

/// <summary>The ways to connect one offer.</summary>
public sealed record OfferWays
{
    /// <summary>The offer.</summary>
    public required Offer Offer { get; init; }

    /// <summary>The ways: those that may be first, the cheapest over the years first; then the others in the order given.</summary>
    public required IReadOnlyList<WayResult> Ways { get; init; }

    /// <summary>Keeping, replacing or splitting today's inverter; empty without solar.</summary>
    public required IReadOnlyList<InverterResult> Inverters { get; init; }

    /// <summary>The cheapest way that may be; null = none may.</summary>
    public WayResult? Cheapest => Ways.FirstOrDefault(w => w.Fit.MayBe);
}

/// <summary>One way to connect one offer.</summary>
public sealed record WayResult
{
    /// <summary>Whether it may be, and by which rules.</summary>
    public required WayFit Fit { get; init; }

    /// <summary>Labour, parts and days.</summary>
    public required IReadOnlyList<CostItem> Costs { get; init; }

    /// <summary>What the wiring costs.</summary>
    public decimal WiringPrice => Costs.Sum(c => c.Labour + c.Parts);

    /// <summary>Working days.</summary>
    public double Days => Costs.Sum(c => c.Days);

    /// <summary>The offer's price and the wiring's; null = the offer states none.</summary>
    public required decimal? Price { get; init; }

    /// <summary>What the run was held to; null = it may not be, and was not run.</summary>
    public WayRun? Run { get; init; }

    /// <summary>Verdicts on what it carries off the grid; empty where nothing is kept running.</summary>
    public required IReadOnlyList<Verdict> BackupVerdicts { get; init; }

    /// <summary>Name of a way that costs no more over the years and gives no less power and hours off the grid, and is better in one; null = none, or not run.</summary>
    public string? DominatedBy { get; init; }
}

/// <summary>What the engine says of a way.</summary>
public sealed record WayRun
{
    /// <summary>The engine's limits.</summary>
    public required SiteLimits Limits { get; init; }

    /// <summary>The bills of the span.</summary>
    public required decimal AnnualBill { get; init; }

    /// <summary>Price (the wiring's alone where the offer states none) and bills of so many years at today's prices.</summary>
    public required decimal YearsCost { get; init; }

    /// <summary>What each limit of the wiring and the agreement takes.</summary>
    public required IReadOnlyList<LimitLoss> Losses { get; init; }

    /// <summary>House load above the grid-current cap, kWh.</summary>
    public required double OverloadKwh { get; init; }

    /// <summary>What it gives off the grid; null = nothing is kept running.</summary>
    public required WayBackup? Backup { get; init; }
}

/// <summary>What one limit takes in the span.</summary>
public sealed record LimitLoss
{
    /// <summary>The limit: <see cref="Limit.InverterBreaker"/>, <see cref="Limit.Import"/>, <see cref="Limit.Export"/> or <see cref="Limit.Busbar"/>.</summary>
    public required Limit Limit { get; init; }

    /// <summary>Hours in which it bound.</summary>
    public required double Hours { get; init; }

    /// <summary>Charging withheld, kWh.</summary>
    public required double ThrottledChargeKwh { get; init; }

    /// <summary>Output to the house and sales of the battery withheld, kWh AC.</summary>
    public required double ThrottledDischargeKwh { get; init; }

    /// <summary>Solar not sold, kWh AC.</summary>
    public required double CurtailedKwh { get; init; }

    /// <summary>The bill with the limit − the bill of the same run without it; below zero where the limit happens to help.</summary>
    public required decimal BillCost { get; init; }
}

/// <summary>What a way gives off the grid.</summary>
public sealed record WayBackup
{
    /// <summary>Most continuous power, kW AC.</summary>
    public required double PowerKw { get; init; }

    /// <summary>Share of the house's load that is kept running.</summary>
    public required double KeptFraction { get; init; }

    /// <summary>How long outages from every start last.</summary>
    public required Survival Survival { get; init; }
}

/// <summary>What becomes of today's solar inverter.</summary>
public enum InverterChoice
{
    /// <summary>It stays; the battery is AC-coupled.</summary>
    Keep,

    /// <summary>The battery's own inverter takes its place: the panels go onto its inputs.</summary>
    Replace,

    /// <summary>Part of the panels goes onto the battery's inputs, the rest stays.</summary>
    Split,
}

/// <summary>Keeping, replacing or splitting today's inverter, by the cheapest way that may be.</summary>
public sealed record InverterResult
{
    /// <summary>The choice.</summary>
    public required InverterChoice Choice { get; init; }

    /// <summary>Why it can not be run; null = it was.</summary>
    public string? WhyNot { get; init; }

    /// <summary>Capacity that the utility counts, kW AC; null = not run.</summary>
    public double? CapacityKw { get; init; }

    /// <summary>The agreement's arithmetic; null = no agreement was stated, or not run.</summary>
    public string? AgreementArithmetic { get; init; }

    /// <summary>True when the capacity keeps the agreement; null = no agreement was stated.</summary>
    public bool? KeepsAgreement { get; init; }

    /// <summary>The way by which it is cheapest; null = none may be.</summary>
    public string? Way { get; init; }

    /// <summary>Bills of the span on today's plan; null = not run.</summary>
    public decimal? Bill { get; init; }

    /// <summary>Bills on the plan to which a changed system is moved; null = none stated.</summary>
    public decimal? NewBill { get; init; }

    /// <summary>What the old agreement is worth in the span: the new plan's bills − today's.</summary>
    public decimal? AgreementWorth => NewBill - Bill;

    /// <summary>The bills that hold: the new plan's where the agreement is lost.</summary>
    public decimal? BillThatHolds => KeepsAgreement == false ? NewBill : Bill;

    /// <summary>What the agreement's rule on the battery costs in the span; null = no rule.</summary>
    public decimal? StorageRuleCost { get; init; }

    /// <summary>Price of the work on inverter and strings.</summary>
    public decimal WorkPrice { get; init; }

    /// <summary>True when that is a placeholder of this program.</summary>
    public bool WorkIsPlaceholder { get; init; }

    /// <summary>Offer, wiring, this work and the years' bills that hold; null = not run, or the plan that would hold is not stated.</summary>
    public decimal? YearsCost { get; init; }
}
