namespace EnergySim.Files;

/// <summary>Finds out what the numbers of a column are: from a column of units, the header, the cells themselves, or a line outside the table.</summary>
internal sealed class UnitSniffer(PortalTable table, MeterOptions options, MeterRows rows)
{
    /// <summary>The unit of a column; null where it must be asked for.</summary>
    public MeterUnit? Of(ValueColumn column, int unitColumn)
    {
        if (options.Unit is MeterUnit stated)
        {
            if (!rows.Findings.Exists(f => f.Subject == "unit")) rows.Found("unit", UnitWord.Text(stated), "as said", 1);
            return stated;
        }
        if (unitColumn >= 0) return Once(UnitWord.Of(table.Columns[unitColumn].Distinct!.First(t => UnitWord.Of(t) is not null)), "the column of units");
        if (column.Unit is MeterUnit header) return Once(header, $"the header \"{SafeText.Of(column.Header)}\"");
        if (FromCells() is MeterUnit behind) return Once(behind, "it stands behind the numbers");
        MeterUnit[] around = [.. table.Around().Select(t => UnitWord.Of(t.Trim()) ?? UnitWord.In(t)).OfType<MeterUnit>().Distinct()];
        if (around.Length == 1) return Once(around[0], "a line outside the table");
        if (!rows.Questions.Exists(q => q.Option == "--unit"))
            rows.Ask("--unit", "The file does not say what its numbers are: the energy of each interval, or mean power over it?", "kWh", "Wh", "kW", "W");
        return null;

        MeterUnit? FromCells()
        {
            ReadOnlySpan<char> cell = table.Grid.Cell(table.FirstRow, column.Column);
            int end = cell.Length;
            while (end > 0 && char.IsAsciiLetter(cell[end - 1])) end--;
            return end > 0 && end < cell.Length ? UnitWord.Of(cell[end..]) : null;
        }
    }

    private MeterUnit? Once(MeterUnit? unit, string ground)
    {
        if (unit is MeterUnit u && !rows.Findings.Exists(f => f.Subject == "unit")) rows.Found("unit", UnitWord.Text(u), ground, ground.StartsWith("a line", StringComparison.Ordinal) ? 0.9 : 1);
        return unit;
    }
}
