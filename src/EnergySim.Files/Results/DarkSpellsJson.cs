using System.Globalization;
using System.Text.Json;
using EnergySim.Solar;
using NodaTime;

namespace EnergySim.Files;

/// <summary>Writes dark spells as one JSON object, a part of a larger document. Dates are of the weather's standard time.</summary>
public static class DarkSpellsJson
{
    /// <summary>Writes the object's value; the caller has written its name.</summary>
    /// <param name="json">Where it goes.</param>
    /// <param name="spells">The spells of the data.</param>
    /// <param name="odds">Those of made-up years; null = not asked.</param>
    public static void Write(Utf8JsonWriter json, DarkSpells spells, SpellOdds? odds)
    {
        ArgumentNullException.ThrowIfNull(json);
        ArgumentNullException.ThrowIfNull(spells);
        json.WriteStartObject();
        json.WriteStartArray("sources");
        foreach (string source in spells.Sources) json.WriteStringValue(source);
        json.WriteEndArray();
        json.WriteNumber("days", spells.Days);
        json.WriteNumber("darkDays", spells.DarkDays);
        json.WriteNumber("darkBelowClearness", DarkSpells.DarkClearness);
        json.WritePropertyName("longestRun");
        if (spells.LongestRun is DarkWindow run) WriteWindow(json, run);
        else json.WriteNullValue();
        WriteWindows(json, "leastClear", spells.LeastClear);
        WriteWindows(json, "leastSun", spells.LeastSun);
        json.WriteString("notice", spells.Notice);
        json.WritePropertyName("madeUpYears");
        if (odds is not null) WriteOdds(json, odds);
        else json.WriteNullValue();
        json.WriteEndObject();
    }

    private static void WriteWindows(Utf8JsonWriter json, string name, IReadOnlyList<DarkWindow> windows)
    {
        json.WriteStartArray(name);
        foreach (DarkWindow window in windows) WriteWindow(json, window);
        json.WriteEndArray();
    }

    private static void WriteWindow(Utf8JsonWriter json, DarkWindow window)
    {
        json.WriteStartObject();
        json.WriteNumber("days", window.Days);
        json.WriteString("first", Text(window.First));
        json.WriteString("last", Text(window.Last));
        json.WriteNumber("meanClearness", Math.Round(window.MeanClearness, 6));
        json.WriteNumber("meanKwhPerM2Day", Math.Round(window.MeanKwhPerM2, 6));
        json.WriteEndObject();
    }

    private static void WriteOdds(Utf8JsonWriter json, SpellOdds odds)
    {
        json.WriteStartObject();
        json.WriteNumber("years", odds.Years);
        json.WriteNumber("seed", odds.Seed);
        json.WriteNumber("persistence", Math.Round(odds.Persistence, 6));
        json.WriteNumber("ordinaryRunDays", odds.OrdinaryRunDays);
        json.WriteNumber("oneInTenRunDays", odds.OneInTenRunDays);
        json.WriteStartArray("leastClear");
        foreach (DarkWindowOdds window in odds.LeastClear)
        {
            json.WriteStartObject();
            json.WriteNumber("days", window.Days);
            json.WriteNumber("ordinaryClearness", Math.Round(window.OrdinaryClearness, 6));
            json.WriteNumber("oneInTenClearness", Math.Round(window.OneInTenClearness, 6));
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static string Text(LocalDate date) => date.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture);
}
