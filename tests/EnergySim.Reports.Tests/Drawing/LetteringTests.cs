namespace EnergySim.Reports.Drawing;

public sealed class LetteringTests
{
    private static readonly Lettering s_lettering = new(14, false, Palette.Ink);

    [Theory]
    [InlineData("  one \t\n battery ", "one battery")]
    [InlineData("a\u0000b\u0007c", "abc")]
    [InlineData("half \ud83d of a pair", "half of a pair")]
    [InlineData("<b> & \"c\"", "<b> & \"c\"")]
    [InlineData("", "")]
    public void Clean_TextFromOutside_IsOneLineADocumentCanHold(string text, string clean) => Assert.Equal(clean, Lettering.Clean(text));

    [Fact]
    public void Shorten_TextThatFits_IsUnchanged() => Assert.Equal("one battery", s_lettering.Shorten("one battery", 200));

    [Theory]
    [InlineData("one battery with a long name", 100)]
    [InlineData("iiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiii", 30)]
    [InlineData("one", 15)]
    public void Shorten_TextThatDoesNotFit_FitsAndIsAsLongAsItCanBe(string text, double widthPx)
    {
        string shorter = s_lettering.Shorten(text, widthPx);
        Assert.EndsWith("…", shorter);
        Assert.True(s_lettering.WidthPx(shorter) <= widthPx);
        int kept = shorter.Length - 1;
        Assert.StartsWith(shorter[..kept], text);
        int next = text.IndexOf(' ', kept) == kept ? kept + 2 : kept + 1;
        Assert.True(s_lettering.WidthPx(text[..next] + "…") > widthPx);
    }

    [Fact]
    public void Shorten_LettersOfSeveralParts_AreNotSplit()
    {
        string text = string.Concat(Enumerable.Repeat("e\u0301", 40));
        string shorter = s_lettering.Shorten(text, 100);
        Assert.Equal(0, (shorter.Length - 1) % 2);
    }

    [Fact]
    public void Wrap_MoreThanTheLinesHold_ShortensTheLast()
    {
        string[] words = [.. Enumerable.Repeat("battery", 20)];
        IReadOnlyList<string> lines = s_lettering.Wrap(words, " ", 160, 2);
        Assert.Equal(2, lines.Count);
        Assert.DoesNotContain("…", lines[0]);
        Assert.EndsWith("…", lines[1]);
        Assert.All(lines, line => Assert.True(s_lettering.WidthPx(line) <= 160));
    }

    [Fact]
    public void Wrap_ShortPieces_ShareALine() => Assert.Equal(["home · plan · year"], s_lettering.Wrap(["home", "plan", "year"], " · ", 300, 3));
}
