using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Studies;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Reports;

/// <summary>Invented comparisons: amounts in, everything else about them made up.</summary>
internal static class Cases
{
    public static readonly decimal[] AsItIs = [231.4m, 205.15m, 188.2m, 160.9m, 151.35m, 214.7m, 287.65m, 279.1m, 221.8m, 158.4m, 149.95m, 163.4m];
    public static readonly decimal[] OneBattery = [178.2m, 150.6m, 121.35m, 92.7m, 84.15m, 148.9m, 214.8m, 204.45m, 152.1m, 101.6m, 118.9m, 133.25m];
    public static readonly decimal[] TwoBatteries = [166.1m, 137.4m, 107.2m, 77.9m, 70.05m, 131.6m, 193.75m, 184.2m, 133.9m, 88.1m, 109.4m, 127.4m];

    private static readonly RunSums s_sums = Sums();

    public static Comparison Usual { get; } = Of(("as it is", AsItIs), ("one battery", OneBattery), ("two batteries", TwoBatteries));

    /// <summary>Calendar months from January 2025, one column a list; column i has i batteries.</summary>
    public static Comparison Of(params (string Name, decimal[] Totals)[] columns) => Of(new LocalDate(2025, 1, 1), columns);

    public static Comparison Of(LocalDate from, params (string Name, decimal[] Totals)[] columns)
    {
        int bills = columns[0].Totals.Length;
        return new Comparison
        {
            Home = "Brook Lane 4",
            Tariff = "Two Rivers Power time-of-use (1 Jan 2025)",
            Currency = "USD",
            StepMinutes = 60,
            From = from,
            To = from.PlusMonths(bills).PlusDays(-1),
            Columns = [.. columns.Select((c, i) => Column(c.Name, i, from, c.Totals, columns[0].Totals))],
            Notes = ["Invented demo: home, utility and prices are made up."],
        };
    }

    /// <summary>A number of columns and bills of rising amounts, with names of their own.</summary>
    public static Comparison Many(int columns, int bills, LocalDate from, Func<int, int, decimal>? amount = null)
    {
        amount ??= (c, b) => 260 - (35 * c) + (12 * (b % 7)) + 0.37m;
        string[] names = ["as it is", "one battery", "two batteries", "three batteries", "four batteries", "five batteries"];
        return Of(from, [.. Enumerable.Range(0, columns).Select(c => (names[c], Enumerable.Range(0, bills).Select(b => amount(c, b)).ToArray()))]);
    }

    private static ComparisonColumn Column(string name, int units, LocalDate from, decimal[] totals, decimal[] asItIs) => new()
    {
        Name = name,
        BatteryUnits = units,
        Price = null,
        AnnualBill = totals.Sum(),
        AnnualSaving = asItIs.Sum() - totals.Sum(),
        AddedSaving = 0,
        OwnSupplyFraction = 0,
        EquivalentFullCycles = 0,
        SolarKwh = 0,
        CurtailedKwh = 0,
        LimitHours = new Dictionary<EnergySim.Engine.Limit, double>(),
        Sums = s_sums,
        Bills = new BillSet { Currency = "USD", Notes = [], Bills = [.. totals.Select((t, i) => Bill(from, i, t))] },
    };

    private static Bill Bill(LocalDate from, int month, decimal total) => new()
    {
        From = from.PlusMonths(month),
        To = from.PlusMonths(month + 1).PlusDays(-1),
        Lines = [new BillLine { Kind = "fixed", Name = "all of it", Quantity = 1, Unit = "bill", UnitPrice = total, Unrounded = total }],
    };

    private static RunSums Sums()
    {
        var axis = new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2025, 1, 1, 0, 0), 60, 24);
        return new Run(new Profile(axis, Enumerable.Repeat(1.0, 24).ToArray()), null, null, Plant.Nothing, SiteLimits.None, null).Sums();
    }
}
