using System.Globalization;
using EnergySim.Profiles;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Files;

/// <summary>What is done where import − export + solar comes out below 0.</summary>
public enum NegativeRule
{
    /// <summary>The files are refused, and the intervals listed.</summary>
    Refuse,

    /// <summary>0 is taken, and the intervals listed.</summary>
    Zero,
}

/// <summary>A house's load out of meter data, and what was done to get it.</summary>
/// <param name="Load">The load.</param>
/// <param name="Notes">What was done, a sentence each.</param>
public sealed record MeterLoadResult(Profile Load, IReadOnlyList<string> Notes)
{
    /// <summary>The solar record on the load's axis; null where there was none.</summary>
    public Profile? Solar { get; init; }
}

/// <summary>Works out the load of a house behind its meter.</summary>
public static class MeterLoad
{
    // A register that counts whole watt-hours or hundredths of kWh is that much off; below, a negative is a fault. Common practice.
    private const double ToleranceKwh = 0.0005;

    /// <summary>The load: what was bought where nothing was sold; else bought − sold + solar.</summary>
    /// <param name="data">The meter.</param>
    /// <param name="solar">The record of the solar inverter, AC, in intervals of the same length; null = none.</param>
    /// <param name="rule">What is done where the load comes out below 0.</param>
    /// <exception cref="ProblemsException">Something was sold and there is no record of the solar; the record does not cover the meter's span; the load is below 0.</exception>
    public static MeterLoadResult Of(MeterData data, MeterData? solar = null, NegativeRule rule = NegativeRule.Refuse)
    {
        ArgumentNullException.ThrowIfNull(data);
        if (solar is null && data.HasExport && data.ExportKwh > 0)
            throw new ProblemsException(
            [
                new Problem
                {
                    File = data.File,
                    Rule = string.Create(CultureInfo.InvariantCulture,
                        $"{data.ExportKwh:N1} kWh were sold, so the house used more than it bought, by what its roof gave: the load can not be known without a record of the solar (--solar FILE), nor roughly without a model of it (--solar-model FILE, a modelled profile)"),
                },
            ]);
        if (solar is null) return new MeterLoadResult(data.Import(), []);
        return Add(data, data.Import(), data.Export(), OnAxis(solar, data), rule);
    }

    /// <summary>The load with a modelled solar profile in place of a record: the error that shows is said.</summary>
    /// <param name="data">The meter.</param>
    /// <param name="model">The modelled solar, AC.</param>
    public static MeterLoadResult WithModel(MeterData data, MeterData model)
    {
        ArgumentNullException.ThrowIfNull(data);
        ArgumentNullException.ThrowIfNull(model);
        Profile import = data.Import(), export = data.Export(), made = OnAxis(model, data);
        MeterLoadResult result = Add(data, import, export, made, NegativeRule.Zero);
        double least = 0;
        int count = 0;
        for (int i = 0; i < import.Axis.Count; i++)
        {
            double kwh = (import.Kw[i] - export.Kw[i] + made.Kw[i]) * import.Axis.StepHours;
            if (kwh >= -ToleranceKwh) continue;
            least -= kwh;
            count++;
        }
        // Where the house used little, a model that is too low shows; one that is too high never does. Errors of both signs are taken as equal.
        double fraction = made.EnergyKwh > 0 ? 2 * least / made.EnergyKwh : 0;
        return result with
        {
            Notes =
            [
                string.Create(CultureInfo.InvariantCulture, $"The solar is a model, not a record. In {count:N0} intervals it is lower than what was sold, by {least:N1} kWh in all; as it errs upwards as much unseen, the load is uncertain by about {2 * least:N1} kWh ({fraction:P1} of the solar), interval by interval more."),
            ],
        };
    }

    /// <summary>The same with solar on the meter's axis, measured or modelled.</summary>
    public static MeterLoadResult Add(MeterData data, Profile import, Profile export, Profile made, NegativeRule rule)
    {
        ArgumentNullException.ThrowIfNull(data);
        ArgumentNullException.ThrowIfNull(import);
        ArgumentNullException.ThrowIfNull(export);
        ArgumentNullException.ThrowIfNull(made);
        var kw = new double[import.Axis.Count];
        var below = new List<(int Index, double Kwh)>();
        for (int i = 0; i < kw.Length; i++)
        {
            kw[i] = import.Kw[i] - export.Kw[i] + made.Kw[i];
            if (kw[i] * import.Axis.StepHours < -ToleranceKwh) below.Add((i, kw[i] * import.Axis.StepHours));
            kw[i] = Math.Max(0, kw[i]);
        }
        if (below.Count > 0 && rule == NegativeRule.Refuse)
            throw new ProblemsException(
                below.Take(ProblemsException.Most).Select(b => new Problem
                {
                    File = data.File,
                    Field = "import − export + solar",
                    Value = string.Create(CultureInfo.InvariantCulture, $"{import.Axis.OffsetStartOf(b.Index):uuuu-MM-dd HH:mm}"),
                    Rule = string.Create(CultureInfo.InvariantCulture, $"gives {b.Kwh:0.000} kWh; more was sold than the roof gave, so one of the records is wrong, shifted or incomplete (--negatives zero takes 0)"),
                }), below.Count - Math.Min(below.Count, ProblemsException.Most));
        var notes = new List<string>();
        if (below.Count > 0)
        {
            notes.Add(string.Create(CultureInfo.InvariantCulture, $"Import − export + solar was below 0 in {below.Count:N0} intervals and taken as 0, as asked; {-below.Sum(b => b.Kwh):0.000} kWh were added that way."));
            notes.AddRange(below.Take(ProblemsException.Most).Select(b => string.Create(CultureInfo.InvariantCulture, $"Below 0: {import.Axis.OffsetStartOf(b.Index):uuuu-MM-dd HH:mm}, {b.Kwh:0.000} kWh.")));
        }
        return new MeterLoadResult(new Profile(import.Axis, kw.AsSpan()), notes) { Solar = made };
    }

    private static Profile OnAxis(MeterData solar, MeterData data)
    {
        int step = data.StepMinutes ?? 0;
        if (solar.StepMinutes != step)
            throw new ProblemsException([new Problem { File = solar.File, Rule = string.Create(CultureInfo.InvariantCulture, $"the solar record is in steps of {solar.StepMinutes} minutes, the meter in {step}; --step says the length that both are turned into") }]);
        var at = new Dictionary<Instant, double?>(solar.Spans.Count);
        foreach (MeterSpan span in solar.Spans) at[span.Start] = span.ImportKwh ?? span.ExportKwh;
        var kw = new double[data.Spans.Count];
        var missing = new List<Instant>();
        for (int i = 0; i < kw.Length; i++)
        {
            if (at.TryGetValue(data.Spans[i].Start, out double? kwh) && kwh is double known) kw[i] = known * 60 / step;
            else missing.Add(data.Spans[i].Start);
        }
        if (missing.Count > 0)
            throw new ProblemsException([new Problem
            {
                File = solar.File,
                Rule = string.Create(CultureInfo.InvariantCulture, $"the solar record lacks {missing.Count:N0} of the meter's {kw.Length:N0} intervals, the first at {missing[0].InZone(data.Zone):uuuu-MM-dd HH:mm}"),
            }]);
        return new Profile(new TimeAxis(data.Zone, data.Spans[0].Start, step, kw.Length), kw.AsSpan());
    }
}
