using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json;
using EnergySim.Web;

namespace EnergySim.Benchmarks;

/// <summary>A client on the loopback that drags sliders on the kitchen-table page's server: one person, then fifty at once. No two requests are alike.</summary>
internal static class PageLoad
{
    private const int Dragged = 200, People = 50, Each = 6;

    /// <summary>The demo's quarter-hours, then its hours.</summary>
    public static async Task Run()
    {
        string demo = Path.Combine(AppContext.BaseDirectory, "demo"), folder = Directory.CreateTempSubdirectory("energysim-load-").FullName;
        string text = await File.ReadAllTextAsync(Path.Combine(demo, "profiles", "demo-home.yaml")).ConfigureAwait(false);
        foreach (string name in (string[])["demo-load.csv", "demo-solar.csv"]) text = text.Replace(name, Path.Combine(demo, "profiles", name), StringComparison.Ordinal);
        text = text.Replace("../tariffs", Path.Combine(demo, "tariffs"), StringComparison.Ordinal);
        await File.WriteAllTextAsync(Path.Combine(folder, "hours.yaml"), "stepMinutes: 60\n" + text).ConfigureAwait(false);
        try
        {
            await Run(demo, folder, "demo/profiles/demo-home.yaml").ConfigureAwait(false);
            await Run(demo, folder, "library/hours.yaml").ConfigureAwait(false);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task Run(string demoFolder, string folder, string home)
    {
        await using PageServer server = await PageServer.Start(new ServeOptions { Folder = folder, DemoFolder = demoFolder, Port = 0 }).ConfigureAwait(false);
        using var client = new HttpClient(new SocketsHttpHandler { MaxConnectionsPerServer = People }) { BaseAddress = new Uri(server.Uri.GetLeftPart(UriPartial.Authority)) };
        using JsonDocument session = JsonDocument.Parse(await client.GetStringAsync("/api/v1/session").ConfigureAwait(false));
        client.DefaultRequestHeaders.Add("X-Session-Key", session.RootElement.GetProperty("key").GetString());
        Console.WriteLine($"{home}");
        await Task.Delay(3000).ConfigureAwait(false);
        long cold = Stopwatch.GetTimestamp();
        await client.GetStringAsync("/").ConfigureAwait(false);
        await client.GetStringAsync($"/api/v1/home?file={home}").ConfigureAwait(false);
        await Ask(client, home, 0).ConfigureAwait(false);
        Tell("first view", [Stopwatch.GetElapsedTime(cold).TotalMilliseconds]);
        for (int i = 1; i <= 60; i++) await Ask(client, home, i).ConfigureAwait(false);
        var one = new List<double>();
        TimeSpan before = Process.GetCurrentProcess().TotalProcessorTime;
        for (int i = 0; i < Dragged; i++) one.Add(await Ask(client, home, 100 + i).ConfigureAwait(false));
        Tell("one person's slider", one);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {"processor time an answer",-22} {(Process.GetCurrentProcess().TotalProcessorTime - before).TotalMilliseconds / Dragged:0.0} ms, client included"));
        double[][] many = await Task.WhenAll(Enumerable.Range(0, People).Select(async p =>
        {
            var times = new double[Each];
            for (int i = 0; i < Each; i++) times[i] = await Ask(client, home, 1000 + (p * Each) + i).ConfigureAwait(false);
            return times;
        })).ConfigureAwait(false);
        Tell($"{People} people at once", [.. many.SelectMany(m => m)]);
    }

    private static async Task<double> Ask(HttpClient client, string home, int turn)
    {
        string reserve = (turn % 997 / 1000.0).ToString(CultureInfo.InvariantCulture), sun = (turn % 7 / 10.0).ToString(CultureInfo.InvariantCulture);
        using var body = new StringContent($$"""{"home": "{{home}}", "choices": {"reserveFraction": {{reserve}}, "sunFraction": {{sun}}, "outageStart": "2025-01-15T18:00"} }""", Encoding.UTF8, "application/json");
        long began = Stopwatch.GetTimestamp();
        using HttpResponseMessage response = await client.PostAsync("/api/v1/answer", body).ConfigureAwait(false);
        await response.Content.ReadAsByteArrayAsync().ConfigureAwait(false);
        response.EnsureSuccessStatusCode();
        return Stopwatch.GetElapsedTime(began).TotalMilliseconds;
    }

    private static void Tell(string name, List<double> times)
    {
        times.Sort();
        double At(double share) => times[Math.Min(times.Count - 1, (int)(share * times.Count))];
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {name,-22} {times.Count,4} asked, half in {At(0.5),6:0.0} ms, 95 % in {At(0.95),6:0.0} ms, all in {times[^1],6:0.0} ms"));
    }
}
