namespace EnergySim.Tariffs;

/// <summary>Where one highest demand is looked for: a charge within one bill, version and season.</summary>
/// <param name="Bill">Index of the bill.</param>
/// <param name="Version">Index of the tariff's version.</param>
/// <param name="Season">Season.</param>
/// <param name="Charge">Index of the charge within its version.</param>
internal readonly record struct DemandCell(int Bill, int Version, string Season, int Charge);

/// <summary>For each demand charge the intervals at which its means begin, and the cell each belongs to.</summary>
internal sealed class DemandCells
{
    private DemandCells(IReadOnlyList<DemandCell> cells, IReadOnlyList<DemandColumn> columns) => (Cells, Columns) = (cells, columns);

    public IReadOnlyList<DemandCell> Cells { get; }

    public IReadOnlyList<DemandColumn> Columns { get; }

    public static DemandCells Lay(TariffCalendar calendar, ICollection<string> notes)
    {
        var cells = new List<DemandCell>();
        var columns = new List<DemandColumn>();
        int most = calendar.Tariff.Versions.Max(v => v.Demand.Count);
        for (int charge = 0; charge < most; charge++)
        {
            DemandColumn column = LayColumn(calendar, charge, cells);
            columns.Add(column);
            DemandCharge named = calendar.Tariff.Versions.First(v => v.Demand.Count > charge).Demand[charge];
            if (named.Minutes < calendar.Axis.StepMinutes) notes.Add($"{named.Name}: lower bound");
        }
        return new DemandCells(cells, columns);
    }

    private static DemandColumn LayColumn(TariffCalendar calendar, int charge, List<DemandCell> cells)
    {
        var axis = calendar.Axis;
        var cellOf = new int[axis.Count];
        var begins = new bool[axis.Count];
        var index = new Dictionary<DemandCell, int>();
        for (int i = 0; i < cellOf.Length; i++)
        {
            DayFacts day = calendar.DayOf(axis.LocalDayOf(i));
            cellOf[i] = -1;
            begins[i] = true;
            IReadOnlyList<DemandCharge> charges = calendar.Tariff.Versions[day.Version].Demand;
            if (charge >= charges.Count) continue;
            DemandCharge terms = charges[charge];
            begins[i] = calendar.Begins(i, terms.Minutes);
            bool counts = (terms.Season is null || terms.Season == day.Season)
                && calendar.RulesOf(day.Version).Takes(terms.Days, day.Day) && terms.Window.Contains(axis.LocalMinuteOf(i));
            if (!counts) continue;
            var cell = new DemandCell(day.Bill, day.Version, day.Season, charge);
            if (!index.TryGetValue(cell, out int at))
            {
                at = cells.Count;
                index.Add(cell, at);
                cells.Add(cell);
            }
            cellOf[i] = at;
        }
        return new DemandColumn(cellOf, begins);
    }
}

/// <summary>One charge on the axis.</summary>
/// <param name="CellOf">For each interval its cell, or −1 outside the window.</param>
/// <param name="Begins">For each interval whether a new mean begins with it.</param>
internal sealed record DemandColumn(int[] CellOf, bool[] Begins);
