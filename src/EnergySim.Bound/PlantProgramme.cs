using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Strategies;
using EnergySim.Wiring;

namespace EnergySim.Bound;

/// <summary>
/// The columns and rows of a plant behind its wiring: every flow that the step allows is allowed here, with the set-points free. The inverter
/// and the cells work in one direction at a time; as a linear programme can not say so, each pair of directions is held inside the straight
/// line between the two extremes (their convex hull): half the time at full charge and half at full discharge is the most that is allowed.
/// Losses make both at once a waste under most prices, so those rows are added only where a first solution used both.
/// </summary>
internal sealed class PlantProgramme
{
    private const double SmallKw = 1e-9, BothKw = 1e-4;

    // Of two equal operations the one that moves less: a year of it is not a hundredth of a cent.
    private const double IdlePricePerKwh = 1e-8;

    // Where the chain of stored energy is cut, so that a solver carries only what a month shares. It changes no result.
    private const int BlockLength = 744;

    private readonly Programme _programme;
    private readonly Run _run;
    private readonly Plant _plant;
    private readonly SiteLimits _site;
    private readonly IntegrityRule _rule;
    private readonly double _throughKw;
    private readonly Pair?[][] _pairs;

    /// <param name="programme">Takes the columns and rows.</param>
    /// <param name="run">The plant, its wiring and its series.</param>
    /// <param name="rule">The agreement's rule on the battery.</param>
    /// <param name="startKwh">Energy at the start, kWh; null = free, and the span ends with what it started with.</param>
    /// <param name="leastEndKwh">Least energy at the end, kWh, where the start is given.</param>
    public PlantProgramme(Programme programme, Run run, IntegrityRule rule, double? startKwh, double leastEndKwh)
    {
        (_programme, _run, _plant, _site, _rule) = (programme, run, run.Plant, run.Site, rule);
        _throughKw = Math.Min(_plant.InverterKw, _site.InverterBreakerKw);
        int count = run.Axis.Count;
        (Import, Export, Stored, Charge, Discharge, SolarSent) = (new int[count], new int[count], new int[count], new Expression[count], new int[count], new Expression[count]);
        _pairs = new Pair?[count][];
        int start = startKwh is double fixedKwh ? programme.Column(fixedKwh, fixedKwh) : programme.Column(_plant.LowestKwh, _plant.HighestKwh);
        Start = start;
        for (int i = 0; i < count; i++)
        {
            programme.Interval = i;
            AddInterval(i, i == 0 ? start : Stored[i - 1]);
        }
        programme.Interval = Programme.Spanning;
        Expression change = new Expression().Plus(Stored[^1]);
        if (startKwh is null) programme.Row(change.Minus(start), 0, double.PositiveInfinity);
        else programme.Row(change, leastEndKwh, double.PositiveInfinity);
    }

    /// <summary>Column of the energy at the start.</summary>
    public int Start { get; }

    /// <summary>Columns of import, kW.</summary>
    public int[] Import { get; }

    /// <summary>Columns of export, kW.</summary>
    public int[] Export { get; }

    /// <summary>Columns of stored energy at the intervals' ends, kWh.</summary>
    public int[] Stored { get; }

    /// <summary>Charge at the cells' terminals, kW.</summary>
    public Expression[] Charge { get; }

    /// <summary>Columns of discharge at the inverter's DC side, kW.</summary>
    public int[] Discharge { get; }

    /// <summary>Solar put to use or sold, as AC, kW (what buy-all sell-all pays for).</summary>
    public Expression[] SolarSent { get; }

