namespace EnergySim.Files;

/// <summary>Finds the known word that an unknown one was probably meant to be.</summary>
internal static class Nearest
{
    /// <summary>A clause such as <c>; the nearest is summer</c>, or nothing when no word is near.</summary>
    public static string Hint(string word, IEnumerable<string> known)
    {
        string? best = null;
        int least = (word.Length / 2) + 1;
        foreach (string candidate in known)
        {
            int distance = Distance(word, candidate);
            if (distance < least) (best, least) = (candidate, distance);
        }
        return best is null ? "" : $"; the nearest is {best}";
    }

    // Number of letters to put in, take out, change or swap with their neighbour.
    private static int Distance(string a, string b)
    {
        int[] older = new int[b.Length + 1], old = new int[b.Length + 1], now = new int[b.Length + 1];
        for (int j = 0; j <= b.Length; j++) old[j] = j;
        for (int i = 1; i <= a.Length; i++)
        {
            now[0] = i;
            for (int j = 1; j <= b.Length; j++)
            {
                bool same = char.ToLowerInvariant(a[i - 1]) == char.ToLowerInvariant(b[j - 1]);
                now[j] = Math.Min(Math.Min(now[j - 1], old[j]) + 1, old[j - 1] + (same ? 0 : 1));
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) now[j] = Math.Min(now[j], older[j - 2] + 1);
            }
            (older, old, now) = (old, now, older);
        }
        return old[b.Length];
    }
}
