using System.Globalization;
using EnergySim.Engine;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Days;

/// <summary>The year of one column by month and hour of the day.</summary>
public sealed record MonthHours
{
    /// <summary>The home.</summary>
    public required string Home { get; init; }

    /// <summary>The home file's note; empty = none.</summary>
    public required string Note { get; init; }

    /// <summary>The plan: its name and the date of the prices.</summary>
    public required string Tariff { get; init; }

    /// <summary>ISO 4217 code.</summary>
    public required string Currency { get; init; }

    /// <summary>The column: as it is, or the offer.</summary>
    public required string Column { get; init; }

    /// <summary>First local date.</summary>
    public required LocalDate From { get; init; }

    /// <summary>Last local date.</summary>
    public required LocalDate To { get; init; }

    /// <summary>What the home uses with the plant's own consumption.</summary>
    public required HourTable Use { get; init; }

    /// <summary>What the panels give: AC behind an inverter of their own, DC at a battery's inputs.</summary>
    public required HourTable Sun { get; init; }

    /// <summary>Bought at the meter.</summary>
    public required HourTable Bought { get; init; }

    /// <summary>Sold at the meter.</summary>
    public required HourTable Sold { get; init; }

    /// <summary>Energy in the cells, kWh; it has no sums.</summary>
    public required HourTable Stored { get; init; }

    /// <summary>Highest energy that the cells may hold, kWh; 0 = no battery.</summary>
    public required double HighestKwh { get; init; }

    /// <summary>Money for one more kWh bought, as far as the rate sheet says it ahead; it has no sums.</summary>
    public required HourTable BuyPerKwh { get; init; }

    /// <summary>The year of one column.</summary>
    /// <param name="home">The home.</param>
    /// <param name="column">0 = as it is, then the offers.</param>
    /// <exception cref="ArgumentException">There is no such column, or the offer cannot be run.</exception>
    public static MonthHours Of(Home home, int column) => Of(new ColumnRun(home, column));

    internal static MonthHours Of(ColumnRun run)
    {
        Home home = run.Home;
        TimeAxis axis = run.Ledger.Axis;
        HourTable Power(params ReadOnlySpan<LedgerColumn> columns)
        {
            var kw = new double[axis.Count];
            foreach (LedgerColumn of in columns)
                for (int i = 0; i < kw.Length; i++) kw[i] += run.Ledger[of][i];
            return new HourTable(HourMeans.Of(axis, kw), HourMeans.KwhByMonth(axis, kw));
        }
        LocalDate effective = home.Tariff.Versions[run.Calendar.VersionAtEndOf(run.Calendar.Bills[0])].Effective;
        return new MonthHours
        {
            Home = home.Name,
            Note = home.Note,
            Tariff = $"{home.Tariff.Name}, prices of {effective.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture)}",
            Currency = home.Tariff.Currency,
            Column = run.Installed.Name,
            From = axis.LocalDateOf(0),
            To = axis.LocalDateOf(axis.Count - 1),
            Use = Power(LedgerColumn.LoadKw, LedgerColumn.StandbyKw),
            Sun = Power(LedgerColumn.SolarDcKw, LedgerColumn.SolarAcKw),
            Bought = Power(LedgerColumn.ImportKw),
            Sold = Power(LedgerColumn.ExportKw),
            Stored = new HourTable(HourMeans.Of(axis, run.Ledger[LedgerColumn.StoredKwh]), null),
            HighestKwh = run.Installed.Run.Plant.HighestKwh,
            BuyPerKwh = new HourTable(HourMeans.Of(axis, run.Prices.BuyPerKwh), null),
        };
    }
}

/// <summary>One figure by month and hour.</summary>
/// <param name="Means">Its mean by month (January first) and local hour (0–23); null = the data have no such month.</param>
/// <param name="KwhByMonth">Its energy by month, kWh; null = it is no power.</param>
public sealed record HourTable(IReadOnlyList<IReadOnlyList<double>?> Means, IReadOnlyList<double>? KwhByMonth);