    private void AddInterval(int i, int before)
    {
        double hours = _run.Axis.StepHours, ac = _run.SolarAc.Kw[i], dc = Math.Min(_run.SolarDc.Kw[i], _plant.SolarInputKw);
        double needKw = _run.Load.Kw[i] + _plant.StandbyKw - ac;
        bool onBusbar = _site.AcSolarOnBusbar;
        bool busbarForbids = needKw + (onBusbar ? ac : 0) > _site.BusbarKw;
        double busbarLeftKw = _site.BusbarKw - (onBusbar ? ac : 0);
        double outKw = busbarForbids ? 0 : Math.Min(_throughKw, Math.Max(0, Math.Max(busbarLeftKw, needKw)));

        double mostImportKw = Math.Max(Math.Max(0, needKw), Math.Min(_site.ImportKw, Math.Min(busbarLeftKw, needKw + _throughKw)));
        double mostExportKw = Math.Min(_site.ExportKw, Math.Max(0, outKw - needKw));
        double surplusKw = Math.Max(0, -needKw);
        double dcSurplusKw = Math.Max(0, dc - (Math.Min(Math.Max(0, needKw), outKw) / _plant.InverterEfficiency));
        if (_rule == IntegrityRule.NeverExports) mostExportKw = Math.Min(mostExportKw, Math.Max(0, (dc * _plant.InverterEfficiency) - needKw));
        if (_rule == IntegrityRule.SolarOnly) mostImportKw = Math.Max(0, needKw);

        int import = _programme.Column(0, mostImportKw), export = _programme.Column(0, mostExportKw);
        int discharge = _programme.Column(0, Math.Min(_plant.DischargeLimitKw, outKw / _plant.InverterEfficiency));
        int rectified = _programme.Column(0, Math.Min(Math.Min(_throughKw, _plant.ChargeLimitKw / _plant.RectifierEfficiency), _rule == IntegrityRule.SolarOnly ? surplusKw : double.PositiveInfinity));
        if ((i + 1) % BlockLength == 0) _programme.Interval = Programme.Spanning;
        int stored = _programme.Column(_plant.LowestKwh, _plant.HighestKwh);
        _programme.Interval = i;
        var charge = new Expression().Plus(rectified, _plant.RectifierEfficiency);
        var output = new Expression().Plus(discharge, _plant.InverterEfficiency);
        var sent = new Expression().Plus(ac);
        Expression balance = new Expression().Plus(import).Minus(export).Minus(rectified);
        bool hasDc = dc > SmallKw;
        if (hasDc)
        {
            int toCells = _programme.Column(0, _rule == IntegrityRule.SolarOnly ? dcSurplusKw : dc), through = _programme.Column(0, dc);
            charge.Plus(toCells);
            output.Plus(through, _plant.InverterEfficiency);
            sent.Plus(toCells, _plant.InverterEfficiency).Plus(through, _plant.InverterEfficiency);
            _programme.Row(new Expression().Plus(toCells).Plus(through), 0, dc);
        }
        // The step curtails only what can not be sold.
        if (surplusKw > mostExportKw)
        {
            int curtailed = _programme.Column(0, surplusKw - mostExportKw);
            balance.Minus(curtailed);
            sent.Minus(curtailed);
        }
        _programme.Row(balance.Plus(output), needKw, needKw);
        _programme.Row(new Expression().Plus(stored).Minus(before).Plus(charge, -_plant.ChargeEfficiency * hours).Plus(discharge, hours / _plant.DischargeEfficiency), 0, 0);
        if (hasDc)
        {
            _programme.Row(new Expression().Plus(charge), 0, _plant.ChargeLimitKw);
            _programme.Row(new Expression().Plus(output), 0, outKw);
        }
        _programme.Objective.Plus(discharge, IdlePricePerKwh * hours);
        (Import[i], Export[i], Stored[i], Charge[i], Discharge[i], SolarSent[i]) = (import, export, stored, charge, discharge, sent);
        _pairs[i] = [new(charge, _plant.ChargeLimitKw, new Expression().Plus(discharge), _plant.DischargeLimitKw), new(output, _throughKw, new Expression().Plus(rectified), _throughKw),
            new(new Expression().Plus(import), mostImportKw, new Expression().Plus(export), mostExportKw)];
    }

    /// <summary>What the meters see of a solution.</summary>
    public MeterColumns MeterOf(double[] values)
    {
        double[] import = Of(values, Import), export = Of(values, Export);
        double[] load = [.. Enumerable.Range(0, import.Length).Select(i => _run.Load.Kw[i] + _plant.StandbyKw)];
        return MeterColumns.Of(import, export, load, [.. SolarSent.Select(s => Math.Max(0, s.ValueIn(values)))]);

        static double[] Of(double[] values, int[] columns) => [.. columns.Select(c => Math.Max(0, values[c]))];
    }

    /// <summary>Energy that a solution charges while it discharges the same amount, kWh.</summary>
    public double BothKwh(double[] values)
    {
        double both = 0;
        for (int i = 0; i < Discharge.Length; i++) both += Math.Min(Charge[i].ValueIn(values), values[Discharge[i]]);
        return both * _run.Axis.StepHours;
    }

    /// <summary>True where a solution buys and sells in one interval, which a straight line between the two allows in part and no meter does.</summary>
    public bool BuysAndSells(double[] values)
    {
        for (int i = 0; i < Import.Length; i++)
            if (Math.Min(values[Import[i]], values[Export[i]]) > BothKw) return true;
        return false;
    }

    /// <summary>Adds the rows that keep two directions apart, where a solution uses both at once.</summary>
    /// <returns>How many intervals it used both in.</returns>
    public int HoldDirections(ReadOnlySpan<double> values)
    {
        int used = 0;
        for (int i = 0; i < _pairs.Length; i++)
        {
            bool any = false;
            for (int p = 0; p < _pairs[i].Length; p++)
            {
                if (_pairs[i][p] is not Pair pair || !pair.UsesBoth(values)) continue;
                _programme.Interval = i;
                _programme.Row(pair.Hull(), double.NegativeInfinity, 1);
                _pairs[i][p] = null;
                any = true;
            }
            if (any) used++;
        }
        _programme.Interval = Programme.Spanning;
        return used;
    }

    /// <summary>Two directions of which one at a time is real, and the most of each.</summary>
    private sealed record Pair(Expression One, double MostOneKw, Expression Other, double MostOtherKw)
    {
        private const double SmallShare = 1e-7;

        public bool UsesBoth(ReadOnlySpan<double> values)
        {
            if (!(MostOneKw > 0 && MostOtherKw > 0) || double.IsInfinity(MostOneKw) || double.IsInfinity(MostOtherKw)) return false;
            double one = One.ValueIn(values) / MostOneKw, other = Other.ValueIn(values) / MostOtherKw;
            return one > SmallShare && other > SmallShare && one + other > 1 + SmallShare;
        }

        public Expression Hull() => new Expression().Plus(One, 1 / MostOneKw).Plus(Other, 1 / MostOtherKw);
    }
}
