using EnergySim.Files;
using EnergySim.Solar;
using EnergySim.TestData;

namespace EnergySim.Cli.Tests;

public class DarkSpellsTextTests
{
    private static string Text(string file, bool withOdds)
    {
        DailyClearness sky = DailyClearness.Of(WeatherFile.Read(SharedData.DataPath("weather", file)).Weather);
        var output = new StringWriter { NewLine = "\n" };
        DarkSpellsText.Write(output, DarkSpells.Of(sky), withOdds ? SpellOdds.Of(ClearnessModel.Of(sky), 1, 100) : null);
        TestContext.Current.SendDiagnosticMessage("{0}", output.ToString());
        return output.ToString();
    }

    [Fact]
    public void Write_RecordedYear_NamesTheDates()
    {
        string text = Text("nsrdb-nyc-2017.csv", withOdds: true);
        Assert.Contains("       3  2017-01-22 – 2017-01-24      0.18  ", text, StringComparison.Ordinal);
        Assert.Contains("Dark days (clearness below 0.3): 73 of 365; the longest run of them 4 (2017-03-25 – 2017-03-28).\n", text, StringComparison.Ordinal);
        Assert.Contains("Over 100 made-up years of this place (seed 1) the longest run of dark days is ", text, StringComparison.Ordinal);
        Assert.DoesNotContain("typical year", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_TypicalYear_GivesNotice()
    {
        string text = Text("USA_MA_Boston-Logan.Intl.AP.725090_TMY3.epw", withOdds: false);
        Assert.EndsWith(DarkSpells.TypicalNotice + "\n", text, StringComparison.Ordinal);
        Assert.DoesNotContain("made-up", text, StringComparison.Ordinal);
    }
}
