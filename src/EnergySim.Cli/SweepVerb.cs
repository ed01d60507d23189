using System.CommandLine;
using System.Globalization;
using System.Runtime.InteropServices;
using EnergySim.Files;
using EnergySim.Reports;
using EnergySim.Studies.Sweeps;

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
        var matters = new Option<bool>("--matters") { Description = "Also tell what matters: tornado, indices, dependences, break-even line and best offers, as far as the design tells them. All rows are then kept in memory." };
        var charts = new Option<string?>("--charts") { Description = "Also write pictures of what matters, PNG and SVG, into this folder." };
        var json = new Option<bool>("--json") { Description = "The result as one JSON document." };
        var command = new Command(
            "sweep",
            "Every variant of a plan, a row each. A sweep that was stopped goes on where it stood when it is asked again.\n\nExample: energysim sweep profiles/sweeps/reserve-and-size.yaml --out reserve.csv")
        {
            plan, table, cores, share, merge, matters, charts, json,
        };
        command.SetAction(parsed => Run(
            parsed.GetValue(plan)!,
            parsed.GetValue(table) ?? Path.GetFileNameWithoutExtension(parsed.GetValue(plan)!) + ".csv",
            new SweepOptions { Cores = CoresOf(parsed.GetValue(cores)), Share = ShareOf(parsed.GetValue(share)), KeepsTable = parsed.GetValue(matters) || parsed.GetValue(charts) is not null },
            parsed.GetValue(merge), parsed.GetValue(charts), parsed.GetValue(json) ? output : null, parsed.GetValue(json) ? TextWriter.Null : output, errors));
        return command;
    }

    private static int Run(string plan, string table, SweepOptions options, bool merges, string? charts, TextWriter? json, TextWriter output, TextWriter errors)
    {
        SweepReading reading = SweepFile.Read(plan);
        var run = new SweepRun(reading, table);
        SweepSummary summary;
        if (merges) summary = run.Merge(options.KeepsTable);
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
        WhatMatters? matters = summary.InMemory is SweepTable rows ? WhatMatters.Of(rows) : null;
        if (json is not null) Output.WriteJson(json, stream => SweepJson.Write(stream, reading, summary, matters));
        SweepText.Write(output, reading, summary);
        if (matters is not null) SweepText.Write(output, matters);
        if (matters is not null && charts is not null) WriteCharts(matters, charts, output);
        return summary.IsStopped ? Commands.Finding : Commands.Done;
    }

    private static void WriteCharts(WhatMatters matters, string folder, TextWriter output)
    {
        Directory.CreateDirectory(folder);
        foreach (NamedChart chart in SweepCharts.Of(matters))
        {
            string file = Path.Combine(folder, chart.Name);
            WholeFile.Write(file + ".png", chart.WritePng);
            WholeFile.Write(file + ".svg", chart.WriteSvg);
            output.WriteLine($"Written: {file}.png and .svg");
        }
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
