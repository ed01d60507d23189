using EnergySim.TestData;

namespace EnergySim.Cli.Tests.Faults;

/// <summary>The same bytes whatever the machine's language, clock, fonts and cores; and a clear word where a place takes no file.</summary>
[Trait("needs", "processes")]
public sealed class SameEverywhereTests : IDisposable
{
    private static readonly Dictionary<string, Dictionary<string, string?>> s_places = new()
    {
        ["Turkish, odd zone, no fonts, no home folder"] = new() { ["LANG"] = "tr_TR.UTF-8", ["LC_ALL"] = "tr_TR.UTF-8", ["TZ"] = "Asia/Kathmandu", ["FONTCONFIG_FILE"] = "/dev/null", ["FONTCONFIG_PATH"] = "/nowhere", ["HOME"] = "/nowhere" },
        ["German, no zone, one core, narrow vectors"] = new() { ["LANG"] = "de_DE.UTF-8", ["LC_ALL"] = "de_DE.UTF-8", ["TZ"] = null, ["DOTNET_PROCESSOR_COUNT"] = "1", ["DOTNET_EnableAVX2"] = "0" },
        ["a zone that is none, no vectors, code compiled once"] = new() { ["TZ"] = "Nowhere/Nothing", ["DOTNET_EnableHWIntrinsic"] = "0", ["DOTNET_TieredCompilation"] = "0" },
    };

    private readonly string _folder = Directory.CreateTempSubdirectory("energysim-same-").FullName;

    public SameEverywhereTests()
    {
        foreach (string part in (string[])["profiles", "tariffs"])
        {
            Directory.CreateDirectory(At("files", part));
            foreach (string file in Directory.GetFiles(Path.Combine(SharedData.RepositoryRoot, part))) File.Copy(file, At("files", part, Path.GetFileName(file)));
        }
        string home = At("files", "profiles", "demo-home.yaml");
        File.WriteAllText(home, File.ReadAllText(home).Replace("  years: 20\n", "  years: 2\n", StringComparison.Ordinal) + "stepMinutes: 60\n");
        File.WriteAllText(At("plan.yaml"), "sweep: same\nhomes: files/profiles/demo-home.yaml\ndesign: latin-hypercube\npoints: 40\ninputs: [{input: offers.*.strategy.reserve, name: reserve, uniform: {from: 0, to: 1}}]\noutputs: [annualBill, annualSaving]\n");
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string At(params string[] parts) => Path.Combine([_folder, .. parts]);

    [Fact]
    public void Results_InEveryPlace_AreTheSameBytes()
    {
        Dictionary<string, byte[]> plain = Results([]);
        Assert.True(plain.Count > 40, $"{plain.Count} files");
        foreach ((string place, Dictionary<string, string?> environment) in s_places)
        {
            Dictionary<string, byte[]> here = Results(environment);
            Assert.Equal(plain.Keys, here.Keys);
            foreach ((string name, byte[] bytes) in plain) Assert.True(bytes.AsSpan().SequenceEqual(here[name]), $"{place}: {name} is not the same");
        }
    }

    /// <summary>What commands print, the table of a sweep and every file of a report.</summary>
    private Dictionary<string, byte[]> Results(Dictionary<string, string?> environment)
    {
        string home = At("files", "profiles", "demo-home.yaml");
        var files = new Dictionary<string, byte[]> { ["compare"] = Bytes("compare", home), ["comparison"] = Bytes("compare", home, "--json"), ["outage"] = Bytes("outage", home) };
        OwnProcess.Run(environment, "sweep", At("plan.yaml"), "--out", At("t.csv"));
        files["sweep"] = File.ReadAllBytes(At("t.csv"));
        OwnProcess.Run(environment, "report", home, "--out", At("out"), "--dated", "2026-03-14");
        foreach (string file in Directory.GetFiles(At("out"), "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal)) files[Path.GetRelativePath(At("out"), file)] = File.ReadAllBytes(file);
        Directory.Delete(At("out"), recursive: true);
        return files;

        byte[] Bytes(params string[] words) => System.Text.Encoding.UTF8.GetBytes(OwnProcess.Run(environment, words).Output);
    }

    [Theory]
    [InlineData("/proc")]
    [InlineData("/sys")]
    public void Writing_WhereNothingMayBeWritten_IsRefusedInASentence(string place)
    {
        if (!OperatingSystem.IsLinux()) Assert.Skip("needs a file system that takes no file");
        string home = At("files", "profiles", "demo-home.yaml");
        string[][] calls =
        [
            ["report", home, "--out", $"{place}/out"], ["sweep", At("plan.yaml"), "--out", $"{place}/t.csv"], ["chart", home, "--out", $"{place}/c.png"],
            ["import", At("files", "profiles", "demo-meter.csv"), "--zone", "America/Denver", "--solar", At("files", "profiles", "demo-solar.csv"), "--fill", "--negatives", "zero", "--out", $"{place}/l.csv"],
        ];
        foreach (string[] words in calls)
        {
            (int code, _, string errors) = CommandTests.Run(words);
            Assert.True(code == Commands.BadInput && errors.Contains(place, StringComparison.Ordinal) && !errors.Contains("   at ", StringComparison.Ordinal), $"{words[0]} {code}: {errors}");
            // The name that was asked for, not that of what is written before it.
            Assert.DoesNotContain(".part'", errors, StringComparison.Ordinal);
        }
    }

    /// <summary>No file may grow past 8 KiB: what a full disk does to a writer, without a disk to fill.</summary>
    [Fact]
    public void Writing_WhereTheDiskIsFull_LeavesWhatStoodThere()
    {
        if (OperatingSystem.IsWindows()) Assert.Skip("needs ulimit");
        string home = At("files", "profiles", "demo-home.yaml"), table = At("load.csv");
        File.WriteAllText(table, "old");
        Directory.CreateDirectory(At("out"));
        File.WriteAllText(At("out", "report.json"), "old");
        string[] seen = Seen();
        Refused($"report '{home}' --out '{At("out")}'");
        Refused($"import '{At("files", "profiles", "demo-meter.csv")}' --zone America/Denver --solar '{At("files", "profiles", "demo-solar.csv")}' --fill --negatives zero --out '{table}'");
        Assert.Equal(("old", "old"), (File.ReadAllText(table), File.ReadAllText(At("out", "report.json"))));
        Assert.Equal(seen, Seen());

        string[] Seen() => [.. Directory.GetFileSystemEntries(_folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];

        void Refused(string words)
        {
            // The runtime's own shared memory counts as a file: it is told to do without.
            var start = new System.Diagnostics.ProcessStartInfo("bash") { RedirectStandardOutput = true, RedirectStandardError = true };
            foreach (string word in (string[])["-c", $"trap '' XFSZ; ulimit -f 8; exec dotnet '{Path.Combine(AppContext.BaseDirectory, "EnergySim.Cli.dll")}' {words}"]) start.ArgumentList.Add(word);
            foreach (string name in (string[])["DOTNET_EnableWriteXorExecute", "DOTNET_EnableDiagnostics"]) start.Environment[name] = "0";
            using var process = System.Diagnostics.Process.Start(start)!;
            string errors = process.StandardError.ReadToEnd();
            process.WaitForExit();
            Assert.True(process.ExitCode == Commands.BadInput, $"{process.ExitCode}: {errors}");
            Assert.DoesNotContain("   at ", errors, StringComparison.Ordinal);
        }
    }
}
