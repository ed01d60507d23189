using System.Xml.Linq;

namespace EnergySim.Web.Tests;

public class ChartApiTests
{
    // Two charts stand in one page under a policy that allows no inline style.
    [Fact]
    public async Task Chart_AsAPartOfThePage_HasNoStyleAndNamesOfItsOwn()
    {
        await using Served served = await Served.Start();
        var names = new HashSet<string>();
        foreach (string chart in (string[])["savings", "storedEnergy"])
        {
            XElement svg = XElement.Parse(await served.Answer("chart", $$"""{"home": "{{Served.Demo}}", "chart": "{{chart}}", "choices": {"outageStart": "2025-01-15T18:00"} }"""));
            Assert.DoesNotContain(svg.DescendantsAndSelf(), e => e.Name.LocalName == "style" || e.Attribute("style") is not null);
            Assert.All(svg.DescendantsAndSelf().Attributes("id"), id => Assert.True(names.Add(id.Value), id.Value));
            foreach (string name in svg.Attribute("aria-labelledby")!.Value.Split(' ')) Assert.Contains(name, names);
            Assert.True(svg.Descendants().Count(e => e.Name.LocalName == "text") > 5);
        }
    }

    [Fact]
    public async Task Chart_AsADocument_IsTheCommandLines()
    {
        await using Served served = await Served.Start();
        string file = Path.Combine(served.Folder, "savings.svg");
        AnswerApiTests.Cli("chart", Path.Combine(AppContext.BaseDirectory, "demo", "profiles", "demo-home.yaml"), "--out", file);
        Assert.Equal(File.ReadAllText(file), await served.Answer("chart", $$"""{"home": "{{Served.Demo}}", "chart": "savings", "form": "svg"}"""));
    }

    [Fact]
    public async Task Chart_OfASizeThatIsNone_SaysSo()
    {
        await using Served served = await Served.Start();
        Assert.Contains("pixels wide", await served.Problem("chart", $$"""{"home": "{{Served.Demo}}", "chart": "savings", "widthPx": 5}"""), StringComparison.Ordinal);
    }
}
