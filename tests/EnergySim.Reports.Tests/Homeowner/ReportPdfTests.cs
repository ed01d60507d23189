using System.Globalization;
using System.Text;
using System.Text.Json;
using EnergySim.Reports.Pdf;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Tokens;

namespace EnergySim.Reports.Homeowner;

/// <summary>The printed report, read back by a PDF reader that is not the writer's (PdfPig).</summary>
public class ReportPdfTests
{
    public static TheoryData<string> Names => Reports.Names;

    [Theory]
    [MemberData(nameof(Names))]
    public void Write_AnyHome_KeepsEveryLetterOnThePageAndWordsApart(string home)
    {
        using PdfDocument pdf = Reports.Opened(home);
        foreach (Page page in pdf.GetPages())
        {
            Assert.All(page.Letters.Where(l => !string.IsNullOrWhiteSpace(l.Value)), l => Assert.True(
                l.BoundingBox.Left >= 20 && l.BoundingBox.Right <= page.Width - 20 && l.BoundingBox.Bottom >= 10 && l.BoundingBox.Top <= page.Height - 10, $"{home} page {page.Number}: \"{l.Value}\" leaves the page"));
            Word[] words = [.. page.GetWords().Where(w => w.Text.Trim().Length > 0)];
            Assert.True(words.Length > 10, $"{home} page {page.Number} is all but empty");
            for (int i = 0; i < words.Length; i++)
                for (int j = 0; j < i; j++)
                    Assert.False(Overlap(words[i], words[j]), $"{home} page {page.Number}: \"{words[i].Text}\" lies on \"{words[j].Text}\"");
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Write_AnyHome_HasFourPagesOfItsPaper(string home)
    {
        // US Letter 8.5 × 11 in; A4 210 × 297 mm (ISO 216), in points.
        foreach ((Paper paper, int width, int height) in ((Paper, int, int)[])[(Paper.Letter, 612, 792), (Paper.A4, 595, 842)])
        {
            using PdfDocument pdf = Reports.Opened(home, paper);
            Assert.Equal((home, paper, 4), (home, paper, pdf.NumberOfPages));
            Assert.All(pdf.GetPages(), p => Assert.Equal((width, height), ((int)Math.Round(p.Width), (int)Math.Round(p.Height))));
            // Small print of the usual size is 8 points; on the fullest pages pictures come down to 4.5.
            Assert.All(pdf.GetPages().SelectMany(p => p.Letters), l => Assert.True(l.PointSize >= 4.5, $"{home}, {paper}: \"{l.Value}\" is {l.PointSize} points"));
        }
    }

    // What screen readers ask for (ISO 32000-1:2008, 14.7 to 14.9, from memory): a language, a tree of parts, words for each picture, no letter outside.
    [Theory]
    [MemberData(nameof(Names))]
    public void Write_AnyHome_IsTaggedForReadingAloud(string home)
    {
        using PdfDocument pdf = Reports.Opened(home);
        DictionaryToken catalog = pdf.Structure.Catalog.CatalogDictionary;
        Assert.Equal("en", ((StringToken)catalog.Data["Lang"]).Data);
        Assert.True(((BooleanToken)((DictionaryToken)Resolved(pdf, catalog.Data["MarkInfo"])).Data["Marked"]).Data);
        var parts = new List<(string Tag, string? Words)>();
        Gather(pdf, Resolved(pdf, catalog.Data["StructTreeRoot"]), parts);
        HomeownerReport report = Reports.Of(home);
        int Count(string tag) => parts.Count(p => p.Tag == tag);
        Assert.Equal((1, 4), (Count("H1"), Count("H2")));
        ReportBlock[] blocks = [.. report.Pages.SelectMany(p => p.Blocks)];
        Assert.Equal(blocks.Sum(b => b is ChartBlock ? 1 : b is PairBlock ? 2 : 0), Count("Figure"));
        Assert.All(parts.Where(p => p.Tag == "Figure"), f => Assert.True(f.Words is { Length: > 60 } && f.Words.Any(char.IsDigit), f.Words));
        Assert.Equal(blocks.Count(b => b is TableBlock or FactsBlock), Count("Table"));
        Assert.Equal(blocks.OfType<ListBlock>().Sum(l => l.Items.Count), Count("LI"));
        Assert.Equal(blocks.OfType<TableBlock>().Sum(t => t.Heads.Count + t.Rows.Count) + blocks.OfType<FactsBlock>().Sum(f => f.Facts.Count), Count("TH"));
        foreach (Page page in pdf.GetPages())
        {
            IReadOnlyList<MarkedContentElement> marked = page.GetMarkedContents();
            Assert.Equal(page.Letters.Count, marked.Sum(Letters));
        }
    }

    private static int Letters(MarkedContentElement part) => part.Letters.Count + part.Children.Sum(Letters);

    private static void Gather(PdfDocument pdf, IToken token, List<(string Tag, string? Words)> into)
    {
        if (token is ArrayToken array)
        {
            foreach (IToken one in array.Data) Gather(pdf, Resolved(pdf, one), into);
        }
        else if (token is DictionaryToken part && (part.Data.ContainsKey("S") || part.Data.ContainsKey("ParentTree")))
        {
            if (part.Data.TryGetValue("S", out IToken? tag)) into.Add((((NameToken)tag).Data, part.Data.TryGetValue("Alt", out IToken? words) ? WordsOf(Resolved(pdf, words)) : null));
            if (part.Data.TryGetValue("K", out IToken? kids)) Gather(pdf, Resolved(pdf, kids), into);
        }
    }

    private static string WordsOf(IToken token) => token is StringToken text ? text.Data : ((HexToken)token).Data;

    private static IToken Resolved(PdfDocument pdf, IToken token) => token is IndirectReferenceToken at ? pdf.Structure.GetObject(at.Data).Data : token;

    [Theory]
    [MemberData(nameof(Names))]
    public void Write_AnyHome_SaysTheFiguresOfTheJsonDocument(string home)
    {
        using JsonDocument json = JsonDocument.Parse(Reports.Json(home));
        using PdfDocument pdf = Reports.Opened(home);
        string text = string.Concat(pdf.GetPages().Select(TextOf));
        var money = new Drawing.Money(json.RootElement.GetProperty("comparison").GetProperty("currency").GetString()!);
        foreach (JsonElement column in json.RootElement.GetProperty("comparison").GetProperty("columns").EnumerateArray())
            Assert.Contains(Tight(money.Whole(Rough.Rounded(column.GetProperty("annualBill").GetDecimal()))), text, StringComparison.Ordinal);
        foreach (JsonElement causes in json.RootElement.GetProperty("causes").EnumerateArray())
        {
            decimal[] parts = [.. causes.EnumerateObject().Where(p => p.Name is not ("offer" or "saving")).Select(p => p.Value.GetDecimal())];
            Assert.Equal(causes.GetProperty("saving").GetDecimal(), parts.Sum());
            Assert.All(parts.Append(parts.Sum()), amount => Assert.Contains(Tight(money.Exact(amount)), text, StringComparison.Ordinal));
        }
        foreach (JsonElement input in json.RootElement.GetProperty("manifest").GetProperty("inputs").EnumerateArray())
            Assert.Contains(input.GetProperty("sha256").GetString()!, text, StringComparison.Ordinal);
        Assert.Contains("EnergySim1.2.3", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_FiguresChanged_ChangesTheText()
    {
        using PdfDocument usual = Reports.Opened("usual"), other = Reports.Opened("no solar");
        Assert.NotEqual(TextOf(usual.GetPage(1)), TextOf(other.GetPage(1)));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Write_AnyHome_CarriesCautionsAndNoPromise(string home)
    {
        using PdfDocument pdf = Reports.Opened(home);
        string text = string.Concat(pdf.GetPages().Select(TextOf));
        foreach (string part in (string[])["notapromise", "licensedelectrician", "medicalequipment", "livewhenthegridisdown", "Agenerator"])
            Assert.Contains(part, text, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_Twice_GivesTheSameBytesWithoutClockOrChance()
    {
        byte[] first = Reports.Pdf("usual");
        Assert.Equal(first, Reports.Pdf("usual"));
        string text = Encoding.Latin1.GetString(first);
        Assert.DoesNotContain(string.Create(CultureInfo.InvariantCulture, $"(D:{TimeProvider.System.GetUtcNow().Year}"), text, StringComparison.Ordinal);
        Assert.Contains("/ID", text, StringComparison.Ordinal);
    }

    // Letters of one word in two sizes never lie on one another by more than a rounding.
    private static bool Overlap(Word a, Word b)
    {
        const double Touch = 1.2;
        return a.BoundingBox.Left + Touch < b.BoundingBox.Right && b.BoundingBox.Left + Touch < a.BoundingBox.Right
            && a.BoundingBox.Bottom + Touch < b.BoundingBox.Top && b.BoundingBox.Bottom + Touch < a.BoundingBox.Top;
    }

    // Lines are broken at spaces and within long words: both are left out.
    private static string TextOf(Page page) => Tight(string.Concat(page.Letters.Select(l => l.Value)));

    private static string Tight(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c)));
}
