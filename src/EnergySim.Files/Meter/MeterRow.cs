namespace EnergySim.Files;

/// <summary>The channel of a meter.</summary>
internal enum MeterFlow : byte
{
    Import,
    Export,
    Net,
}

/// <summary>One reading with its place in time known. Line is 0 where the file is not one of lines.</summary>
internal readonly record struct MeterRow(long StartSecond, int Seconds, double? Kwh, MeterFlow Flow, SpanMark Mark, int Line)
{
    // A nullable double takes twice the room, and a file holds a million rows.
    private readonly double _kwh = Kwh ?? double.NaN;

    public double? Kwh
    {
        get => double.IsNaN(_kwh) ? null : _kwh;
        init => _kwh = value ?? double.NaN;
    }
}

/// <summary>What a reader hands on: readings in the order of the file, and what it understood.</summary>
internal sealed class MeterRows
{
    public List<MeterRow> Rows { get; set; } = [];

    public List<MeterFinding> Findings { get; } = [];

    public List<MeterQuestion> Questions { get; } = [];

    public List<string> Notes { get; } = [];

    public List<string> Warnings { get; } = [];

    public void Found(string subject, string answer, string ground, double confidence = 1) =>
        Findings.Add(new MeterFinding(subject, answer, ground, confidence));

    public void Ask(string option, string text, params string[] choices) => Questions.Add(new MeterQuestion(option, text, choices));

    public void ThrowIfAsking(string file)
    {
        if (Questions.Count > 0) throw new MeterQuestionsException(file, Questions, Findings);
    }
}
