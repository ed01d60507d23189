using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Tariffs;

namespace EnergySim.Studies.Causes;

/// <summary>
/// Splits savings into causes. What the battery does to the meter is cut into changes (used at home, shifted, sold, charged, lost); the bill
/// is worked out with every subset of them, and each change is given its mean effect over all orders in which they can be made (Shapley's
/// value, 1953, from memory), so that no order is favoured and the parts sum to the whole. Charges that are not for energy are compared as they stand.
/// </summary>
public static class CauseStudy
{
    private static readonly Cause[] s_flows =
        [Cause.ShiftedIntoPeak, Cause.UsedAtHome, Cause.SoldFromBattery, Cause.ForgoneCredit, Cause.BoughtToCharge, Cause.LossesAndStandby];

    private const int Losses = 5;

    /// <summary>The causes of each offer's saving against the home as it is.</summary>
    /// <param name="home">The home.</param>
    /// <exception cref="ArgumentException">The plan does not fit the axis, or an offer cannot be run.</exception>
    public static IReadOnlyList<SavingCauses> Of(Home home)
    {
        ArgumentNullException.ThrowIfNull(home);
        return Of(home, new TariffCalendar(home.Tariff, home.Load.Axis, home.Account, home.Load.Kw));
    }

    /// <summary>The same under a plan that was laid before.</summary>
    internal static IReadOnlyList<SavingCauses> Of(Home home, TariffCalendar calendar)
    {
        bool[] dearest = calendar.InPeriods([]);
        IReadOnlyList<Installation> installations = Installation.Of(home, calendar);
        MeterColumns asItIs = installations[0].Run.Sums().Meter;
        return [.. installations.Skip(1).Select(i => new SavingCauses { Name = i.Name, Causes = CausesOf(i.Run, asItIs, calendar, dearest) })];
    }

    private static List<SavingCause> CausesOf(Run run, MeterColumns asItIs, TariffCalendar calendar, bool[] dearest)
    {
        Ledger ledger = run.Ledger();
        double[][] changes = ChangesOf(ledger, run, asItIs, dearest);
        var bills = new BillSet[1 << s_flows.Length];
        var meter = new MeterColumns(ledger.Axis.Count);
        for (int set = 0; set < bills.Length; set++)
        {
            MeterWith(set, changes, asItIs, ledger.Sums.Meter, meter);
            bills[set] = Biller.Bill(MeterSums.Of(calendar, meter));
        }
        var amounts = new Dictionary<Cause, decimal>();
        Dictionary<string, Cause> kinds = KindsOf(calendar.Tariff);
        foreach (Cause cause in (Cause[])[Cause.Demand, Cause.Tiers, Cause.Events, Cause.MinimumAndTaxes])
            amounts[cause] = AmountOf(bills[0], Is(cause)) - AmountOf(bills[^1], Is(cause));
        // Totals may be rounded where lines are not: what that comes to goes with the taxes.
        amounts[Cause.MinimumAndTaxes] += RoundingOf(bills[0]) - RoundingOf(bills[^1]);
        decimal[] energy = [.. bills.Select(b => AmountOf(b, l => !kinds.ContainsKey(l.Kind)))];
        for (int flow = 0; flow < s_flows.Length; flow++) amounts[s_flows[flow]] = MeanEffect(energy, flow);
        return ToTheCent(amounts, bills[0].Total - bills[^1].Total);

        Func<BillLine, bool> Is(Cause cause) => line => kinds.TryGetValue(line.Kind, out Cause told) && told == cause;
    }

    private static decimal RoundingOf(BillSet bills) => bills.Total - AmountOf(bills, _ => true);

    // Kinds of line that are not for energy, and the cause under which they are told.
    private static Dictionary<string, Cause> KindsOf(Tariff tariff)
    {
        var kinds = new Dictionary<string, Cause>
        {
            ["demand"] = Cause.Demand,
            ["tier"] = Cause.Tiers,
            ["event"] = Cause.Events,
            ["fixed"] = Cause.MinimumAndTaxes,
            ["minimum"] = Cause.MinimumAndTaxes,
            ["rounding"] = Cause.MinimumAndTaxes,
        };
        foreach (Percentage percentage in tariff.Versions.SelectMany(v => v.Percentages)) kinds[percentage.Name] = Cause.MinimumAndTaxes;
        return kinds;
    }

    private static decimal AmountOf(BillSet bills, Func<BillLine, bool> counts) => bills.Bills.Sum(b => b.Lines.Where(counts).Sum(l => l.Amount));

