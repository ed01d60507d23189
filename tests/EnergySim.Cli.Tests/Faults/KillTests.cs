using System.Diagnostics;
using System.Text;
using System.Text.Json;
using CsCheck;
using EnergySim.TestData;

namespace EnergySim.Cli.Tests.Faults;

/// <summary>
/// The program killed without warning at random instants while it writes: at the output's place is nothing half-written, what stood there is not lost, and
/// asking again gives the same bytes. Three kills a kind; ENERGYSIM_LONG=34 makes 102 of each.
/// </summary>
[Trait("needs", "processes")]
public sealed class KillTests(ITestOutputHelper told) : IDisposable
{
    private const int Kills = 3;

    private readonly string _folder = Directory.CreateTempSubdirectory("energysim-kill-").FullName;

    /// <summary>A third of the instants are a share of the time that the work takes; a third lie after its first file; a third at the change of the output itself.</summary>
    private static readonly Gen<(int Kind, double Share)> s_instants = Gen.Select(Gen.Int[0, 2], Gen.Double[0, 1]);

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string At(params string[] parts) => Path.Combine([_folder, .. parts]);

    [Fact]
    public void Sweep_Killed_LeavesTheTableWholeAndGoesOnToTheSameBytes()
    {
        CopyDemo();
        string plan = At("s.yaml"), table = At("cut", "t.csv");
        File.WriteAllText(plan, """
            sweep: killed
            homes: files/profiles/demo-home.yaml
            design: latin-hypercube
            points: 9000
            inputs: [{input: offers.*.strategy.reserve, name: reserve, uniform: {from: 0, to: 1}}]
            outputs: annualBill
            """);
        TimeSpan whole = OwnProcess.Run("sweep", plan, "--out", At("whole.csv"), "--cores", "1").Taken;
        byte[] expected = File.ReadAllBytes(At("whole.csv"));
        Repeat(whole, At("cut"), () => File.Exists(table), () => Start("cut"), ["sweep", plan, "--out", table, "--cores", "1"], () =>
        {
            Assert.True(!File.Exists(table) || File.ReadAllBytes(table).AsSpan().SequenceEqual(expected), "the table is half-written");
            OwnProcess.Run("sweep", plan, "--out", table, "--cores", "1");
            Assert.Equal(expected, File.ReadAllBytes(table));
            Assert.False(Directory.Exists(table + ".parts"), "parts stay behind");
        });
    }

    [Fact]
    public void Import_Killed_LeavesTheOldProfileOrTheNew()
    {
        string Demo(string name) => Path.Combine(SharedData.RepositoryRoot, "profiles", name);
        string profile = At("cut", "load.csv");
        string[] words = ["import", Demo("demo-meter.csv"), "--zone", "America/Denver", "--solar", Demo("demo-solar.csv"), "--fill", "--negatives", "zero", "--out", profile];
        Start("cut");
        TimeSpan whole = OwnProcess.Run(words).Taken;
        byte[] old = Encoding.UTF8.GetBytes("start,load_kw\n"), expected = File.ReadAllBytes(profile);
        Repeat(whole, At("cut"), () => !File.Exists(profile) || new FileInfo(profile).Length != old.Length, () => { Start("cut"); File.WriteAllBytes(profile, old); }, words, () =>
        {
            byte[] now = File.ReadAllBytes(profile);
            Assert.True(now.AsSpan().SequenceEqual(old) || now.AsSpan().SequenceEqual(expected), "the profile is half-written");
            OwnProcess.Run(words);
            Assert.Equal(expected, File.ReadAllBytes(profile));
        });
    }

    [Fact]
    public void Report_Killed_LeavesTheOldOneTheNewOneOrNoDocument()
    {
        string home = CopyDemo(), place = At("cut", "out");
        string[] Words(string dated) => ["report", home, "--out", place, "--dated", dated];
        Start("cut");
        OwnProcess.Run(Words("2026-01-31"));
        Directory.Move(place, At("old"));
        TimeSpan whole = OwnProcess.Run(Words("2026-02-28")).Taken;
        Directory.Move(place, At("whole"));
        bool intoOne = false;
        string document = Path.Combine(place, "report.json");
        // In turns: a new folder, and one that holds an older report.
        void Prepare()
        {
            Start("cut");
            if (intoOne = !intoOne) Copy(At("old"), place);
        }
        Repeat(whole, At("cut"), () => intoOne ? !File.Exists(document) : Directory.Exists(place), Prepare, Words("2026-02-28"), () =>
        {
            if (File.Exists(document)) Assert.True(Same(place, At("old")) || Same(place, At("whole")), "a folder with a document is not whole");
            else Assert.True(intoOne || !Directory.Exists(place), "a new folder without its document");
            OwnProcess.Run(Words("2026-02-28"));
            Assert.True(Same(place, At("whole")), "not the same bytes");
        });
    }

