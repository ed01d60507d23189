using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace EnergySim.Web.Tests;

/// <summary>The rules of WCAG 2.2 as axe-core asks them, on every view, light and dark.</summary>
[Trait("needs", "browser")]
public class AxeTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task EveryView_AskedByAxe_HasNoViolation(bool dark)
    {
        await using Browsing browsing = await Browsing.Open(dark: dark, bypassesPolicy: true);
        await browsing.Settled();
        IPage page = browsing.Page;
        var violations = new List<string>();
        await Ask("board");
        foreach (string figure in (string[])["bill-0", "bill-2", "saved-1", "added-2", "named-1", "lasting-1", "fit-1", "payback-1", "price-1"])
        {
            await page.ClickAsync($"[data-figure='{figure}']");
            await page.WaitForFunctionAsync("() => document.querySelectorAll('#leaf .waiting').length === 0");
            await Ask(figure);
            await page.Keyboard.PressAsync("Escape");
        }
        foreach (string button in (string[])["begin", "keep", "take"])
        {
            await page.ClickAsync($"#{button}");
            await page.WaitForFunctionAsync("() => document.getElementById('leaf').open");
            await Ask(button);
            await page.Keyboard.PressAsync("Escape");
        }
        await page.SetInputFilesAsync("#files", new FilePayload { Name = "broken.yaml", MimeType = "text/yaml", Buffer = "home: [\n"u8.ToArray() });
        await page.WaitForSelectorAsync("#trouble li");
        await Ask("trouble");
        Assert.True(violations.Count == 0, string.Join('\n', violations));

        async Task Ask(string view)
        {
            AxeResult result = await page.RunAxe();
            violations.AddRange(result.Violations.Select(v => $"{view}: {v.Id}: {v.Help}: {string.Join(" | ", v.Nodes.Take(3).Select(n => n.Html))}"));
        }
    }
}
