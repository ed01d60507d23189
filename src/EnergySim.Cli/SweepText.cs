using System.Globalization;
using EnergySim.Files;

namespace EnergySim.Cli;

/// <summary>Prints what a sweep came to.</summary>
internal static class SweepText
{
    public static void Write(TextWriter output, SweepReading reading, SweepSummary summary)
    {
        output.WriteLine($"{reading.Plan.Name}: {Counted(reading.Plan.Homes.Count, "home")}{(reading.Plan.Tariffs.Count > 0 ? " × " + Counted(reading.Plan.Tariffs.Count, "tariff") : "")}, {Counted(reading.Plan.Inputs.Count, "input")}, {Counted(summary.Rows, "variant")}");
        if (summary.Run > 0)
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Run: {summary.Run:N0} in {summary.Seconds:0.0} s, {summary.Run / Math.Max(summary.Seconds, 1e-9):N0} variants a second{(summary.Errors > 0 ? $"; {Counted(summary.Errors, "of them is", "of them are")} an error, told in the row" : "")}"));
        if (summary.Found > 0) output.WriteLine($"Found from before: {Counted(summary.Found, "row")}");
        if (summary.IsStopped) output.WriteLine("Stopped. What is done is kept; the same command goes on from there.");
        else if (summary.Table is null) output.WriteLine("This share is done. Once all are, --merge makes the table.");
        else output.WriteLine($"Written: {summary.Table}");
    }

    private static string Counted(int count, string one, string? many = null) => string.Create(CultureInfo.InvariantCulture, $"{count:N0} {(count == 1 ? one : many ?? one + "s")}");
}
