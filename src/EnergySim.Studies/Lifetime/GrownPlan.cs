using EnergySim.Economics;
using EnergySim.Tariffs;

namespace EnergySim.Studies.Lifetime;

/// <summary>A plan whose prices have grown for some years, each component at its own rate.</summary>
internal static class GrownPlan
{
    /// <summary>The plan after so many years of growth.</summary>
    public static Tariff Of(YearPlan year, GrowthRates growth)
    {
        if (year.EnergyGrowthYears == 0 && year.ExportGrowthYears == 0) return year.Tariff;
        return year.Tariff with { Versions = [.. year.Tariff.Versions.Select(v => Grown(v, growth, year.EnergyGrowthYears, year.ExportGrowthYears))] };
    }

    /// <summary>What a price has been multiplied by after some years.</summary>
    public static double Factor(double rate, int years) => Math.Pow(1 + rate, years);

    private static TariffVersion Grown(TariffVersion version, GrowthRates growth, int years, int exportYears)
    {
        decimal energy = (decimal)Factor(growth.Energy, years), flat = (decimal)Factor(growth.Fixed, years);
        decimal demand = (decimal)Factor(growth.Demand, years), export = (decimal)Factor(growth.Export, exportYears);
        return version with
        {
            EnergyPrices = [.. version.EnergyPrices.Select(p => p with { Parts = [.. p.Parts.Select(part => part with { PricePerKwh = part.PricePerKwh * (decimal)Factor(growth.OfPart(part.Part), years) })] })],
            FixedPerDay = version.FixedPerDay * flat,
            FixedPerMonth = version.FixedPerMonth * flat,
            Minimum = version.Minimum is null ? null : version.Minimum with { PerBill = version.Minimum.PerBill * flat, PerDay = version.Minimum.PerDay * flat },
            Tiers = version.Tiers is null ? null : Grown(version.Tiers, energy),
            Demand = [.. version.Demand.Select(d => d with { PricePerKw = d.PricePerKw * demand, PriceBySeason = d.PriceBySeason?.ToDictionary(p => p.Key, p => p.Value * demand) })],
            Events = version.Events is null ? null : version.Events with { AdderPerKwh = version.Events.AdderPerKwh * energy },
            Export = Grown(version.Export, export),
        };
    }

    private static Tiers Grown(Tiers tiers, decimal energy) => tiers with
    {
        Steps = [.. tiers.Steps.Select(s => s with { PricePerKwh = s.PricePerKwh * energy, ByPeriod = s.ByPeriod?.ToDictionary(p => p.Key, p => p.Value * energy) })],
        CreditPerKwh = tiers.CreditPerKwh * energy,
    };

    // Net billing's prices by the hour are grown in the sums; here only so that the plan says what it is.
    private static ExportTerms Grown(ExportTerms terms, decimal export) => terms switch
    {
        ExportTerms.RetailNetting retail => retail with { SurplusPricePerKwh = retail.SurplusPricePerKwh * export },
        ExportTerms.NetBilling billing => billing with { Prices = [.. billing.Prices.Select(p => p with { Parts = [.. p.Parts.Select(part => part with { PricePerKwh = part.PricePerKwh * export })] })] },
        ExportTerms.MonthlyNetting monthly => monthly with { SurplusPricePerKwh = monthly.SurplusPricePerKwh * export, CashOutPerKwh = monthly.CashOutPerKwh * export },
        ExportTerms.TwoWay both => both with { ChargePerKwh = both.ChargePerKwh * export, RewardPerKwh = both.RewardPerKwh * export, AnyTimePerKwh = both.AnyTimePerKwh * export },
        ExportTerms.SellAll all => all with { PricePerKwh = all.PricePerKwh * export },
        _ => terms,
    };
}