    /// <summary>Changes of import − export, kW, one column a flow; together they lead from the meter as it is to the offer's.</summary>
    private static double[][] ChangesOf(Ledger ledger, Run run, MeterColumns asItIs, bool[] dearest)
    {
        int count = ledger.Axis.Count;
        ReadOnlySpan<double> toLoad = ledger[LedgerColumn.CellsToLoadKw], toGrid = ledger[LedgerColumn.CellsToGridKw];
        ReadOnlySpan<double> dc = ledger[LedgerColumn.SolarDcToCellsKw], ac = ledger[LedgerColumn.SolarAcToCellsKw], grid = ledger[LedgerColumn.GridToCellsKw];
        // As AC: what the cells took, had it gone to the house or the grid instead.
        double perAc = 1 / run.Plant.RectifierEfficiency, perDc = run.Plant.InverterEfficiency, taken = 0, given = 0;
        for (int i = 0; i < count; i++)
        {
            taken += (dc[i] * perDc) + ((ac[i] + grid[i]) * perAc);
            given += toLoad[i] + toGrid[i];
        }
        double useful = taken > 0 ? Math.Min(1, given / taken) : 0;
        double[][] changes = [.. s_flows.Select(_ => new double[count])];
        for (int i = 0; i < count; i++)
        {
            changes[dearest[i] ? 0 : 1][i] = -toLoad[i];
            changes[2][i] = -toGrid[i];
            changes[3][i] = useful * ((dc[i] * perDc) + (ac[i] * perAc));
            changes[4][i] = useful * grid[i] * perAc;
            double told = changes[0][i] + changes[1][i] + changes[2][i] + changes[3][i] + changes[4][i];
            changes[Losses][i] = ledger[LedgerColumn.ImportKw][i] - ledger[LedgerColumn.ExportKw][i] - (asItIs.ImportKw[i] - asItIs.ExportKw[i]) - told;
        }
        return changes;
    }

    private static void MeterWith(int set, double[][] changes, MeterColumns asItIs, MeterColumns offered, MeterColumns into)
    {
        bool all = set == (1 << s_flows.Length) - 1;
        // Load with its standby, and solar not lost, change with the losses.
        MeterColumns gross = (set >> Losses & 1) != 0 ? offered : asItIs;
        gross.LoadKw.CopyTo(into.Load);
        gross.SolarKw.CopyTo(into.Solar);
        double[] net = into.Import, export = into.Export;
        if (set == 0 || all)
        {
            gross.ImportKw.CopyTo(net);
            gross.ExportKw.CopyTo(export);
            return;
        }
        for (int i = 0; i < net.Length; i++) net[i] = asItIs.Import[i] - asItIs.Export[i];
        for (int flow = 0; flow < changes.Length; flow++)
        {
            if ((set >> flow & 1) == 0) continue;
            double[] change = changes[flow];
            for (int i = 0; i < net.Length; i++) net[i] += change[i];
        }
        // One meter has one direction.
        for (int i = 0; i < net.Length; i++) (net[i], export[i]) = (Math.Max(0, net[i]), Math.Max(0, -net[i]));
    }

    // The mean, over all orders, of what a flow takes off the bill when it is added to those before it.
    private static decimal MeanEffect(decimal[] bill, int flow)
    {
        int flows = s_flows.Length;
        decimal mean = 0;
        for (int set = 0; set < bill.Length; set++)
        {
            if ((set >> flow & 1) != 0) continue;
            int before = int.PopCount(set);
            mean += (bill[set] - bill[set | 1 << flow]) * Factorial(before) * Factorial(flows - before - 1) / Factorial(flows);
        }
        return mean;
    }

    private static decimal Factorial(int n) => n <= 1 ? 1 : n * Factorial(n - 1);

    // Each cause is rounded to the cent; what the rounding leaves goes to the largest.
    private static List<SavingCause> ToTheCent(Dictionary<Cause, decimal> amounts, decimal saving)
    {
        List<SavingCause> causes = [.. Enum.GetValues<Cause>().Select(c => new SavingCause(c, Math.Round(amounts[c], 2, MidpointRounding.AwayFromZero)))];
        int largest = causes.IndexOf(causes.MaxBy(c => Math.Abs(c.Amount))!);
        causes[largest] = causes[largest] with { Amount = causes[largest].Amount + saving - causes.Sum(c => c.Amount) };
        return [.. causes.Where(c => c.Amount != 0)];
    }
}
