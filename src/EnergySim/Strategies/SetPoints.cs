using System.Runtime.InteropServices;

namespace EnergySim.Strategies;

/// <summary>
/// What is wanted of the battery in an interval. The step decides what is allowed.
/// </summary>
/// <param name="FloorKwh">The battery may not go below this by discharging (no forced refill if it is below).</param>
/// <param name="SolarCeilingKwh">Solar may charge up to this; the effective value is the greater of this and the grid's ceiling.</param>
/// <param name="GridCeilingKwh">The grid may charge up to this; 0 = never.</param>
/// <param name="ImportTargetKw">Discharge until import falls to this; +∞ = hold.</param>
/// <param name="SellDownKwh">The battery may discharge to the grid down to this; +∞ = never.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct SetPointRow(
    double FloorKwh, double SolarCeilingKwh, double GridCeilingKwh, double ImportTargetKw, double SellDownKwh);

/// <summary>
/// One set-point row an interval, kept as a short list of distinct rows and, for each interval, which of them holds.
/// </summary>
public sealed class SetPoints
{
    private readonly SetPointRow[] _rows;

    /// <param name="rows">The rows, at least one.</param>
    /// <param name="picks">For each interval the index of its row.</param>
    /// <exception cref="ArgumentException">
    /// A row holds NaN or a negative number, or a pick names no row.
    /// </exception>
    public SetPoints(IReadOnlyList<SetPointRow> rows, ReadOnlySpan<int> picks)
    {
        ArgumentNullException.ThrowIfNull(rows);
        for (int i = 0; i < rows.Count; i++)
        {
            SetPointRow row = rows[i];
            if (!(row.FloorKwh >= 0 && row.SolarCeilingKwh >= 0 && row.GridCeilingKwh >= 0 && row.ImportTargetKw >= 0 && row.SellDownKwh >= 0))
                throw new ArgumentException($"Set-point row {i} holds a negative number or none: {row}.", nameof(rows));
        }
        foreach (int pick in picks)
            if ((uint)pick >= (uint)rows.Count)
                throw new ArgumentException($"Row {pick} of {rows.Count} is picked.", nameof(picks));
        _rows = [.. rows];
        Clock = new PickedRows(picks.ToArray());
    }

    /// <summary>Rows that are known to be in range, picked as by others.</summary>
    internal SetPoints(SetPointRow[] rows, PickedRows clock) => (_rows, Clock) = (rows, clock);

    /// <summary>The distinct rows.</summary>
    public ReadOnlySpan<SetPointRow> Rows => _rows;

    /// <summary>For each interval the index of its row.</summary>
    public ReadOnlySpan<int> Picks => Clock.RowOf;

    /// <summary>Number of intervals.</summary>
    public int Count => Clock.RowOf.Length;

    /// <summary>The row of an interval.</summary>
    public SetPointRow this[int index] => _rows[Clock.RowOf[index]];

    /// <summary>The picks, shared by set-points that change at the same times.</summary>
    internal PickedRows Clock { get; }

    /// <summary>
    /// Refuses rows that would buy and sell the same energy. A run does not ask this (given columns are run as they are); whoever takes
    /// set-points from a person does.
    /// </summary>
    /// <exception cref="ArgumentException">A row sells down below the level to which the grid may charge.</exception>
    public void CheckNoCycling()
    {
        for (int i = 0; i < _rows.Length; i++)
            if (_rows[i].SellDownKwh < _rows[i].GridCeilingKwh)
                throw new ArgumentException(string.Create(
                    System.Globalization.CultureInfo.InvariantCulture,
                    $"The battery would sell down to {_rows[i].SellDownKwh:0.###} kWh while the grid may charge it to {_rows[i].GridCeilingKwh:0.###} kWh: it would buy and sell the same energy."));
    }

    /// <summary>The same wants of a plant that holds another amount: every level keeps its share of usable energy.</summary>
    /// <param name="before">The plant that these rows were compiled for.</param>
    /// <param name="after">The plant with its new highest energy; its lowest is the same.</param>
    public SetPoints ForCapacity(Equipment.Plant before, Equipment.Plant after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        double ratio = before.UsableKwh > 0 ? after.UsableKwh / before.UsableKwh : 1;
        double Level(double kwh) => kwh <= before.LowestKwh || double.IsInfinity(kwh) ? kwh : before.LowestKwh + ((kwh - before.LowestKwh) * ratio);
        SetPointRow[] rows =
            [.. _rows.Select(r => r with { FloorKwh = Level(r.FloorKwh), SolarCeilingKwh = Level(r.SolarCeilingKwh), GridCeilingKwh = Level(r.GridCeilingKwh), SellDownKwh = Level(r.SellDownKwh) })];
        return new SetPoints(rows, Clock);
    }

    /// <summary>The same row in every interval.</summary>
    public static SetPoints Always(SetPointRow row, int count) => new([row], new int[count]);

    /// <summary>A row given for each interval; rows that repeat are kept once.</summary>
    public static SetPoints Of(IReadOnlyList<SetPointRow> rows)
    {
        ArgumentNullException.ThrowIfNull(rows);
        var distinct = new List<SetPointRow>();
        var index = new Dictionary<SetPointRow, int>();
        var picks = new int[rows.Count];
        for (int i = 0; i < picks.Length; i++)
        {
            if (!index.TryGetValue(rows[i], out int pick))
            {
                pick = distinct.Count;
                index.Add(rows[i], pick);
                distinct.Add(rows[i]);
            }
            picks[i] = pick;
        }
        return new SetPoints(distinct, picks);
    }

    /// <summary>The row that holds when the grid is down: empty the battery if the house needs it, fill it from the sun.</summary>
    public static SetPointRow Outage(Equipment.Plant plant)
    {
        ArgumentNullException.ThrowIfNull(plant);
        return new(plant.LowestKwh, plant.HighestKwh, 0, 0, double.PositiveInfinity);
    }
}
