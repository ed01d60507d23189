using System.Net;
using System.Text;

namespace EnergySim.Web.Tests;

/// <summary>Who may ask what. Rebinding, forged writes and headers after the OWASP cheat sheets (from memory).</summary>
public class GuardTests
{
    [Theory]
    [InlineData("evil.example")]
    [InlineData("192.0.2.7")]
    public async Task Get_UnderAForeignHost_IsRefused(string host)
    {
        await using Served served = await Served.Start();
        using var request = new HttpRequestMessage(HttpMethod.Get, "/") { Headers = { Host = host } };
        using HttpResponseMessage response = await served.Client.SendAsync(request);
        Assert.Equal(HttpStatusCode.MisdirectedRequest, response.StatusCode);
    }

    [Theory]
    [InlineData("localhost")]
    [InlineData("127.0.0.1")]
    [InlineData("[::1]")]
    public async Task Get_UnderThisMachinesNames_IsAnswered(string host)
    {
        await using Served served = await Served.Start();
        using var request = new HttpRequestMessage(HttpMethod.Get, "/") { Headers = { Host = host } };
        using HttpResponseMessage response = await served.Client.SendAsync(request);
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
    }

    [Fact]
    public async Task Post_WithoutTheKey_IsRefused()
    {
        await using Served served = await Served.Start();
        using var client = new HttpClient { BaseAddress = served.Client.BaseAddress };
        using var body = new StringContent("{}", Encoding.UTF8, "application/json");
        using HttpResponseMessage response = await client.PostAsync("/api/v1/answer", body);
        Assert.Equal(HttpStatusCode.Forbidden, response.StatusCode);
    }

    [Fact]
    public async Task Post_FromAForeignPage_IsRefusedEvenWithTheKey()
    {
        await using Served served = await Served.Start();
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/answer") { Content = new StringContent("{}", Encoding.UTF8, "application/json") };
        request.Headers.Add("Origin", "http://evil.example");
        using HttpResponseMessage response = await served.Client.SendAsync(request);
        Assert.Equal(HttpStatusCode.Forbidden, response.StatusCode);
    }

    [Fact]
    public async Task Get_WhereOthersReachThePage_NeedsTheToken()
    {
        await using Served served = await Served.Start(o => o with { Address = IPAddress.Any });
        string? token = served.Server.Token;
        Assert.NotNull(token);
        Assert.Contains(token, served.Server.Uri.Query, StringComparison.Ordinal);
        foreach ((string path, HttpStatusCode code) in new[] { ("/", HttpStatusCode.Unauthorized), ("/api/v1/homes", HttpStatusCode.Unauthorized), ("/?token=wrong", HttpStatusCode.Unauthorized), ($"/?token={token}", HttpStatusCode.OK) })
        {
            using var client = new HttpClient { BaseAddress = served.Client.BaseAddress };
            using HttpResponseMessage response = await client.GetAsync(path);
            Assert.True(code == response.StatusCode, $"{path}: {response.StatusCode}");
        }
    }

    [Fact]
    public async Task Page_Policy_AllowsNothingInlineAndNothingFromElsewhere()
    {
        await using Served served = await Served.Start();
        using HttpResponseMessage response = await served.Client.GetAsync("/");
        string policy = string.Join(';', response.Headers.GetValues("Content-Security-Policy"));
        Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("http", policy, StringComparison.Ordinal);
        Assert.Equal("nosniff", response.Headers.GetValues("X-Content-Type-Options").Single());
        string page = await response.Content.ReadAsStringAsync();
        Assert.DoesNotContain("style=", page, StringComparison.Ordinal);
        Assert.DoesNotContain("onclick", page, StringComparison.Ordinal);
        Assert.DoesNotContain("//", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_AllFilesButFonts_WeighLessThan300KB()
    {
        await using Served served = await Served.Start();
        long bytes = 0;
        foreach (string name in typeof(PageServer).Assembly.GetManifestResourceNames().Where(n => n.StartsWith("Page/", StringComparison.Ordinal) && !n.EndsWith(".woff2", StringComparison.Ordinal)))
            bytes += (await served.Client.GetByteArrayAsync("/" + name["Page/".Length..])).Length;
        Assert.InRange(bytes, 10_000, 300_000);
    }

    [Theory]
    [InlineData("library/../../etc/passwd")]
    [InlineData("demo/../secret.yaml")]
    [InlineData("/etc/passwd")]
    [InlineData("library/..\\\\..\\\\x.yaml")]
    [InlineData("library/.hidden.yaml")]
    [InlineData("elsewhere/home.yaml")]
    [InlineData("drop-../home.yaml")]
    public async Task Answer_OfAPathOutOfItsFolder_IsRefused(string home)
    {
        await using Served served = await Served.Start();
        Assert.Contains("names no file", await served.Problem("answer", $$"""{"home": "{{home}}"}"""), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Answer_OfAHomeThatNamesAFileOutside_IsRefused()
    {
        await using Served served = await Served.Start();
        string outside = Directory.CreateTempSubdirectory("energysim-outside-").FullName;
        try
        {
            string demo = Path.Combine(AppContext.BaseDirectory, "demo", "profiles");
            string text = File.ReadAllText(Path.Combine(demo, "demo-home.yaml")).Replace("../tariffs", Path.Combine(AppContext.BaseDirectory, "demo", "tariffs"), StringComparison.Ordinal);
            File.Copy(Path.Combine(demo, "demo-load.csv"), Path.Combine(outside, "load.csv"));
            File.Copy(Path.Combine(demo, "demo-solar.csv"), Path.Combine(served.Folder, "demo-solar.csv"));
            File.WriteAllText(Path.Combine(served.Folder, "by-path.yaml"), text.Replace("demo-load.csv", Path.Combine(outside, "load.csv"), StringComparison.Ordinal));
            // A link in the folder leads out as well as a path does.
            File.CreateSymbolicLink(Path.Combine(served.Folder, "linked.csv"), Path.Combine(outside, "load.csv"));
            File.WriteAllText(Path.Combine(served.Folder, "by-link.yaml"), text.Replace("demo-load.csv", "linked.csv", StringComparison.Ordinal));
            foreach (string home in (string[])["by-path", "by-link"])
                Assert.Contains("outside the folders", await served.Problem("answer", $$"""{"home": "library/{{home}}.yaml"}"""), StringComparison.Ordinal);
        }
        finally
        {
            Directory.Delete(outside, recursive: true);
        }
    }

    [Fact]
    public async Task Answer_OfAFileOfBracketsAlone_IsRefusedAndTheServerLives()
    {
        await using Served served = await Served.Start();
        File.WriteAllText(Path.Combine(served.Folder, "deep.yaml"), "home: " + new string('[', 200_000));
        Assert.Contains("deep in each other", await served.Problem("answer", """{"home": "library/deep.yaml"}"""), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await served.Client.GetAsync("/")).StatusCode);
    }
}
