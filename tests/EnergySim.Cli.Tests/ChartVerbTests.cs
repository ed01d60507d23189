namespace EnergySim.Cli.Tests;

public sealed class ChartVerbTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("energysim-charts").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static string Demo => Path.Combine(AppContext.BaseDirectory, "demo", "profiles", "demo-home.yaml");

    [Fact]
    [Trait("needs", "speed")]
    public void Chart_EveryKind_IsWrittenAndSaysItsFigures()
    {
        foreach (ChartKind kind in ChartKinds.All)
        {
            string file = Path.Combine(_folder, kind.Name + ".svg");
            string[] date = kind.Name == "day" ? ["--date", "2025-07-15"] : [];
            (int code, _, string errors) = CommandTests.Run(["chart", Demo, "--kind", kind.Name, "--offer", "One battery", "--phone", "--out", file, .. date]);
            Assert.True(code == 0, $"{kind.Name}: {errors}");
            System.Xml.Linq.XElement svg = System.Xml.Linq.XDocument.Load(file).Root!;
            Assert.NotEmpty(svg.Elements().First(e => e.Name.LocalName == "title").Value);
            Assert.Matches("[0-9]", svg.Elements().First(e => e.Name.LocalName == "desc").Value);
        }
    }

    [Theory]
    [InlineData("--kind day needs --date", "--kind", "day")]
    [InlineData("--date: \"tomorrow\" is not a date", "--kind", "day", "--date", "tomorrow")]
    [InlineData("2024-02-29 is not a day of the data", "--kind", "day", "--date", "2024-02-29")]
    [InlineData("--month: 13 is not 1–12", "--kind", "average-day", "--month", "13")]
    [InlineData("--offer: \"Nine batteries\" is none of as it is, One battery, Two batteries", "--kind", "causes", "--offer", "Nine batteries")]
    [InlineData("--offer: this picture is of an offer", "--kind", "lines", "--offer", "0")]
    [InlineData("has no battery", "--kind", "stored-months", "--offer", "as it is")]
    [InlineData("is neither .png nor .svg", "--out", "x.gif")]
    public void Chart_WhatCanNotBeDrawn_IsRefusedInASentenceAndNothingIsWritten(string words, params string[] options)
    {
        string file = Path.Combine(_folder, "x.svg");
        string[] to = options.Contains("--out") ? [] : ["--out", file];
        (int code, _, string errors) = CommandTests.Run(["chart", Demo, .. to, .. options]);
        Assert.Equal(2, code);
        Assert.Contains(words, errors, StringComparison.Ordinal);
        Assert.False(File.Exists(file));
    }

    [Fact]
    public void Chart_Twice_GivesTheSameBytes()
    {
        foreach (string kind in (string[])["average-day", "causes", "use-months"])
        {
            string first = Path.Combine(_folder, kind + "-1.png"), second = Path.Combine(_folder, kind + "-2.png");
            Assert.Equal(0, CommandTests.Run("chart", Demo, "--kind", kind, "--out", first).Code);
            Assert.Equal(0, CommandTests.Run("chart", Demo, "--kind", kind, "--out", second).Code);
            Assert.Equal(File.ReadAllBytes(first), File.ReadAllBytes(second));
        }
    }
}
