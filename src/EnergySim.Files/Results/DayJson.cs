using System.Text.Json;
using EnergySim.Engine;
using EnergySim.Studies.Visit;
using NodaTime.Text;

namespace EnergySim.Files;

/// <summary>Writes one day of one column as a JSON document: energies of each hour, kWh, and the limits that bound in it.</summary>
public static class DayJson
{
    private static readonly OffsetDateTimePattern s_at = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd'T'HH':'mmo<+HH:mm>");

    /// <summary>Writes the document.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="day">The day.</param>
    public static void Write(Stream stream, VisitDay day)
    {
        ArgumentNullException.ThrowIfNull(day);
        using Utf8JsonWriter json = ResultJson.Open(stream);
        json.WriteStartObject();
        json.WriteString("column", day.Column);
        json.WriteDate("date", day.Date);
        OutageJson.Number(json, "lowestKwh", day.LowestKwh);
        OutageJson.Number(json, "highestKwh", day.HighestKwh);
        json.WriteList("hours", day.Hours, hour => WriteHour(json, hour));
        json.WriteEndObject();
    }

    private static void WriteHour(Utf8JsonWriter json, VisitHour hour)
    {
        json.WriteStartObject();
        json.WriteString("at", s_at.Format(hour.At));
        json.WriteString("period", hour.Period);
        OutageJson.Number(json, "usedKwh", hour.UsedKwh);
        OutageJson.Number(json, "solarToHouseKwh", hour.SolarToHouseKwh);
        OutageJson.Number(json, "solarToCellsKwh", hour.SolarToCellsKwh);
        OutageJson.Number(json, "solarToGridKwh", hour.SolarToGridKwh);
        OutageJson.Number(json, "solarLostKwh", hour.SolarLostKwh);
        OutageJson.Number(json, "cellsToHouseKwh", hour.CellsToHouseKwh);
        OutageJson.Number(json, "cellsToGridKwh", hour.CellsToGridKwh);
        OutageJson.Number(json, "gridToCellsKwh", hour.GridToCellsKwh);
        OutageJson.Number(json, "boughtKwh", hour.BoughtKwh);
        OutageJson.Number(json, "soldKwh", hour.SoldKwh);
        OutageJson.Number(json, "storedKwh", hour.StoredKwh);
        json.WriteStartObject("limitMinutes");
        foreach ((Limit limit, int minutes) in hour.Limits) json.WriteNumber(Limits.NameOf(limit), minutes);
        json.WriteEndObject();
        json.WriteEndObject();
    }
}
