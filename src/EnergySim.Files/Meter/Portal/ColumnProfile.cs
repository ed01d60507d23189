namespace EnergySim.Files;

/// <summary>What the cells of one column look like, over a sample of the rows of data.</summary>
internal sealed class ColumnProfile
{
    private const int MostDistinct = 40;

    public required int Index { get; init; }

    /// <summary>Its header, several header lines joined; empty where there is none.</summary>
    public required string Header { get; init; }

    public int Cells { get; private set; }

    public int Blanks { get; private set; }

    /// <summary>Cells with a date and a time, a date alone, a time alone.</summary>
    public int Moments { get; private set; }

    public int Dates { get; private set; }

    public int Times { get; private set; }

    public int Numbers { get; private set; }

    /// <summary>Whole numbers without a sign or mark.</summary>
    public int Wholes { get; private set; }

    public long Least { get; private set; } = long.MaxValue;

    public long Most { get; private set; } = long.MinValue;

    /// <summary>The different texts that occur; null where there are too many.</summary>
    public SortedSet<string>? Distinct { get; private set; } = new(StringComparer.Ordinal);

    public bool Has(int count) => count > 0 && count >= 0.8 * Math.Max(1, Cells - Blanks);

    public bool IsMoment => Has(Moments);

    public bool IsDate => Has(Dates) && !IsMoment;

    public bool IsTime => Has(Times);

    public bool IsNumber => Has(Numbers) && !IsMoment && !IsDate && !IsTime;

    public bool IsWhole => IsNumber && Wholes == Numbers;

    public bool IsText => Cells > Blanks && !IsNumber && !IsMoment && !IsDate && !IsTime;

    /// <summary>True for columns that hold nothing but 0 and 1: marks, not amounts.</summary>
    public bool IsMark => IsWhole && Least >= 0 && Most <= 1;

    public void Take(ReadOnlySpan<char> cell)
    {
        Cells++;
        if (NumberText.IsMissing(cell))
        {
            Blanks++;
            return;
        }
        if (StampText.TryRead(cell, out StampParts parts))
        {
            if (parts.HasDate && parts.HasTime) Moments++;
            else if (parts.HasDate) Dates++;
            else Times++;
        }
        if (NumberText.LooksNumeric(cell))
        {
            Numbers++;
            if (cell.Length < 18 && cell.IndexOfAnyExceptInRange('0', '9') < 0)
            {
                Wholes++;
                long value = long.Parse(cell, System.Globalization.CultureInfo.InvariantCulture);
                (Least, Most) = (Math.Min(Least, value), Math.Max(Most, value));
            }
        }
        if (Distinct is null) return;
        Distinct.Add(cell.ToString());
        if (Distinct.Count > MostDistinct) Distinct = null;
    }
}
