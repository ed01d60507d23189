using System.Globalization;
using System.Text.Json;
using Microsoft.Playwright;

namespace EnergySim.Web.Tests;

/// <summary>The salesperson's visit in a browser. What the page shows is checked against what the command line prints.</summary>
[Trait("needs", "browser")]
public class VisitTests
{
    private static readonly string s_profiles = Path.Combine(AppContext.BaseDirectory, "demo", "profiles");

    [Fact]
    public async Task Visit_FromOpeningToThePrintedPage_ShowsWhatTheCommandLineSays()
    {
        await using Browsing browsing = await Browsing.Open();
        await browsing.Settled();
        IPage page = browsing.Page;
        Assert.Equal("Larkspur Lane", await page.InnerTextAsync("#home-name"));
        using JsonDocument compare = JsonDocument.Parse(AnswerApiTests.Cli("compare", Path.Combine(s_profiles, "demo-home.yaml"), "--json"));
        for (int i = 0; i < 3; i++) Assert.Equal(Dollars(compare.RootElement.GetProperty("columns")[i].GetProperty("annualBill").GetDecimal()), await browsing.Figure($"bill-{i}"));
        Assert.Equal(Dollars(compare.RootElement.GetProperty("columns")[2].GetProperty("addedSaving").GetDecimal()), await browsing.Figure("added-2"));

        await browsing.Follows(() => page.FillAsync("#reserve", "60"));
        Assert.NotEqual(Dollars(compare.RootElement.GetProperty("columns")[1].GetProperty("annualBill").GetDecimal()), await browsing.Figure("bill-1"));

        await page.ClickAsync("[data-figure='bill-1']");
        Assert.Equal(12, await page.Locator("#leaf details").CountAsync());
        await page.ClickAsync("#leaf details summary >> nth=0");
        Assert.True(await page.Locator("#leaf details table").First.IsVisibleAsync());
        await page.Keyboard.PressAsync("Escape");

        await page.EmulateMediaAsync(new PageEmulateMediaOptions { Media = Media.Print });
        byte[] pdf = await page.PdfAsync(new PagePdfOptions { Format = "Letter", PrintBackground = true });
        Assert.Equal("%PDF"u8.ToArray(), pdf[..4]);
        Assert.InRange(pdf.Length, 20_000, 5_000_000);
        Assert.False(await page.Locator("#try-form").IsVisibleAsync());
        Assert.Empty(browsing.Faults);
    }

    [Fact]
    public async Task Downloads_OfChartLedgerAndSheet_AreTheirFiles()
    {
        await using Browsing browsing = await Browsing.Open();
        IPage page = browsing.Page;
        foreach ((string button, byte[] begins) in new[]
        {
            ("take-png", new byte[] { 0x89, (byte)'P', (byte)'N', (byte)'G' }), ("take-svg", "<svg"u8.ToArray()), ("take-ledger-1", "start_utc"u8.ToArray()), ("take-sheet-2", "Set-point sheet"u8.ToArray()),
        })
        {
            await page.ClickAsync("#take");
            IDownload download = await page.RunAndWaitForDownloadAsync(() => page.ClickAsync($"#{button}"));
            byte[] bytes = await File.ReadAllBytesAsync(await download.PathAsync());
            Assert.Equal(begins, bytes[..begins.Length]);
            await page.Keyboard.PressAsync("Escape");
        }
        Assert.Empty(browsing.Faults);
    }

    [Fact]
    public async Task Report_OfTheHomeAsItsFilesSay_IsTheCommandLines()
    {
        await using Browsing browsing = await Browsing.Open();
        await browsing.Page.ClickAsync("#take");
        IDownload download = await browsing.Page.RunAndWaitForDownloadAsync(() => browsing.Page.ClickAsync("#take-pdf"), new PageRunAndWaitForDownloadOptions { Timeout = 180_000 });
        string folder = Path.Combine(browsing.Served.Folder, "report");
        AnswerApiTests.Cli("report", Path.Combine(s_profiles, "demo-home.yaml"), "--out", folder);
        Assert.Equal(await File.ReadAllBytesAsync(Path.Combine(folder, "report-letter.pdf")), await File.ReadAllBytesAsync(await download.PathAsync()));
    }

