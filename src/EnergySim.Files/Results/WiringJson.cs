using System.Text.Json;
using EnergySim.Engine;
using EnergySim.Studies.WiringFit;
using EnergySim.Wiring;

namespace EnergySim.Files;

/// <summary>Writes wiring results as JSON documents. Unknown or no limit is null.</summary>
public static class WiringJson
{
    /// <summary>Writes the ways compared.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="result">The result.</param>
    public static void Write(Stream stream, WiringComparison result)
    {
        ArgumentNullException.ThrowIfNull(result);
        using Utf8JsonWriter json = ResultJson.Open(stream);
        json.WriteStartObject();
        json.WriteString("home", result.Home);
        json.WriteString("tariff", result.Tariff);
        json.WriteString("currency", result.Currency);
        json.WriteDate("from", result.From);
        json.WriteDate("to", result.To);
        json.WriteNumber("codeEdition", result.Plan.Edition.Year);
        json.WriteBoolean("codeEditionIsStated", result.Plan.EditionIsStated);
        json.WriteNumber("years", result.Plan.Years);
        json.WriteNumber("asItIsBill", result.AsItIsBill);
        json.WriteString("verdictsAre", WiringComparison.ToBeConfirmed);
        json.WriteList("notes", result.Notes, json.WriteStringValue);
        json.WriteList("offers", result.Offers, offer =>
        {
            json.WriteStartObject();
            json.WriteString("offer", offer.Offer.Name);
            json.WriteString("cheapestWay", offer.Cheapest?.Fit.Way.Name);
            json.WriteList("ways", offer.Ways, way => WriteWay(json, way, result));
            json.WriteList("inverters", offer.Inverters, inverter => WriteInverter(json, inverter));
            json.WriteEndObject();
        });
        json.WriteEndObject();
    }

    /// <summary>Writes a set-point sheet.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="sheet">The sheet.</param>
    public static void WriteSheet(Stream stream, SetPointSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        using Utf8JsonWriter json = ResultJson.Open(stream);
        json.WriteStartObject();
        json.WriteString("home", sheet.Home);
        json.WriteString("offer", sheet.Offer);
        json.WriteString("way", sheet.Way);
        json.WriteString("why", sheet.Why);
        json.WriteNumber("volts", sheet.Volts);
        json.WriteList("setPoints", sheet.Lines, line =>
        {
            json.WriteStartObject();
            json.WriteString("name", line.Name);
            Number(json, "amps", line.Amps);
            Number(json, "kw", line.Kw);
            json.WriteString("setting", line.Setting);
            json.WriteString("testOnSite", line.Test);
            json.WriteEndObject();
        });
        json.WriteList("cautions", sheet.Cautions, json.WriteStringValue);
        json.WriteEndObject();
    }

    private static void WriteWay(Utf8JsonWriter json, WayResult way, WiringComparison result)
    {
        json.WriteStartObject();
        WriteFit(json, way.Fit);
        json.WriteList("costs", way.Costs, cost =>
        {
            json.WriteStartObject();
            json.WriteString("item", cost.Name);
            json.WriteNumber("labour", cost.Labour);
            json.WriteNumber("parts", cost.Parts);
            json.WriteNumber("days", cost.Days);
            json.WriteBoolean("isPlaceholder", cost.IsPlaceholder);
            json.WriteEndObject();
        });
        json.WriteNumber("wiringPrice", way.WiringPrice);
        json.WriteNumber("days", way.Days);
        json.WriteMoney("price", way.Price);
        json.WriteMoney("annualBill", way.Run?.AnnualBill);
        json.WriteMoney("annualSaving", result.AsItIsBill - way.Run?.AnnualBill);
        json.WriteMoney("yearsCost", way.Run?.YearsCost);
        json.WriteString("dominatedBy", way.DominatedBy);
        if (way.Run is WayRun run) WriteRun(json, run);
        json.WriteList("backupVerdicts", way.BackupVerdicts, v => WriteVerdict(json, v));
        json.WriteEndObject();
    }

