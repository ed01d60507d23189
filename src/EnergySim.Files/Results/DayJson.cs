using System.Text.Json;
using EnergySim.Engine;
using EnergySim.Studies.Days;
using NodaTime.Text;

namespace EnergySim.Files;

/// <summary>Writes one day of one column as a JSON document: energies of each hour, kWh, and the limits that bound in it.</summary>
public static class DayJson
{
    private static readonly OffsetDateTimePattern s_at = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd'T'HH':'mmo<+HH:mm>");

    /// <summary>Writes the document.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="day">A day of the data, hour by hour.</param>
    public static void Write(Stream stream, DayFlows day)
    {
        ArgumentNullException.ThrowIfNull(day);
        using Utf8JsonWriter json = ResultJson.Open(stream);
        json.WriteStartObject();
        json.WriteString("column", day.Column);
        json.WriteDate("date", day.Date!.Value);
        OutageJson.Number(json, "lowestKwh", day.LowestKwh);
        OutageJson.Number(json, "highestKwh", day.HighestKwh);
        json.WriteList("hours", day.Moments, hour => WriteHour(json, hour));
        json.WriteEndObject();
    }

    private static void WriteHour(Utf8JsonWriter json, DayMoment hour)
    {
        json.WriteStartObject();
        json.WriteString("at", s_at.Format(hour.At!.Value));
        json.WriteString("period", hour.Period);
        OutageJson.Number(json, "usedKwh", hour.UseKw * hour.Hours);
        OutageJson.Number(json, "solarToHouseKwh", hour.SunToHomeKw * hour.Hours);
        OutageJson.Number(json, "solarToCellsKwh", hour.SunToBatteryKw * hour.Hours);
        OutageJson.Number(json, "solarToGridKwh", hour.SunSoldKw * hour.Hours);
        OutageJson.Number(json, "solarLostKwh", hour.SunLostKw * hour.Hours);
        OutageJson.Number(json, "cellsToHouseKwh", hour.BatteryToHomeKw * hour.Hours);
        OutageJson.Number(json, "cellsToGridKwh", hour.BatterySoldKw * hour.Hours);
        OutageJson.Number(json, "gridToCellsKwh", hour.GridToBatteryKw * hour.Hours);
        OutageJson.Number(json, "boughtKwh", hour.BoughtKw * hour.Hours);
        OutageJson.Number(json, "soldKwh", hour.SoldKw * hour.Hours);
        OutageJson.Number(json, "storedKwh", hour.StoredKwh);
        json.WriteStartObject("limitMinutes");
        foreach ((Limit limit, int minutes) in hour.Limits) json.WriteNumber(Limits.NameOf(limit), minutes);
        json.WriteEndObject();
        json.WriteEndObject();
    }
}
