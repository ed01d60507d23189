namespace EnergySim.Web;

/// <summary>Keeps the last few results of costly work by their key; work on one key is done once, whoever asks.</summary>
/// <param name="most">How many are kept.</param>
internal sealed class Kept<T>(int most) where T : class
{
    private readonly Lock _lock = new();
    private readonly LinkedList<(string Key, Lazy<T> Work)> _newest = [];

    /// <summary>The result of a key.</summary>
    /// <param name="key">The key.</param>
    /// <param name="work">Works it out. What it throws is thrown to all who wait, and not kept.</param>
    public T Of(string key, Func<T> work)
    {
        Lazy<T> lazy;
        lock (_lock)
        {
            LinkedListNode<(string Key, Lazy<T> Work)>? node = _newest.First;
            while (node is not null && node.Value.Key != key) node = node.Next;
            if (node is null) node = new LinkedListNode<(string, Lazy<T>)>((key, new Lazy<T>(work)));
            else _newest.Remove(node);
            _newest.AddFirst(node);
            if (_newest.Count > most) _newest.RemoveLast();
            lazy = node.Value.Work;
        }
        try
        {
            return lazy.Value;
        }
        catch
        {
            lock (_lock)
            {
                for (LinkedListNode<(string Key, Lazy<T> Work)>? node = _newest.First; node is not null; node = node.Next)
                {
                    if (node.Value.Work != lazy) continue;
                    _newest.Remove(node);
                    break;
                }
            }
            throw;
        }
    }
}