    [Fact]
    public async Task Save_OfThePageKilled_LeavesTheOldHomeOrTheNew()
    {
        Start("cut");
        await Save(null);
        Directory.Move(At("cut"), At("whole"));
        double wholeMs = 0;
        int killed = 0, of = 0, turn = 0;
        foreach ((int kind, double share) in Instants())
        {
            Start("cut");
            string home = At("cut", "mine.yaml");
            if (turn++ % 2 == 0) File.WriteAllText(home, "old");
            if (wholeMs == 0) wholeMs = (await Save(null)).TotalMilliseconds;
            else
            {
                if ((await Save(kind == 0 ? TimeSpan.FromMilliseconds(share * wholeMs) : TimeSpan.FromMilliseconds(wholeMs * (0.8 + (0.3 * share))))) < TimeSpan.Zero) killed++;
                of++;
                Assert.True(!File.Exists(home) || File.ReadAllText(home) is var text && (text == "old" || text == File.ReadAllText(At("whole", "mine.yaml"))), "the home is half-written");
                foreach (string file in Files(At("cut")).Where(f => !Path.GetFileName(f).StartsWith('.') && f != "mine.yaml"))
                    Assert.True(File.ReadAllBytes(At("cut", file)).AsSpan().SequenceEqual(File.ReadAllBytes(At("whole", file))), $"{file} is half-written");
                await Save(null);
            }
            Assert.True(Same(At("cut"), At("whole")), "not the same bytes");
        }
        told.WriteLine($"{killed} of {of} killed at their work");
    }

    /// <summary>Saves the demo with a choice through the page's server; kills that after a time, then gives less than nothing where it had not answered.</summary>
    private async Task<TimeSpan> Save(TimeSpan? killAfter)
    {
        using Process server = OwnProcess.Start("serve", At("cut"), "--port", "0");
        try
        {
            string line = await server.StandardOutput.ReadLineAsync() ?? "";
            using var client = new HttpClient { BaseAddress = new Uri(new Uri(line[line.IndexOf("http", StringComparison.Ordinal)..]).GetLeftPart(UriPartial.Authority)) };
            using JsonDocument session = JsonDocument.Parse(await client.GetStringAsync("/api/v1/session"));
            client.DefaultRequestHeaders.Add("X-Session-Key", session.RootElement.GetProperty("key").GetString());
            using var asked = new StringContent("""{"home": "demo/profiles/demo-home.yaml", "to": "mine.yaml", "replaces": true, "choices": {"reserveFraction": 0.35}}""", Encoding.UTF8, "application/json");
            long began = Stopwatch.GetTimestamp();
            Task<HttpResponseMessage> answer = client.PostAsync("/api/v1/save", asked);
            if (killAfter is TimeSpan wait)
            {
                while (Stopwatch.GetElapsedTime(began) < wait && !answer.IsCompleted) Thread.Sleep(0);
                bool done = answer.IsCompletedSuccessfully;
                server.Kill();
                try { (await answer).Dispose(); } catch (HttpRequestException) { }
                return done ? wait : -wait;
            }
            using HttpResponseMessage response = await answer;
            Assert.True(response.IsSuccessStatusCode, await response.Content.ReadAsStringAsync());
            return Stopwatch.GetElapsedTime(began);
        }
        finally
        {
            if (!server.HasExited) server.Kill();
            await server.WaitForExitAsync();
        }
    }

    private static List<(int Kind, double Share)> Instants()
    {
        var all = new List<(int, double)>();
        FixedSeed.Check(s_instants, Kills, all.Add);
        return all;
    }

    private void Repeat(TimeSpan whole, string watched, Func<bool> changed, Action prepare, string[] words, Action check)
    {
        int killed = 0;
        List<(int Kind, double Share)> instants = Instants();
        foreach ((int kind, double share) in instants)
        {
            prepare();
            int before = Directory.GetFileSystemEntries(watched).Length;
            Func<bool> sign = kind switch { 0 => () => true, 1 => () => Directory.GetFileSystemEntries(watched).Length > before, _ => changed };
            TimeSpan then = kind switch { 0 => share * whole, 1 => share * 0.7 * whole, _ => TimeSpan.Zero };
            if (OwnProcess.Kill(sign, then, words)) killed++;
            check();
        }
        told.WriteLine($"{killed} of {instants.Count} killed at their work");
        Assert.True(killed > 0, "none was killed at its work");
    }

    private void Start(string name)
    {
        if (Directory.Exists(At(name))) Directory.Delete(At(name), recursive: true);
        Directory.CreateDirectory(At(name));
    }

    /// <summary>The demo by the hour and for three years, so that its report is quick.</summary>
    private string CopyDemo()
    {
        foreach (string part in (string[])["profiles", "tariffs"]) Copy(Path.Combine(SharedData.RepositoryRoot, part), At("files", part));
        string home = At("files", "profiles", "demo-home.yaml");
        File.WriteAllText(home, File.ReadAllText(home).Replace("  years: 20\n", "  years: 3\n", StringComparison.Ordinal) + "stepMinutes: 60\n");
        return home;
    }

    private static void Copy(string from, string to)
    {
        foreach (string file in Files(from))
        {
            Directory.CreateDirectory(Path.GetDirectoryName(Path.Combine(to, file))!);
            File.Copy(Path.Combine(from, file), Path.Combine(to, file));
        }
    }

    private static IEnumerable<string> Files(string folder) => Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(folder, f)).Order(StringComparer.Ordinal);

    /// <summary>True when two folders hold the same files, but for what killed writings left beside (hidden and called .part or .trial).</summary>
    private static bool Same(string one, string two)
    {
        string[] Seen(string folder) => [.. Files(folder).Where(f => !f.Split('/').Any(p => p.StartsWith('.')))];
        return Seen(one).SequenceEqual(Seen(two)) && Seen(one).All(f => File.ReadAllBytes(Path.Combine(one, f)).AsSpan().SequenceEqual(File.ReadAllBytes(Path.Combine(two, f))));
    }
}
