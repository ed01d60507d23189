using System.Text.Json;
using EnergySim.Studies.Finance;
using EnergySim.Studies.Lifetime;

namespace EnergySim.Files;

/// <summary>
/// Writes years to come as one JSON document, the assumptions first. Money is nominal, in the stated currency; what does not exist (a payback
/// beyond the horizon, a rate of return) is null.
/// </summary>
public static class LifetimeJson
{
    /// <summary>Writes the document.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="result">The result.</param>
    public static void Write(Stream stream, LifetimeResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        using Utf8JsonWriter json = ResultJson.Open(stream);
        json.WriteStartObject();
        json.WriteString("home", result.Home);
        json.WriteString("currency", result.Currency);
        json.WriteDate("from", result.From);
        json.WriteNumber("years", result.Terms.HorizonYears);
        json.WriteStartObject("assumptions");
        foreach ((string name, string words) in result.Disclosure.All) json.WriteString(name, words);
        json.WriteNumber("nominalDiscountFraction", Rounded(result.Terms.DiscountFraction));
        json.WriteNumber("inflationFraction", Rounded(result.Terms.InflationFraction));
        json.WriteEndObject();
        json.WriteList("unstated", result.Terms.Unstated, json.WriteStringValue);
        json.WriteList("headlines", result.Headlines, h => json.WriteStringValue(h.Text));
        json.WriteList("asItIs", result.AsItIs, y =>
        {
            json.WriteStartObject();
            json.WriteNumber("year", y.Year);
            json.WriteNumber("calendarYear", y.CalendarYear);
            json.WriteNumber("bill", y.Bill);
            json.WriteNumber("loadKwh", Rounded(y.LoadKwh));
            json.WriteNumber("solarKwh", Rounded(y.SolarKwh));
            json.WriteEndObject();
        });
        json.WriteList("offers", result.Offers, offer => WriteOffer(json, offer));
        json.WriteList("breakEvens", result.BreakEvens, even => WriteBreakEven(json, even));
        json.WriteList("notQuantified", result.NotQuantified, json.WriteStringValue);
        json.WriteList("notes", result.Notes, json.WriteStringValue);
        json.WriteEndObject();
    }

    private static void WriteOffer(Utf8JsonWriter json, LifetimeOffer offer)
    {
        json.WriteStartObject();
        json.WriteString("name", offer.Name);
        json.WriteNumber("batteryUnits", offer.BatteryUnits);
        json.WriteMoney("price", offer.Price);
        json.WriteNumber("upfrontIncentives", offer.UpfrontIncentives);
        if (offer.WarrantyEnd is WarrantyEnd end)
        {
            json.WriteStartObject("warrantyEnd");
            json.WriteNumber("year", end.Year);
            json.WriteString("limit", end.Limit.ToString().ToLowerInvariant());
            json.WriteEndObject();
        }
        else json.WriteNull("warrantyEnd");
        if (offer.Indicators is Indicators indicators) WriteIndicators(json, indicators);
        else json.WriteNull("indicators");
        Number(json, "backupValueApart", offer.BackupValue);
        json.WriteList("ways", offer.Ways, way => WriteWay(json, way));
        WriteBands(json, offer.Bands);
        json.WriteList("yearTable", offer.Years, year => WriteYear(json, year));
        json.WriteEndObject();
    }

    private static void WriteIndicators(Utf8JsonWriter json, Indicators indicators)
    {
        json.WriteStartObject("indicators");
        Number(json, "netPresentValue", indicators.NetPresentValue);
        Number(json, "simplePaybackYears", indicators.SimplePaybackYears);
        Number(json, "discountedPaybackYears", indicators.DiscountedPaybackYears);
        Number(json, "savingsToInvestment", indicators.SavingsToInvestment);
        Number(json, "costPerKwhShifted", indicators.CostPerKwhShifted);
        Number(json, "nominalReturnFraction", indicators.NominalReturns.Only?.Fraction);
        Number(json, "realReturnFraction", indicators.RealReturns.Only?.Fraction);
        json.WriteList("nominalReturnFractions", indicators.NominalReturns.Fractions, r => json.WriteNumberValue(Rounded(r)));
        json.WriteList("realReturnFractions", indicators.RealReturns.Fractions, r => json.WriteNumberValue(Rounded(r)));
        json.WriteEndObject();
    }