    // Each slider and switch sends its choice, and the figure that depends on it is the one the server gives for it.
    [Theory]
    [InlineData("reserve", "60", "\"reserveFraction\":0.6", "bill-1")]
    [InlineData("hours", "24", "\"outageHours\":24", "named-2")]
    [InlineData("sun", "30", "\"sunFraction\":0.3", "named-2")]
    [InlineData("kept", "20", "\"keptFraction\":0.2", "named-2")]
    [InlineData("growth", "6", "\"energyGrowthFraction\":0.06", "payback-1")]
    [InlineData("start", "2025-01-15T18:00", "\"outageStart\":\"2025-01-15T18:00\"", "named-1")]
    public async Task Slider_Moved_IsAskedOfTheEngine(string id, string value, string sent, string figure)
    {
        await using Browsing browsing = await Browsing.Open();
        IPage page = browsing.Page;
        IRequest request = await page.RunAndWaitForRequestAsync(
            async () =>
            {
                await page.FillAsync($"#{id}", value);
                await page.DispatchEventAsync($"#{id}", "change");
            },
            r => r.Url.EndsWith("/answer", StringComparison.Ordinal) && (r.PostData ?? "").Contains(sent, StringComparison.Ordinal));
        Assert.Contains(sent, request.PostData, StringComparison.Ordinal);
        await browsing.Settled();
        Assert.NotEmpty(await browsing.Figure(figure));
        Assert.Empty(browsing.Faults);
    }

    [Theory]
    [InlineData("charge", "full", "\"charge\":\"full\"")]
    [InlineData("way", "Whole home at the entrance", "\"way\":\"Whole home at the entrance\"")]
    [InlineData("plan", "demo/tariffs/marrow-creek-flat.yaml", "\"plan\":\"demo/tariffs/marrow-creek-flat.yaml\"")]
    public async Task Switch_Chosen_IsAskedOfTheEngine(string id, string value, string sent)
    {
        await using Browsing browsing = await Browsing.Open();
        IPage page = browsing.Page;
        await page.WaitForSelectorAsync($"#{id} option[value='{value}']", new PageWaitForSelectorOptions { State = WaitForSelectorState.Attached });
        await page.RunAndWaitForRequestAsync(() => page.SelectOptionAsync($"#{id}", value), r => r.Url.EndsWith("/answer", StringComparison.Ordinal) && (r.PostData ?? "").Contains(sent, StringComparison.Ordinal));
        await browsing.Settled();
        Assert.Empty(browsing.Faults);
    }

    [Fact]
    public async Task Units_OneMore_RenamesTheColumnAndLeavesItsPriceOpen()
    {
        await using Browsing browsing = await Browsing.Open();
        await browsing.Follows(() => browsing.Page.ClickAsync("[aria-label='One battery more in Two batteries']"));
        Assert.Contains("Three batteries", await browsing.Page.InnerTextAsync("#board"), StringComparison.Ordinal);
        Assert.Equal("not stated", await browsing.Figure("price-2"));
        await browsing.Follows(() => browsing.Page.ClickAsync("#reset"));
        Assert.Equal("$19,500", await browsing.Figure("price-2"));
    }

