namespace EnergySim.Studies.Sweeps;

/// <summary>Which offer a home does best with, over the variants of a sweep.</summary>
/// <param name="Place">The home and tariff.</param>
/// <param name="Measure">By which figure: the most is best.</param>
/// <param name="Offer">The offer that is best most often.</param>
/// <param name="BestFraction">In which share of the variants it is best.</param>
/// <param name="Means">Mean of the figure by offer.</param>
public sealed record BestOffer(string Place, string Measure, string Offer, double BestFraction, IReadOnlyList<(string Offer, double Mean)> Means)
{
    // By what is asked of it, the figure that tells most.
    private static readonly string[] s_measures = ["netPresentValue", "annualSaving"];

    /// <summary>The best offer of each home and tariff; none where the sweep asks no figure to tell by, or has one offer.</summary>
    public static IReadOnlyList<BestOffer> Of(SweepTable table)
    {
        ArgumentNullException.ThrowIfNull(table);
        string? measure = s_measures.FirstOrDefault(m => table.Columns.Count(c => c.Measure.Name == m) > 1);
        if (measure is null) return [];
        int[] columns = [.. Enumerable.Range(0, table.Columns.Count).Where(c => table.Columns[c].Measure.Name == measure)];
        var best = new List<BestOffer>();
        for (int place = 0; place < table.Places; place++)
        {
            var wins = new int[columns.Length];
            var sums = new double[columns.Length];
            var counts = new int[columns.Length];
            for (int i = 0; i < table.Variants.PerHome; i++)
            {
                int first = -1;
                for (int c = 0; c < columns.Length; c++)
                {
                    double value = table.Output(columns[c], place)[i];
                    if (double.IsNaN(value)) continue;
                    sums[c] += value;
                    counts[c]++;
                    if (first < 0 || value > table.Output(columns[first], place)[i]) first = c;
                }
                if (first >= 0) wins[first]++;
            }
            if (wins.Sum() == 0) continue;
            int winner = Array.IndexOf(wins, wins.Max());
            best.Add(new BestOffer(table.PlaceName(place), measure, table.Columns[columns[winner]].Offer, wins[winner] / (double)wins.Sum(),
                [.. columns.Select((c, n) => (table.Columns[c].Offer, counts[n] > 0 ? sums[n] / counts[n] : double.NaN))]));
        }
        return best;
    }
}
