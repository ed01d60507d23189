using System.CommandLine;
using System.Globalization;
using System.Runtime.InteropServices;
using EnergySim.Files;

namespace EnergySim.Cli;

/// <summary><c>energysim sweep</c>: every variant of a plan, a row each.</summary>
internal static class SweepVerb
{
    public static Command Command(TextWriter output, TextWriter errors)
    {
        var plan = new Argument<string>("PLAN") { Description = "A sweep file (YAML)." };
        var table = new Option<string?>("--out") { Description = "The table to write: .csv or .parquet. Left out: the plan's name with .csv, in this folder. While it is made, the rows that are done stand in TABLE.parts/." };
        var cores = new Option<int?>("--cores") { Description = "How many cores to use; all. The number changes no row." };
        var share = new Option<string?>("--part") { Description = "Run only the k-th of n shares, written k/n, for as many machines on one folder; then --merge." };
        var merge = new Option<bool>("--merge") { Description = "Run nothing: make the table from shares, if all are there and of this plan." };
        var json = new Option<bool>("--json") { Description = "The result as one JSON document." };
        var command = new Command(
            "sweep",
            "Every variant of a plan, a row each. A sweep that was stopped goes on where it stood when it is asked again.\n\nExample: energysim sweep sweeps/reserve-and-size.yaml --out reserve.csv")
        {
            plan, table, cores, share, merge, json,
        };
        command.SetAction(parsed => Run(
            parsed.GetValue(plan)!,
            parsed.GetValue(table) ?? Path.GetFileNameWithoutExtension(parsed.GetValue(plan)!) + ".csv",
            new SweepOptions { Cores = CoresOf(parsed.GetValue(cores)), Share = ShareOf(parsed.GetValue(share)) },
            parsed.GetValue(merge), parsed.GetValue(json), output, errors));
        return command;
    }

    private static int Run(string plan, string table, SweepOptions options, bool merges, bool asJson, TextWriter output, TextWriter errors)
    {
        SweepReading reading = SweepFile.Read(plan);
        var run = new SweepRun(reading, table);
        SweepSummary summary;
        if (merges) summary = run.Merge();
        else
        {
            using var stop = new CancellationTokenSource();
            // The first signal stops the sweep in good order; parts that are done stay.
            void Stop(PosixSignalContext signal)
            {
                signal.Cancel = true;
                stop.Cancel();
            }
            using var interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, Stop);
            using var terminate = PosixSignalRegistration.Create(PosixSignal.SIGTERM, Stop);
            using var progress = new ProgressLine(errors);
            summary = run.Run(options with { Stop = stop.Token, Progress = progress.Show });
        }
        if (asJson) Output.WriteJson(output, stream => SweepJson.Write(stream, reading, summary));
        else SweepText.Write(output, reading, summary);
        return summary.IsStopped ? Commands.Finding : Commands.Done;
    }

    private static int CoresOf(int? asked) => asked is null ? Environment.ProcessorCount
        : asked >= 1 ? asked.Value : throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"--cores {asked}: at least one core is needed."));

    private static (int, int)? ShareOf(string? text)
    {
        if (text is null) return null;
        string[] ends = text.Split('/');
        if (ends.Length == 2 && int.TryParse(ends[0], CultureInfo.InvariantCulture, out int number) && int.TryParse(ends[1], CultureInfo.InvariantCulture, out int of) && number >= 1 && number <= of) return (number, of);
        throw new ArgumentException($"--part {text}: a share is written k/n, such as 3/8.");
    }
}

/// <summary>One line on the terminal that says how far a sweep is; silent where there is no terminal.</summary>
internal sealed class ProgressLine(TextWriter errors) : IDisposable
{
    private readonly bool _shows = errors == Console.Error && !Console.IsErrorRedirected;
    private long _shownAt;
    private bool _hasLine;

    /// <summary>Shows how far it is, at most some times a second.</summary>
    public void Show(SweepProgress progress)
    {
        if (!_shows || (Environment.TickCount64 - _shownAt < 200 && progress.Done < progress.Of)) return;
        _shownAt = Environment.TickCount64;
        _hasLine = true;
        errors.Write(string.Create(CultureInfo.InvariantCulture, $"\r{Words(progress),-78}"));
    }

    /// <summary>Takes the line away.</summary>
    public void Dispose()
    {
        if (_hasLine) errors.Write($"\r{new string(' ', 78)}\r");
    }

    private static string Words(SweepProgress progress) => string.Create(CultureInfo.InvariantCulture,
        $"{progress.Done:N0} of {progress.Of:N0} variants · {progress.PerSecond:N0} a second · {TimeSpan.FromSeconds(Math.Min(progress.SecondsLeft, 1e8)):d\\.hh\\:mm\\:ss} left").Replace(" 0.", " ", StringComparison.Ordinal);
}
