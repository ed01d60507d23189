using Microsoft.Playwright;

namespace EnergySim.Web.Tests;

/// <summary>A page in a browser that all tests share, without memory of the others, on a server of its own; skipped where there is no Chromium.</summary>
internal sealed class Browsing : IAsyncDisposable
{
    private const string Chromium = "/usr/bin/chromium";

    // Ends with the process.
    private static readonly Lazy<Task<IBrowser>> s_browser = new(Launch);

    private readonly IBrowserContext _context;

    private Browsing(Served served, IBrowserContext context, IPage page) => (Served, _context, Page) = (served, context, page);

    public Served Served { get; }

    public IPage Page { get; }

    /// <summary>What the console and the network said that they should not.</summary>
    public List<string> Faults { get; } = [];

    public static async Task<Browsing> Open(int width = 1280, int height = 900, bool dark = false, bool bypassesPolicy = false)
    {
        Assert.SkipUnless(File.Exists(Chromium), $"{Chromium} is not installed.");
        Served served = await Served.Start();
        IBrowser browser = await s_browser.Value;
        IBrowserContext context = await browser.NewContextAsync(new BrowserNewContextOptions
        {
            ViewportSize = new ViewportSize { Width = width, Height = height },
            ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light,
            BypassCSP = bypassesPolicy,
            AcceptDownloads = true,
            Locale = "en-US",
        });
        // Under load of many tests at once slow work takes its time.
        context.SetDefaultTimeout(120_000);
        IPage page = await context.NewPageAsync();
        var browsing = new Browsing(served, context, page);
        string own = served.Client.BaseAddress!.GetLeftPart(UriPartial.Authority);
        page.Console += (_, message) => { if (message.Type == "error" && !message.Text.Contains("422", StringComparison.Ordinal)) browsing.Faults.Add(message.Text); };
        page.PageError += (_, error) => browsing.Faults.Add(error);
        page.Request += (_, request) => { if (!request.Url.StartsWith(own, StringComparison.Ordinal) && !request.Url.StartsWith("blob:", StringComparison.Ordinal)) browsing.Faults.Add("asked elsewhere: " + request.Url); };
        await page.GotoAsync(served.Server.Uri.ToString());
        await page.WaitForSelectorAsync("body[data-ready]");
        await page.WaitForSelectorAsync("#board .figure");
        return browsing;
    }

    /// <summary>Waits until all slow figures are there.</summary>
    public async Task Settled()
    {
        await Page.WaitForFunctionAsync("() => document.body.dataset.settled === document.body.dataset.figures && document.querySelectorAll('.waiting').length === 0");
    }

    /// <summary>The figure of a column, as it is shown.</summary>
    public async Task<string> Figure(string id) => (await Page.Locator($"[data-figure='{id}']").TextContentAsync() ?? "").Replace(" – why?", "", StringComparison.Ordinal).Trim();

    /// <summary>Does something and waits for the figures that follow it.</summary>
    public async Task Follows(Func<Task> act)
    {
        string? before = await Page.EvaluateAsync<string?>("() => document.body.dataset.figures");
        await act();
        await Page.WaitForFunctionAsync("before => document.body.dataset.figures !== before", before);
    }

    public async ValueTask DisposeAsync()
    {
        await _context.DisposeAsync();
        await Served.DisposeAsync();
    }

    private static async Task<IBrowser> Launch()
    {
        IPlaywright playwright = await Playwright.CreateAsync();
        return await playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
        {
            ExecutablePath = Chromium,
            Args = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
        });
    }
}
