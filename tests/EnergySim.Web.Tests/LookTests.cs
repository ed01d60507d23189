using Microsoft.Playwright;

namespace EnergySim.Web.Tests;

/// <summary>Looks: nothing is cut off at any size. Pictures go to ENERGYSIM_PICTURES where that is set.</summary>
[Trait("needs", "browser")]
public class LookTests
{
    [Theory]
    [InlineData(390, 844, false)]
    [InlineData(820, 1180, false)]
    [InlineData(1280, 800, false)]
    [InlineData(1920, 1080, false)]
    [InlineData(390, 844, true)]
    [InlineData(1280, 800, true)]
    public async Task Page_AtASize_CutsNothingOff(int width, int height, bool dark)
    {
        await using Browsing browsing = await Browsing.Open(width, height, dark);
        await browsing.Settled();
        IPage page = browsing.Page;
        await Picture(page, $"page-{width}{(dark ? "-dark" : "")}", full: true);
        Assert.Equal("", await CutOff(page));
        if (width < 900)
        {
            await page.ClickAsync("#try-toggle");
            await Picture(page, $"tries-{width}{(dark ? "-dark" : "")}", full: false);
            await page.ClickAsync("#try-toggle");
        }
        foreach (string figure in (string[])["bill-1", "named-1", "fit-2", "payback-2"])
        {
            await page.ClickAsync($"[data-figure='{figure}']");
            await Picture(page, $"{figure}-{width}{(dark ? "-dark" : "")}", full: false);
            Assert.Equal("", await CutOff(page));
            await page.Keyboard.PressAsync("Escape");
        }
        await page.ClickAsync("#begin");
        await page.WaitForFunctionAsync("() => document.getElementById('leaf').open");
        await Picture(page, $"form-{width}{(dark ? "-dark" : "")}", full: false);
        Assert.Equal("", await CutOff(page));
        Assert.Empty(browsing.Faults);
    }

    [Fact]
    public async Task Page_Printed_IsLightAndWithoutControls()
    {
        await using Browsing browsing = await Browsing.Open(dark: true);
        await browsing.Settled();
        await browsing.Page.EmulateMediaAsync(new PageEmulateMediaOptions { Media = Media.Print });
        Assert.False(await browsing.Page.Locator(".tools").IsVisibleAsync());
        if (Environment.GetEnvironmentVariable("ENERGYSIM_PICTURES") is string folder)
            await browsing.Page.PdfAsync(new PagePdfOptions { Format = "Letter", PrintBackground = true, Path = Path.Combine(folder, "page.pdf") });
    }

    // What sticks out of the window sideways, or holds more text than it shows.
    private static Task<string> CutOff(IPage page) => page.EvaluateAsync<string>("""
        () => {
          const wide = document.documentElement.scrollWidth > window.innerWidth + 1 ? ['the page is wider than the window'] : [];
          const hidden = [...document.querySelectorAll('button, label, output, h1, h2, h3, p, [role=cell], [role=rowheader], [role=columnheader], legend')]
            .filter((e) => e.offsetParent !== null && !e.closest('.unseen') && !e.classList.contains('unseen') && e.scrollWidth > e.clientWidth + 2 && getComputedStyle(e).display !== 'inline')
            .map((e) => `${e.tagName} ${e.className || e.id}: ${e.innerText.slice(0, 40)} (${e.scrollWidth} in ${e.clientWidth})`);
          return [...wide, ...hidden].join('\n');
        }
        """);

    private static async Task Picture(IPage page, string name, bool full)
    {
        if (Environment.GetEnvironmentVariable("ENERGYSIM_PICTURES") is string folder)
            await page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(folder, name + ".png"), FullPage = full });
    }
}