    private static void WriteWay(Utf8JsonWriter json, FinancedOffer way)
    {
        json.WriteStartObject();
        json.WriteString("way", way.Way.ToString().ToLowerInvariant());
        json.WriteNumber("paidAtStart", way.PaidAtStart);
        json.WriteNumber("financed", way.Financed);
        json.WriteNumber("fees", way.Fees);
        json.WriteMoney("firstMonthly", way.FirstMonthly);
        json.WriteMoney("lastMonthly", way.LastMonthly);
        json.WriteNumber("paidDown", way.PaidDown);
        Number(json, "annualPercentageRateFraction", way.AnnualPercentageRate);
        json.WriteNumber("totalPaid", way.TotalPaid);
        json.WriteNumber("firstYearNet", way.FirstYearNet);
        Number(json, "netPresentValue", way.NetPresentValue);
        json.WriteString("atEnd", way.AtEnd);
        json.WriteEndObject();
    }

    private static void WriteYear(Utf8JsonWriter json, LifetimeYear year)
    {
        json.WriteStartObject();
        json.WriteNumber("year", year.Year);
        json.WriteNumber("calendarYear", year.CalendarYear);
        json.WriteNumber("capacityFraction", Rounded(year.CapacityFraction));
        json.WriteNumber("usableKwh", Rounded(year.UsableKwh));
        json.WriteNumber("fullCycles", Rounded(year.FullCycles));
        json.WriteNumber("shiftedKwh", Rounded(year.ShiftedKwh));
        json.WriteBoolean("newCells", year.IsReplaced);
        json.WriteNumber("bill", year.Bill);
        json.WriteNumber("saving", year.Saving);
        json.WriteNumber("incentivePaid", year.IncentivePaid);
        json.WriteNumber("upkeep", year.Upkeep);
        json.WriteNumber("replacements", year.Replacements);
        json.WriteNumber("residualValue", year.ResidualValue);
        json.WriteNumber("netCash", year.NetCash);
        json.WriteEndObject();
    }

    private static void WriteBreakEven(Utf8JsonWriter json, BreakEven even)
    {
        json.WriteStartObject();
        json.WriteString("first", even.First);
        json.WriteString("second", even.Second);
        json.WriteNumber("addedPrice", even.AddedPrice);
        Number(json, "addedNetPresentValue", even.AddedNetPresentValue);
        json.WriteBoolean("pays", even.Pays);
        json.WriteMoney("paysUpToAddedPrice", even.PaysUpToAddedPrice);
        Number(json, "paysFromEnergyGrowthFraction", even.PaysFromGrowth);
        Number(json, "paysFromLongerWindowHours", even.PaysFromLongerWindowHours);
        WriteBands(json, even.Bands);
        json.WriteEndObject();
    }

    private static void WriteBands(Utf8JsonWriter json, OfferBands bands)
    {
        json.WriteStartObject("bands");
        WriteBand(json, "firstYearSaving", bands.FirstYearSaving);
        WriteBand(json, "totalSaving", bands.TotalSaving);
        WriteBand(json, "netPresentValue", bands.NetPresentValue);
        Number(json, "earliestPaybackYears", bands.EarliestPaybackYears);
        Number(json, "latestPaybackYears", bands.LatestPaybackYears);
        json.WriteEndObject();
    }

    private static void WriteBand(Utf8JsonWriter json, string name, Band? band)
    {
        if (band is null)
        {
            json.WriteNull(name);
            return;
        }
        json.WriteStartObject(name);
        Number(json, "low", band.Low);
        Number(json, "likely", band.Likely);
        Number(json, "high", band.High);
        json.WriteList("causes", band.Causes, cause =>
        {
            json.WriteStartObject();
            json.WriteString("cause", cause.Name);
            Number(json, "low", cause.Low);
            Number(json, "high", cause.High);
            Number(json, "shareFraction", cause.Share);
            json.WriteEndObject();
        });
        json.WriteEndObject();
    }

    private static void Number(Utf8JsonWriter json, string name, double? value)
    {
        if (value is double number) json.WriteNumber(name, Rounded(number));
        else json.WriteNull(name);
    }

    private static double Rounded(double value) => Math.Round(value, 6);
}
