using EnergySim.Engine;
using EnergySim.Tariffs;

namespace EnergySim.Studies.Days;

/// <summary>One column of the comparison with every flow of its run.</summary>
internal sealed class ColumnRun
{
    /// <param name="home">The home.</param>
    /// <param name="column">0 = as it is, then the offers.</param>
    /// <exception cref="ArgumentException">There is no such column, or the offer cannot be run.</exception>
    /// <param name="calendar">Its plan on its axis; null = to be laid.</param>
    public ColumnRun(Home home, int column, TariffCalendar? calendar = null)
    {
        ArgumentNullException.ThrowIfNull(home);
        if (column < 0 || column > home.Offers.Count)
            throw new ArgumentException(FormattableString.Invariant($"There is no column {column}; they are 0 (as it is) to {home.Offers.Count}."));
        Home = home;
        Calendar = calendar ?? new TariffCalendar(home.Tariff, home.Load.Axis, home.Account, home.Load.Kw);
        Installed = Installation.Of(home with { Offers = column == 0 ? [] : [home.Offers[column - 1]] }, Calendar)[^1];
        Ledger = Installed.Run.Ledger();
        Prices = new MarginalPrices(Calendar);
    }

    public Home Home { get; }

    public TariffCalendar Calendar { get; }

    public Installation Installed { get; }

    public Ledger Ledger { get; }

    public MarginalPrices Prices { get; }

    public string PeriodOf(int interval) => Calendar.Buckets[Calendar.BucketOf[interval]].Period;
}
