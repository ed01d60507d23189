using System.Text.Json;
using EnergySim.Studies.Sweeps;

namespace EnergySim.Files;

/// <summary>Writes what a run of a sweep came to as one JSON document; the rows are in the table.</summary>
public static class SweepJson
{
    /// <summary>Writes the document.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="reading">The sweep.</param>
    /// <param name="summary">What it came to.</param>
    /// <param name="matters">What matters in it; null = not asked.</param>
    public static void Write(Stream stream, SweepReading reading, SweepSummary summary, WhatMatters? matters = null)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(summary);
        using Utf8JsonWriter json = ResultJson.Open(stream);
        json.WriteStartObject();
        json.WriteString("sweep", reading.Plan.Name);
        json.WriteString("planHash", reading.PlanHash);
        json.WriteList("homes", reading.Plan.Homes, json.WriteStringValue);
        json.WriteList("tariffs", reading.Plan.Tariffs, json.WriteStringValue);
        json.WriteList("inputs", reading.Plan.Inputs, input => json.WriteStringValue(input.Name));
        json.WriteNumber("variants", summary.Rows);
        json.WriteNumber("variantsRun", summary.Run);
        json.WriteNumber("variantsFound", summary.Found);
        json.WriteNumber("errors", summary.Errors);
        json.WriteNumber("seconds", Math.Round(summary.Seconds, 3));
        json.WriteBoolean("isStopped", summary.IsStopped);
        json.WriteString("table", summary.Table);
        if (matters is not null)
        {
            json.WriteList("matters", matters.Outputs, output => WriteOutput(json, output));
            json.WriteList("bestOffers", matters.BestOffers, best => WriteBest(json, best));
        }
        json.WriteEndObject();
    }

    private static void WriteOutput(Utf8JsonWriter json, OutputMatters output)
    {
        json.WriteStartObject();
        json.WriteString("place", output.Place);
        json.WriteString("output", output.Column.Name);
        json.WriteString("unit", output.Column.Measure.Unit);
        if (output.Tornado is Tornado tornado)
        {
            Number(json, "likely", tornado.Likely);
            json.WriteList("tornado", tornado.Bars, bar =>
            {
                json.WriteStartObject();
                json.WriteString("input", bar.Input);
                json.WriteString("lowAt", bar.LowAt);
                Number(json, "low", bar.Low);
                json.WriteString("highAt", bar.HighAt);
                Number(json, "high", bar.High);
                Number(json, "elasticity", bar.Elasticity ?? double.NaN);
                json.WriteEndObject();
            });
        }
        if (output.Indices is SobolIndices indices) WriteIndices(json, indices);
        json.WriteList("dependences", output.Dependences, dependence =>
        {
            json.WriteStartObject();
            json.WriteString("input", dependence.Input);
            json.WriteList("points", dependence.Points, point =>
            {
                json.WriteStartObject();
                Number(json, "at", point.Input);
                Number(json, "mean", point.Mean);
                Number(json, "tenthBelow", point.Low);
                Number(json, "tenthAbove", point.High);
                json.WriteEndObject();
            });
            json.WriteEndObject();
        });
        if (output.Contour is BreakEvenContour contour) WriteContour(json, contour);
        json.WriteEndObject();
    }

    private static void WriteIndices(Utf8JsonWriter json, SobolIndices indices)
    {
        json.WriteStartObject("indices");
        Number(json, "mean", indices.Mean);
        Number(json, "variance", indices.Variance);
        json.WriteNumber("points", indices.Points);
        json.WriteList("inputs", indices.Inputs, index =>
        {
            json.WriteStartObject();
            json.WriteString("input", index.Input);
            Number(json, "first", index.First);
            Number(json, "firstLow", index.FirstBand.Low);
            Number(json, "firstHigh", index.FirstBand.High);
            Number(json, "total", index.Total);
            Number(json, "totalLow", index.TotalBand.Low);
            Number(json, "totalHigh", index.TotalBand.High);
            json.WriteEndObject();
        });
        json.WriteEndObject();
    }

    private static void WriteContour(Utf8JsonWriter json, BreakEvenContour contour)
    {
        json.WriteStartObject("contour");
        json.WriteString("along", contour.Along);
        json.WriteString("up", contour.Up);
        json.WriteList("alongAt", contour.AlongAt, json.WriteNumberValue);
        json.WriteList("upAt", contour.UpAt, json.WriteNumberValue);
        json.WriteList("zero", contour.Zero, stretch =>
        {
            json.WriteStartArray();
            foreach (double at in (double[])[stretch.From.Along, stretch.From.Up, stretch.To.Along, stretch.To.Up]) json.WriteNumberValue(at);
            json.WriteEndArray();
        });
        json.WriteEndObject();
    }

    private static void WriteBest(Utf8JsonWriter json, BestOffer best)
    {
        json.WriteStartObject();
        json.WriteString("place", best.Place);
        json.WriteString("measure", best.Measure);
        json.WriteString("offer", best.Offer);
        json.WriteNumber("bestFraction", best.BestFraction);
        json.WriteStartObject("means");
        foreach ((string offer, double mean) in best.Means) Number(json, offer, mean);
        json.WriteEndObject();
        json.WriteEndObject();
    }

    // What is no number is null.
    private static void Number(Utf8JsonWriter json, string name, double value)
    {
        if (double.IsFinite(value)) json.WriteNumber(name, value);
        else json.WriteNull(name);
    }
}
