using System.Globalization;
using EnergySim.Files;
using EnergySim.Studies.Sweeps;
using Spectre.Console;

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

    /// <summary>What matters, a table an output.</summary>
    public static void Write(TextWriter output, WhatMatters matters)
    {
        foreach (OutputMatters of in matters.Outputs)
        {
            if (of.Tornado is not null) WriteTornado(output, of, of.Tornado);
            if (of.Indices is not null) WriteIndices(output, of, of.Indices);
        }
        foreach (BestOffer best in matters.BestOffers)
            output.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{best.Place}: {best.Offer} is best by {best.Measure} in {best.BestFraction:0 %} of the variants ({string.Join(", ", best.Means.Select(m => $"{m.Offer} {Number(m.Mean)}"))} on average)"));
    }

    private static void WriteTornado(TextWriter output, OutputMatters of, Tornado tornado)
    {
        output.WriteLine();
        output.WriteLine($"{of.Place}, {of.Column.Name}: {Number(tornado.Likely)} as the file has it; each input moved alone");
        Table table = Output.NewTable();
        table.AddColumn("input");
        foreach (string header in (string[])["least", "at", "greatest", "at", "elasticity"]) table.AddFigures(header);
        foreach (TornadoBar bar in tornado.Bars)
            table.AddTexts(bar.Input, Number(bar.Low), bar.LowAt, Number(bar.High), bar.HighAt, bar.Elasticity?.ToString("0.00", CultureInfo.InvariantCulture) ?? "");
        Output.WriteTable(output, table);
    }

    private static void WriteIndices(TextWriter output, OutputMatters of, SobolIndices indices)
    {
        output.WriteLine();
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{of.Place}, {of.Column.Name}: mean {Number(indices.Mean)}, standard deviation {Number(Math.Sqrt(indices.Variance))}, {indices.Points:N0} pairs of points; share of the variance with nine in ten resamples"));
        Table table = Output.NewTable();
        table.AddColumn("input");
        foreach (string header in (string[])["by itself", "", "in all", ""]) table.AddFigures(header);
        foreach (SobolIndex index in indices.Inputs)
            table.AddTexts(index.Input, Share(index.First), Band(index.FirstBand), Share(index.Total), Band(index.TotalBand));
        Output.WriteTable(output, table);
    }

    private static string Share(double share) => share.ToString("0.000", CultureInfo.InvariantCulture);

    private static string Band((double Low, double High) band) => $"{Share(band.Low)} to {Share(band.High)}";

    private static string Number(double value) => double.IsNaN(value) ? "none" : value.ToString(Math.Abs(value) >= 100 ? "#,0" : "0.###", CultureInfo.InvariantCulture);

    private static string Counted(int count, string one, string? many = null) => string.Create(CultureInfo.InvariantCulture, $"{count:N0} {(count == 1 ? one : many ?? one + "s")}");
}
