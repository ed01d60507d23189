namespace EnergySim.Files;

/// <summary>Gathers the problems of one reading: the first twenty are kept, each once, the rest are counted.</summary>
internal sealed class ProblemList
{
    private readonly List<Problem> _kept = [];
    private readonly HashSet<Problem> _seen = [];
    private readonly List<InputFile> _inputs = [];

    /// <summary>The folders from which files may be read, links followed; null = any.</summary>
    public IReadOnlyList<string>? Folders { get; init; }

    /// <summary>The files read so far, each once, in the order in which they were first read.</summary>
    public IReadOnlyList<InputFile> Inputs => _inputs;

    public int Count => _seen.Count;

    /// <summary>How often something was reported, repetitions included.</summary>
    public int Reported { get; private set; }

    public void Add(Problem problem)
    {
        Reported++;
        // A later version of a tariff reads the keys that it inherits once more.
        if (_seen.Add(problem) && _kept.Count < ProblemsException.Most) _kept.Add(problem);
    }

    /// <summary>Takes down a file that was read.</summary>
    public void HasRead(InputFile file)
    {
        if (!_inputs.Contains(file)) _inputs.Add(file);
    }

    /// <summary>True when a file lies, links followed, in one of <see cref="Folders"/>.</summary>
    public bool MayOpen(string file) => Folders is null || Folders.Any(f => WholeFile.IsWithin(f, file));

    public void ThrowIfAny()
    {
        if (_kept.Count > 0) throw new ProblemsException(_kept, Count - _kept.Count);
    }
}
