using System.Diagnostics;
using System.Globalization;

namespace EnergySim.Cli.Tests.Faults;

/// <summary>The program as a process of its own, which may be ended by the system at any instant (SIGKILL: it gets no warning).</summary>
internal static class OwnProcess
{
    public static Process Start(IReadOnlyDictionary<string, string?> environment, params string[] words)
    {
        var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (string word in (string[])[Path.Combine(AppContext.BaseDirectory, "EnergySim.Cli.dll"), .. words]) start.ArgumentList.Add(word);
        foreach ((string name, string? value) in environment)
            if (value is null) start.Environment.Remove(name);
            else start.Environment[name] = value;
        return Process.Start(start)!;
    }

    public static Process Start(params string[] words) => Start(new Dictionary<string, string?>(), words);

    /// <summary>Runs to its end, which must be a good one, and gives what was printed and the time it took.</summary>
    public static (string Output, TimeSpan Taken) Run(IReadOnlyDictionary<string, string?> environment, params string[] words)
    {
        long began = Stopwatch.GetTimestamp();
        using Process process = Start(environment, words);
        Task<string> errors = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.Equal("0", string.Create(CultureInfo.InvariantCulture, $"{process.ExitCode}{errors.Result}"));
        return (output, Stopwatch.GetElapsedTime(began));
    }

    public static (string Output, TimeSpan Taken) Run(params string[] words) => Run(new Dictionary<string, string?>(), words);

    /// <summary>Starts, waits for a sign (or for the end), then a time, and kills; false where it had ended by itself.</summary>
    public static bool Kill(Func<bool> sign, TimeSpan then, params string[] words)
    {
        using Process process = Start(words);
        process.OutputDataReceived += (_, _) => { };
        process.BeginOutputReadLine();
        while (!process.HasExited && !sign()) Thread.Sleep(0);
        if (then > TimeSpan.Zero) process.WaitForExit(then);
        bool killed = !process.HasExited;
        process.Kill();
        process.WaitForExit();
        return killed;
    }
}
