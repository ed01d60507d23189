namespace EnergySim.Files;

/// <summary>Something that a file leaves open: two readings are possible, and which is right must be said.</summary>
/// <param name="Option">The option of the command line that answers it.</param>
/// <param name="Text">The question as a sentence.</param>
/// <param name="Choices">What may be answered.</param>
public sealed record MeterQuestion(string Option, string Text, IReadOnlyList<string> Choices)
{
    /// <summary>The question, and how it is answered.</summary>
    public override string ToString() => Choices.Count == 0 ? $"{Text} Say {Option}." : $"{Text} Say {string.Join(" or ", Choices.Select(c => $"{Option} {c}".TrimStart()))}.";
}

/// <summary>A file can be read in more than one way. All its questions are asked at once.</summary>
public sealed class MeterQuestionsException : Exception
{
    /// <param name="file">Path of the file.</param>
    /// <param name="questions">What must be said; at least one.</param>
    /// <param name="findings">What was understood so far.</param>
    public MeterQuestionsException(string file, IReadOnlyList<MeterQuestion> questions, IReadOnlyList<MeterFinding> findings)
    {
        ArgumentNullException.ThrowIfNull(questions);
        (File, Questions, Findings) = (file, questions, findings);
    }

    /// <summary>Path of the file.</summary>
    public string File { get; }

    /// <summary>What must be said.</summary>
    public IReadOnlyList<MeterQuestion> Questions { get; }

    /// <summary>What was understood so far.</summary>
    public IReadOnlyList<MeterFinding> Findings { get; }

    /// <summary>One question a line.</summary>
    public override string Message => string.Join('\n', Questions.Select(q => $"{File}: {q}"));
}
