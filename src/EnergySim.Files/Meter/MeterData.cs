using EnergySim.Profiles;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Files;

/// <summary>What a meter file holds, as it was understood.</summary>
public sealed record MeterData
{
    /// <summary>Path of the file.</summary>
    public required string File { get; init; }

    /// <summary>The zone in which days are counted; UTC where none is known.</summary>
    public required DateTimeZone Zone { get; init; }

    /// <summary>The spans in order of time; where they are equal in length, without a hole: missing ones stand in their places.</summary>
    public required IReadOnlyList<MeterSpan> Spans { get; init; }

    /// <summary>Length of every span, minutes; null where they differ or are longer than an hour (days, months).</summary>
    public required int? StepMinutes { get; init; }

    /// <summary>Whether the file has a channel for what was bought, or a signed one.</summary>
    public required bool HasImport { get; init; }

    /// <summary>Whether the file has a channel for what was sold, or a signed one.</summary>
    public required bool HasExport { get; init; }

    /// <summary>Whether the channel was one signed number, so that import and export inside an interval were netted.</summary>
    public required bool IsNetted { get; init; }

    /// <summary>What was understood.</summary>
    public required IReadOnlyList<MeterFinding> Findings { get; init; }

    /// <summary>What was left out, dropped, split or filled, a sentence each.</summary>
    public required IReadOnlyList<string> Notes { get; init; }

    /// <summary>What looks wrong but was left as it is, a sentence each.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }

    /// <summary>Bought, kWh, over all spans that are known.</summary>
    public double ImportKwh => Spans.Sum(s => s.ImportKwh ?? 0);

    /// <summary>Sold, kWh, over all spans that are known.</summary>
    public double ExportKwh => Spans.Sum(s => s.ExportKwh ?? 0);

    /// <summary>Number of spans without a number.</summary>
    public int MissingCount => Spans.Count(s => s.Mark == SpanMark.Missing);

    /// <summary>Number of spans that the file calls estimated.</summary>
    public int EstimatedCount => Spans.Count(s => s.Mark == SpanMark.Estimated);

    /// <summary>How surely the file was understood: the least of its findings.</summary>
    public double Confidence => Findings.Count == 0 ? 1 : Findings.Min(f => f.Confidence);

    /// <summary>What was bought, as a profile.</summary>
    /// <exception cref="ProblemsException">Spans are missing or too long.</exception>
    public Profile Import() => Column(s => s.ImportKwh, "import");

    /// <summary>What was sold, as a profile; none of it where the file has no such channel.</summary>
    /// <exception cref="ProblemsException">Spans are missing or too long.</exception>
    public Profile Export() => Column(s => HasExport ? s.ExportKwh : 0, "export");

    private Profile Column(Func<MeterSpan, double?> kwhOf, string field)
    {
        if (StepMinutes is not int step)
            throw new ProblemsException([new Problem { File = File, Rule = "the readings are longer than an hour; a profile needs intervals of 60 minutes or less (the totals can be used as bills: energysim import --bills)" }]);
        var kw = new double[Spans.Count];
        for (int i = 0; i < kw.Length; i++)
            kw[i] = (kwhOf(Spans[i]) ?? throw MissingProblem(field)) * 60 / step;
        return new Profile(new TimeAxis(Zone, Spans[0].Start, step, kw.Length), kw.AsSpan());
    }

    private ProblemsException MissingProblem(string field) => new(
    [
        .. MeterGap.Of(this).Select(gap => new Problem
        {
            File = File,
            Field = field,
            Value = gap.Text(Zone),
            Rule = "is missing; every interval of a profile needs a number (--fill takes the median of the same hour of like days)",
        }),
    ]);
}
