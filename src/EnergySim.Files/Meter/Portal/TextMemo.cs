namespace EnergySim.Files;

/// <summary>Remembers what was concluded from a text: a column of words has few of them, in many rows.</summary>
internal sealed class TextMemo<T>(Func<string, T> conclude)
{
    private const int Most = 1000;
    private readonly Dictionary<string, T> _known = new(StringComparer.Ordinal);

    public T Of(ReadOnlySpan<char> text)
    {
        Dictionary<string, T>.AlternateLookup<ReadOnlySpan<char>> known = _known.GetAlternateLookup<ReadOnlySpan<char>>();
        if (known.TryGetValue(text, out T? value)) return value;
        T made = conclude(text.ToString());
        if (_known.Count < Most) known[text] = made;
        return made;
    }
}
