using System.Globalization;
using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Strategies;
using EnergySim.Tariffs;

namespace EnergySim.Studies;

/// <summary>Works out a <see cref="Comparison"/>: runs the home as it is and with each offer, and prices what the meters saw.</summary>
public static class ComparisonStudy
{
    /// <summary>Compares a home's offers.</summary>
    /// <param name="home">The home.</param>
    /// <exception cref="ArgumentException">The plan does not fit the axis, or an offer cannot be run.</exception>
    public static Comparison Of(Home home)
    {
        ArgumentNullException.ThrowIfNull(home);
        return Of(home, new TariffCalendar(home.Tariff, home.Load.Axis, home.Account, home.Load.Kw));
    }

    /// <summary>Compares a home's offers under a plan that was laid on its axis before.</summary>
    /// <param name="home">The home.</param>
    /// <param name="calendar">The home's plan on the axis of its load, with its account.</param>
    /// <param name="connected">For each offer the home with that offer alone, as a way to connect makes it; null = the home's own service for all.</param>
    /// <inheritdoc cref="Of(Home)"/>
    public static Comparison Of(Home home, TariffCalendar calendar, IReadOnlyList<Home>? connected = null)
    {
        ArgumentNullException.ThrowIfNull(home);
        ArgumentNullException.ThrowIfNull(calendar);
        IReadOnlyList<Installation> installations = connected is null
            ? Installation.Of(home, calendar)
            : [Installation.Of(home with { Offers = [] }, calendar)[0], .. connected.Select(c => Installation.Of(c, calendar)[1])];
        var sums = new RunSums[installations.Count];
        Parallel.For(0, sums.Length, i => sums[i] = installations[i].Run.Sums());
        var columns = new List<ComparisonColumn>();
        for (int i = 0; i < sums.Length; i++) columns.Add(Column(home, installations[i], sums[i], calendar, columns));
        if (connected is null) PriceIntegrityRules(home, calendar, columns);
        else foreach (Home one in connected) PriceIntegrityRules(one, calendar, columns);
        TariffVersion inForce = home.Tariff.Versions[calendar.VersionAtEndOf(calendar.Bills[0])];
        return new Comparison
        {
            Home = home.Name,
            Tariff = $"{home.Tariff.Name}, prices of {inForce.Effective.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture)}",
            Currency = home.Tariff.Currency,
            StepMinutes = home.Load.Axis.StepMinutes,
            From = calendar.Bills[0].From,
            To = calendar.Bills[^1].To,
            Columns = columns,
            Notes = NotesOf(home, calendar, columns),
        };
    }

    private static ComparisonColumn Column(Home home, Installation installation, RunSums sums, TariffCalendar calendar, List<ComparisonColumn> before)
    {
        BillSet bills = Biller.Bill(MeterSums.Of(calendar, sums.Meter));
        return new ComparisonColumn
        {
            Name = installation.Name,
            BatteryUnits = installation.Units,
            Price = installation.Price,
            AnnualBill = bills.Total,
            AnnualSaving = before.Count == 0 ? 0 : before[0].AnnualBill - bills.Total,
            AddedSaving = before.Count == 0 ? 0 : before[^1].AnnualBill - bills.Total,
            OwnSupplyFraction = FlowFigures.OwnSupplyFraction(sums.Flows),
            EquivalentFullCycles = FlowFigures.EquivalentFullCycles(installation.Run.Plant, sums.Flows),
            SolarKwh = home.Solar?.Profile.EnergyKwh ?? 0,
            CurtailedKwh = FlowFigures.CurtailedKwh(home.Solar, installation.ClippedKwh, sums.Flows),
            LimitHours = Enum.GetValues<Limit>()
                .Where(l => sums.BoundHours(l) > 0 && (installation.Units > 0 || l is Limit.Export or Limit.Overload))
                .ToDictionary(l => l, sums.BoundHours),
            Sums = sums,
            Bills = bills,
        };
    }

    // The same offers without their rule; the home as it is, first, has none.
    private static void PriceIntegrityRules(Home home, TariffCalendar calendar, List<ComparisonColumn> columns)
    {
        Offer[] ruled = [.. home.Offers.Where(o => o.Strategy.Integrity != IntegrityRule.None)];
        if (ruled.Length == 0) return;
        Home free = home with { Offers = [.. ruled.Select(o => o with { Strategy = o.Strategy with { Integrity = IntegrityRule.None } })] };
        foreach (Installation installation in Installation.Of(free, calendar).Skip(1))
        {
            decimal without = Biller.Total(MeterSums.Of(calendar, installation.Run.Sums().Meter));
            int at = columns.FindIndex(1, c => c.Name == installation.Name);
            columns[at] = columns[at] with { IntegrityRuleCost = columns[at].AnnualBill - without };
        }
    }

    private static List<string> NotesOf(Home home, TariffCalendar calendar, List<ComparisonColumn> columns)
    {
        var notes = new List<string>();
        if (home.Note.Length > 0) notes.Add(home.Note);
        int days = calendar.Bills[^1].UntilDay - calendar.Bills[0].FromDay;
        if (days is not (365 or 366))
            notes.Add(string.Create(CultureInfo.InvariantCulture, $"The data span {days} days, not a year: all figures are for that span and are not scaled up."));
        notes.Add($"Prices are those of {home.Tariff.Name}{(home.Tariff.Publisher.Length > 0 ? ", " + home.Tariff.Publisher : "")}; future prices, weather and use are not known. "
            + $"{(home.Solar is null ? "" : ExportInWords(calendar) + " ")}A saving is a computation on these data, not a promise.");
        if (home.Load.Axis.StepMinutes > 15)
            notes.Add(string.Create(CultureInfo.InvariantCulture, $"The data are means over {home.Load.Axis.StepMinutes} minutes: what is bought and sold within one interval is not seen."));
        if (home.LoadIsNetted)
            notes.Add("The meter data were netted inside each interval: what was bought and sold within one interval is not seen, and both are understated.");
        if (calendar.Tariff.Versions.Any(v => v.Export is ExportTerms.RetailNetting) && home.Solar is not null)
            foreach (Offer offer in home.Offers.Where(o => o.Strategy.Integrity == IntegrityRule.None))
                notes.Add($"{offer.Name}: under retail netting a battery most often must either charge only from solar or never export (common practice); "
                    + "this offer follows neither rule. Ask the utility, and state the strategy's rule.");
        notes.AddRange(columns.SelectMany(c => c.Bills.Notes).Distinct());
        return notes;
    }

    private static string ExportInWords(TariffCalendar calendar) => calendar.Tariff.Versions[calendar.VersionAtEndOf(calendar.Bills[^1])].Export switch
    {
        ExportTerms.Nothing => "Exported energy earns nothing.",
        ExportTerms.RetailNetting => "Exported energy is netted at the retail price.",
        ExportTerms.NetBilling => "Exported energy is credited at its own price.",
        ExportTerms.MonthlyNetting => "Exported energy is netted within each bill.",
        ExportTerms.TwoWay => "Exported energy is charged in one window and rewarded in another.",
        _ => "All solar is sold at a contract price.",
    };
}
