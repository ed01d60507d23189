using System.Text.Json;
using EnergySim.Solar;
using EnergySim.TestData;

namespace EnergySim.Files.Tests.Weather;

public class DarkSpellsJsonTests
{
    [Fact]
    public void Write_RecordedYear_HoldsTheFiguresOfTheRecord()
    {
        DailyClearness sky = DailyClearness.Of(WeatherFile.Read(SharedData.DataPath("weather", "nsrdb-nyc-2017.csv")).Weather);
        DarkSpells spells = DarkSpells.Of(sky);
        SpellOdds odds = SpellOdds.Of(ClearnessModel.Of(sky), 1, 50);
        JsonElement root = Written(spells, odds);
        Assert.Equal(365, root.GetProperty("days").GetInt32());
        Assert.Equal("2017-03-25", root.GetProperty("longestRun").GetProperty("first").GetString());
        Assert.Equal("2017-03-28", root.GetProperty("longestRun").GetProperty("last").GetString());
        Assert.Equal([1, 2, 3, 5, 7, 14], root.GetProperty("leastSun").EnumerateArray().Select(w => w.GetProperty("days").GetInt32()));
        Assert.Equal(Math.Round(spells.LeastClear[2].MeanClearness, 6), root.GetProperty("leastClear")[2].GetProperty("meanClearness").GetDouble());
        Assert.Equal(JsonValueKind.Null, root.GetProperty("notice").ValueKind);
        Assert.Equal(50, root.GetProperty("madeUpYears").GetProperty("years").GetInt32());
        Assert.Equal(Math.Round(odds.LeastClear[5].OneInTenClearness, 6), root.GetProperty("madeUpYears").GetProperty("leastClear")[5].GetProperty("oneInTenClearness").GetDouble());
    }

    [Fact]
    public void Write_TypicalYearWithoutOdds_HoldsTheNotice()
    {
        DailyClearness sky = DailyClearness.Of(WeatherFile.Read(SharedData.DataPath("weather", "USA_MA_Boston-Logan.Intl.AP.725090_TMY3.epw")).Weather);
        JsonElement root = Written(DarkSpells.Of(sky), null);
        Assert.Equal(DarkSpells.TypicalNotice, root.GetProperty("notice").GetString());
        Assert.Equal(JsonValueKind.Null, root.GetProperty("madeUpYears").ValueKind);
    }

    private static JsonElement Written(DarkSpells spells, SpellOdds? odds)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream)) DarkSpellsJson.Write(json, spells, odds);
        return JsonDocument.Parse(stream.ToArray()).RootElement;
    }
}