    [Fact]
    public async Task Day_SteppedByTheHour_TellsFlowsAndTheLimitThatBound()
    {
        await using Browsing browsing = await Browsing.Open();
        await browsing.Settled();
        IPage page = browsing.Page;
        await page.FocusAsync("#day-hour");
        string before = await page.InnerTextAsync("#day-line");
        await page.Keyboard.PressAsync("ArrowRight");
        await page.WaitForFunctionAsync("before => document.getElementById('day-line').innerText !== before", before);
        Assert.StartsWith("19:00 to 20:00", await page.InnerTextAsync("#day-line"), StringComparison.Ordinal);
        Assert.NotEmpty(await page.InnerTextAsync("#day-bounds"));
        Assert.Contains("battery → house", await page.InnerTextAsync("#day-flows"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Keyboard_Alone_MovesASliderAndOpensAndClosesAWhy()
    {
        await using Browsing browsing = await Browsing.Open();
        await browsing.Settled();
        IPage page = browsing.Page;
        async Task TabTo(string selector)
        {
            for (int i = 0; i < 60; i++)
            {
                if (await page.EvaluateAsync<bool>("s => document.activeElement !== null && document.activeElement.matches(s)", selector)) return;
                await page.Keyboard.PressAsync("Tab");
            }
            Assert.Fail($"{selector} can not be reached with the Tab key.");
        }
        await TabTo("#reserve");
        await browsing.Follows(() => page.Keyboard.PressAsync("ArrowRight"));
        Assert.Equal("25 %", await page.InnerTextAsync("#reserve-out"));
        await browsing.Settled();
        await TabTo("[data-figure='bill-1']");
        await page.Keyboard.PressAsync("Enter");
        Assert.True(await page.Locator("#leaf").IsVisibleAsync());
        await page.Keyboard.PressAsync("Escape");
        Assert.False(await page.Locator("#leaf").IsVisibleAsync());
        Assert.True(await page.EvaluateAsync<bool>("() => document.activeElement.matches(\"[data-figure='bill-1']\")"));
    }

    [Fact]
    public async Task Drop_OfAHomeWithItsFiles_OpensIt()
    {
        await using Browsing browsing = await Browsing.Open();
        string home = Path.Combine(browsing.Served.Folder, "..", Path.GetRandomFileName() + ".yaml");
        File.WriteAllText(home, File.ReadAllText(Path.Combine(s_profiles, "demo-home.yaml")).Replace("home: Larkspur Lane", "home: Dropped Lane", StringComparison.Ordinal));
        try
        {
            await browsing.Follows(() => browsing.Page.SetInputFilesAsync("#files", [home, Path.Combine(s_profiles, "demo-load.csv"), Path.Combine(s_profiles, "demo-solar.csv")]));
            Assert.Equal("Dropped Lane", await browsing.Page.InnerTextAsync("#home-name"));
            Assert.Equal("$821", await browsing.Figure("bill-1"));
            Assert.Empty(browsing.Faults);
        }
        finally
        {
            File.Delete(home);
        }
    }

    [Theory]
    [InlineData("home: Broken\nload: [", "the text is not YAML")]
    [InlineData("home: Broken\nzone: Mars/Olympus\n", "Mars/Olympus")]
    [InlineData("home: Broken\nzone: America/Denver\nload: {file: ../../../etc/passwd, column: a, unit: kW, stamp: start}\ntariff: x.yaml\nbatteries: {}\noffers: []\n", "outside the folders")]
    public async Task Drop_OfABrokenHome_SaysWhatIsWrongAndKeepsTheOldOne(string text, string sentence)
    {
        await using Browsing browsing = await Browsing.Open();
        await browsing.Page.SetInputFilesAsync("#files", new FilePayload { Name = "broken.yaml", MimeType = "text/yaml", Buffer = System.Text.Encoding.UTF8.GetBytes(text) });
        await browsing.Page.WaitForSelectorAsync("#trouble li");
        string told = await browsing.Page.InnerTextAsync("#trouble");
        Assert.Contains(sentence, told, StringComparison.Ordinal);
        Assert.Contains("broken.yaml", told, StringComparison.Ordinal);
        Assert.Equal("Larkspur Lane", await browsing.Page.InnerTextAsync("#home-name"));
    }

    [Fact]
    public async Task Drop_ByDragging_ShowsTheVeilAndReadsTheFile()
    {
        await using Browsing browsing = await Browsing.Open();
        await browsing.Page.EvaluateAsync("""
            () => {
              const transfer = new DataTransfer();
              transfer.items.add(new File(['home: Dragged\n'], 'dragged.yaml'));
              window.dispatchEvent(new DragEvent('dragenter', { dataTransfer: transfer }));
              if (document.getElementById('drop-veil').hidden) throw new Error('no veil');
              window.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer }));
            }
            """);
        await browsing.Page.WaitForSelectorAsync("#trouble li");
        Assert.Contains("dragged.yaml", await browsing.Page.InnerTextAsync("#trouble"), StringComparison.Ordinal);
        Assert.False(await browsing.Page.Locator("#drop-veil").IsVisibleAsync());
    }

    [Fact]
    public async Task Save_WithAChoice_WritesAFileThatTheCommandLineReadsAlike()
    {
        await using Browsing browsing = await Browsing.Open();
        IPage page = browsing.Page;
        await browsing.Follows(() => page.FillAsync("#reserve", "45"));
        string bill = await browsing.Figure("bill-2");
        await page.ClickAsync("#keep");
        await page.FillAsync("#save-name", "saved.yaml");
        await page.ClickAsync("#save-now");
        await page.WaitForFunctionAsync("() => document.querySelector('#leaf [role=status]').innerText.startsWith('Saved as')");
        string saved = Path.Combine(browsing.Served.Folder, "saved.yaml");
        string text = File.ReadAllText(saved);
        Assert.Contains("# An invented home in an invented town", text, StringComparison.Ordinal);
        Assert.Contains("reserve: 0.45", text, StringComparison.Ordinal);
        using JsonDocument compare = JsonDocument.Parse(AnswerApiTests.Cli("compare", saved, "--json"));
        Assert.Equal(bill, Dollars(compare.RootElement.GetProperty("columns")[2].GetProperty("annualBill").GetDecimal()));
        Assert.Equal("library/saved.yaml", await page.InputValueAsync("#pick"));
    }

    [Fact]
    public async Task Form_WithTwelveBills_ShowsTheAnswer()
    {
        await using Browsing browsing = await Browsing.Open();
        IPage page = browsing.Page;
        await page.ClickAsync("#begin");
        await page.FillAsync("#f-name", "Quarry Row");
        for (int m = 0; m < 12; m++) await page.FillAsync($"#f-kwh-{m}", (700 + (20 * m)).ToString(CultureInfo.InvariantCulture));
        await page.FillAsync("#f-price-1", "11000");
        await page.FillAsync("#f-price-2", "19000");
        await browsing.Follows(() => page.ClickAsync("#f-make"));
        Assert.Equal("Quarry Row", await page.InnerTextAsync("#home-name"));
        Assert.Equal("$11,000", await browsing.Figure("price-1"));
        Assert.StartsWith("$", await browsing.Figure("bill-0"), StringComparison.Ordinal);
        Assert.Empty(browsing.Faults);
    }

    [Fact]
    public async Task Work_Cancelled_LeavesThePageUsable()
    {
        await using Browsing browsing = await Browsing.Open();
        IPage page = browsing.Page;
        await page.ClickAsync("#take");
        await page.ClickAsync("#work-bound");
        await page.ClickAsync("#work-cancel");
        await page.WaitForFunctionAsync("() => document.querySelector('#leaf [role=status]').innerText === 'Cancelled.'");
        await page.Keyboard.PressAsync("Escape");
        await browsing.Follows(() => page.FillAsync("#reserve", "35"));
        Assert.Empty(browsing.Faults);
    }

    private static string Dollars(decimal amount) => (amount < 0 ? "−$" : "$") + Math.Round(Math.Abs(amount), 0, MidpointRounding.AwayFromZero).ToString("#,0", CultureInfo.InvariantCulture);
}
