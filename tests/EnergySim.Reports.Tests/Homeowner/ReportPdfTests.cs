using System.Globalization;
using System.Text;
using System.Text.Json;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;

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
    [InlineData(Paper.Letter, 612, 792)]
    [InlineData(Paper.A4, 595, 842)]
    public void Write_UsualHome_HasFourPagesOfItsPaper(Paper paper, int width, int height)
    {
        // US Letter 8.5 × 11 in; A4 210 × 297 mm (ISO 216), in points.
        using PdfDocument pdf = Reports.Opened("usual", paper);
        Assert.Equal(4, pdf.NumberOfPages);
        Assert.All(pdf.GetPages(), p => Assert.Equal((width, height), ((int)Math.Round(p.Width), (int)Math.Round(p.Height))));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Write_AnyHome_SaysTheFiguresOfTheJsonDocument(string home)
    {
        using JsonDocument json = JsonDocument.Parse(Reports.Json(home));
        using PdfDocument pdf = Reports.Opened(home);
        string text = string.Concat(pdf.GetPages().Select(TextOf));
        var money = new Savings.Money(json.RootElement.GetProperty("comparison").GetProperty("currency").GetString()!);
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
