using System.Text.RegularExpressions;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace EnergySim.Reports.Homeowner;

/// <summary>The report as a page: what it holds, and what a browser and an accessibility checker (axe) say of it.</summary>
public partial class ReportHtmlTests
{
    private const string Browser = "/usr/bin/chromium";

    public static TheoryData<string> Names => Reports.Names;

    [Theory]
    [MemberData(nameof(Names))]
    public void Of_AnyHome_NeedsNothingFromOutsideAndNamesEachPictureOnce(string home)
    {
        string html = ReportHtml.Of(Reports.Of(home));
        Assert.DoesNotMatch(@"(src|href)\s*=\s*""(?!data:)", html);
        Assert.DoesNotMatch(@"url\((?!data:|#)", html);
        Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
        string[] ids = [.. Ids().Matches(html).Select(m => m.Groups[1].Value)];
        Assert.Equal(ids.Length, ids.Distinct().Count());
        Assert.Equal(Regex.Count(html, "<svg"), Regex.Count(html, "<title id="));
        Assert.Equal(Regex.Count(html, "<svg"), Regex.Count(html, "<desc id="));
        Assert.Equal(4, Regex.Count(html, "<section"));
        // Names come from files: what they hold stays text.
        Assert.DoesNotContain("<whatever>", html, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_Twice_IsTheSameText() => Assert.Equal(ReportHtml.Of(Reports.Of("usual")), ReportHtml.Of(Reports.Of("usual")));

    [Theory]
    [InlineData("usual", 1200)]
    [InlineData("usual", 390)]
    [InlineData("five offers", 390)]
    [InlineData("long names", 1200)]
    [InlineData("long names", 390)]
    [InlineData("one month", 390)]
    [Trait("needs", "browser")]
    public async Task Page_InABrowser_HasNoViolationAndNoSidewaysScroll(string home, int widthPx)
    {
        Assert.SkipUnless(File.Exists(Browser), $"{Browser} is not on this machine.");
        string file = Path.Combine(Path.GetTempPath(), $"energysim-{Guid.NewGuid():N}.html");
        try
        {
            await File.WriteAllTextAsync(file, ReportHtml.Of(Reports.Of(home)), TestContext.Current.CancellationToken);
            using IPlaywright playwright = await Playwright.CreateAsync();
            await using IBrowser browser = await playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
            {
                ExecutablePath = Browser,
                Args = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
            });
            IPage page = await browser.NewPageAsync(new BrowserNewPageOptions { ViewportSize = new ViewportSize { Width = widthPx, Height = 900 } });
            await page.GotoAsync(new Uri(file).AbsoluteUri);
            Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= widthPx, $"{home} scrolls sideways at {widthPx} px");
            AxeResult result = await page.RunAxe();
            Assert.True(result.Violations.Length == 0, string.Join("; ", result.Violations.Select(v => $"{v.Id}: {v.Nodes[0].Html}")));
            Assert.True(result.Passes.Length > 10);
        }
        finally
        {
            File.Delete(file);
        }
    }

    [GeneratedRegex(" id=\"([^\"]+)\"")]
    private static partial Regex Ids();
}
