namespace EnergySim.Files;

/// <summary>Finds out whether the decimal mark is a comma.</summary>
internal static class DecimalMark
{
    private const int Sample = 20_000;

    /// <summary>The answer and its ground; null where both readings are possible.</summary>
    public static (bool IsComma, string Ground)? Of(PortalTable table, IReadOnlyList<int> columns)
    {
        bool comma = false, point = false, commaIsDecimal = false, commaIsThousands = false, pointIsThousands = false, small = false;
        int taken = 0;
        for (int row = table.FirstRow; row < table.Grid.Rows && taken < Sample; row++)
        {
            if (!table.HasWidth(row)) continue;
            foreach (int column in columns)
            {
                ReadOnlySpan<char> cell = table.Grid.Cell(row, column);
                if (!NumberText.LooksNumeric(cell)) continue;
                taken++;
                int commas = cell.Count(','), points = cell.Count('.');
                comma |= commas > 0;
                point |= points > 0;
                if (commas > 1) commaIsThousands = true;
                if (points > 1) pointIsThousands = true;
                if (commas > 0 && points > 0) _ = cell.LastIndexOf(',') > cell.LastIndexOf('.') ? commaIsDecimal = true : commaIsThousands = true;
                else if (commas == 1) _ = IsGroup(cell, ',') ? small |= false : commaIsDecimal = true;
                else if (commas == 0 && points == 0) small |= cell.TrimStart("+-").Length <= 3;
            }
        }
        if (!comma) return (pointIsThousands, pointIsThousands ? "points stand between thousands" : point ? "numbers have points and no commas" : "numbers have no mark");
        if (commaIsDecimal && !commaIsThousands) return (true, "no marks between thousands would stand where the commas do");
        if (commaIsThousands || point) return (false, "commas stand between thousands");
        // Numbers below a thousand without a comma: a program that writes three decimals writes them always.
        return small ? (false, "commas stand before three digits, and only in numbers of a thousand or more") : null;
    }

    // 1,248 may be a thousand and more; 0,120 and 1,24 may not.
    private static bool IsGroup(ReadOnlySpan<char> cell, char mark)
    {
        ReadOnlySpan<char> digits = cell.TrimStart("+-");
        int at = digits.IndexOf(mark);
        int after = 0;
        while (at + 1 + after < digits.Length && char.IsAsciiDigit(digits[at + 1 + after])) after++;
        return at is >= 1 and <= 3 && digits[0] != '0' && after == 3 && at + 1 + after == digits.Length;
    }
}
