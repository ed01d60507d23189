namespace EnergySim.Studies;

/// <summary>Asks the same of several things at once, on as many cores as there are; the answers stand in the order of the things.</summary>
internal static class SideBySide
{
    /// <summary>An answer a thing. Where several can not be answered, the first one's fault is thrown.</summary>
    public static IReadOnlyList<TAnswer> Of<TThing, TAnswer>(IReadOnlyList<TThing> things, Func<TThing, TAnswer> ask)
    {
        Task<TAnswer>[] asked = [.. things.Select(t => Task.Run(() => ask(t)))];
        return [.. asked.Select(t => t.GetAwaiter().GetResult())];
    }

    /// <summary>Does the same with each.</summary>
    public static void Do<TThing>(IReadOnlyList<TThing> things, Action<TThing> act)
    {
        if (things.Count == 1) act(things[0]);
        else Of(things, t => { act(t); return true; });
    }
}