    internal static void WriteFit(Utf8JsonWriter json, WayFit fit)
    {
        json.WriteString("way", fit.Way.Name);
        json.WriteString("standing", Word(fit.Standing));
        json.WriteString("why", fit.Why);
        json.WriteList("verdicts", fit.Verdicts, v => WriteVerdict(json, v));
        Number(json, "breakerAmps", fit.BreakerAmps);
        Number(json, "outputAmps", fit.OutputAmps);
        Number(json, "mainAmps", fit.MainAmps);
        Number(json, "settingAmps", fit.SettingAmps);
    }

    private static void WriteRun(Utf8JsonWriter json, WayRun run)
    {
        json.WriteStartObject("limitsKw");
        Number(json, Limits.NameOf(Limit.InverterBreaker), run.Limits.InverterBreakerKw);
        Number(json, Limits.NameOf(Limit.Import), run.Limits.ImportKw);
        Number(json, Limits.NameOf(Limit.Export), run.Limits.ExportKw);
        Number(json, Limits.NameOf(Limit.Busbar), run.Limits.BusbarKw);
        json.WriteEndObject();
        json.WriteList("limitLosses", run.Losses, loss =>
        {
            json.WriteStartObject();
            json.WriteString("limit", Limits.NameOf(loss.Limit));
            Number(json, "hours", loss.Hours);
            Number(json, "throttledChargeKwh", loss.ThrottledChargeKwh);
            Number(json, "throttledDischargeKwh", loss.ThrottledDischargeKwh);
            Number(json, "curtailedKwh", loss.CurtailedKwh);
            json.WriteNumber("billCost", loss.BillCost);
            json.WriteEndObject();
        });
        Number(json, "overloadKwh", run.OverloadKwh);
        if (run.Backup is not WayBackup backup)
        {
            json.WriteNull("backup");
            return;
        }
        json.WriteStartObject("backup");
        Number(json, "powerKw", backup.PowerKw);
        Number(json, "keptFraction", backup.KeptFraction);
        // A figure equal to horizonHours is "at least": censored.
        Number(json, "horizonHours", backup.Survival.HorizonHours);
        Number(json, "nineInTenHours", backup.Survival.HoursLastedBy(0.9));
        Number(json, "halfHours", backup.Survival.HoursLastedBy(0.5));
        json.WriteEndObject();
    }

    private static void WriteInverter(Utf8JsonWriter json, InverterResult inverter)
    {
        json.WriteStartObject();
        json.WriteString("choice", inverter.Choice.ToString().ToLowerInvariant());
        json.WriteString("whyNot", inverter.WhyNot);
        Number(json, "capacityKw", inverter.CapacityKw);
        json.WriteString("agreementArithmetic", inverter.AgreementArithmetic);
        if (inverter.KeepsAgreement is bool keeps) json.WriteBoolean("keepsAgreement", keeps);
        else json.WriteNull("keepsAgreement");
        json.WriteString("way", inverter.Way);
        json.WriteMoney("bill", inverter.Bill);
        json.WriteMoney("newBill", inverter.NewBill);
        json.WriteMoney("agreementWorth", inverter.AgreementWorth);
        json.WriteMoney("storageRuleCost", inverter.StorageRuleCost);
        json.WriteNumber("workPrice", inverter.WorkPrice);
        json.WriteBoolean("workIsPlaceholder", inverter.WorkIsPlaceholder);
        json.WriteMoney("yearsCost", inverter.YearsCost);
        json.WriteEndObject();
    }

    private static void WriteVerdict(Utf8JsonWriter json, Verdict verdict)
    {
        json.WriteStartObject();
        json.WriteString("rule", JsonNamingPolicy.KebabCaseLower.ConvertName(verdict.Rule.ToString()));
        json.WriteString("section", verdict.Section);
        json.WriteString("standing", Word(verdict.Standing));
        json.WriteString("arithmetic", verdict.Arithmetic);
        json.WriteEndObject();
    }

    private static string Word(Standing standing) => JsonNamingPolicy.KebabCaseLower.ConvertName(standing.ToString());

    private static void Number(Utf8JsonWriter json, string name, double? value)
    {
        if (value is double number && double.IsFinite(number)) json.WriteNumber(name, Math.Round(number, 6));
        else json.WriteNull(name);
    }
}
