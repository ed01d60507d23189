namespace EnergySim.Solar;

/// <summary>Searches days in a row.</summary>
internal static class DayRuns
{
    /// <summary>Where so many days in a row begin whose mean figure scores least, the first of equals; null = there are no so many in a row.</summary>
    /// <param name="days">The days.</param>
    /// <param name="length">How many in a row.</param>
    /// <param name="figure">The figure of a day that has a clearness.</param>
    /// <param name="score">What is made of the mean; the least wins.</param>
    /// <param name="take">Days that may be used; null = all.</param>
    public static (int From, double Score)? Best(
        IReadOnlyList<ClearnessDay> days, int length, Func<ClearnessDay, double> figure, Func<double, double> score, Func<ClearnessDay, bool>? take = null)
    {
        (int From, double Score)? best = null;
        double sum = 0;
        int run = 0;
        for (int i = 0; i < days.Count; i++)
        {
            bool isTaken = days[i].Clearness is not null && (take is null || take(days[i]));
            if (!isTaken || !days[i].FollowsPrevious) (sum, run) = (0, 0);
            if (!isTaken) continue;
            sum += figure(days[i]);
            if (++run > length) sum -= figure(days[i - length]);
            if (run < length) continue;
            double scored = score(sum / length);
            if (best is null || scored < best.Value.Score) best = (i - length + 1, scored);
        }
        return best;
    }
}
