using EnergySim.Engine;
using EnergySim.Tariffs;

namespace EnergySim.Bound;

/// <summary>The sums that a bill is made of, as columns: what MeterSums adds up of a run, said of the plant's columns.</summary>
internal sealed class MeterProgramme
{
    private const double SmallKw = 1e-5;

    private readonly Programme _programme;
    private readonly TariffCalendar _calendar;

    public MeterProgramme(Programme programme, PlantProgramme plant, TariffCalendar calendar, Run run)
    {
        (_programme, _calendar) = (programme, calendar);
        (int[] import, int[] export) = Metered(plant);
        ImportKwh = SumsOf(import);
        ExportKwh = SumsOf(export);
        (EventKwh, ChargedKwh, RewardedKwh) = WindowSums(import, export);
        ExportValue = ValuesOf(export);
        LoadKwh = new double[calendar.Buckets.Count];
        SurplusKwh = new double[calendar.Bills.Count];
        for (int i = 0; i < calendar.Axis.Count; i++)
        {
            double loadKwh = (run.Load.Kw[i] + run.Plant.StandbyKw) * calendar.Axis.StepHours;
            LoadKwh[calendar.BucketOf[i]] += loadKwh;
            SurplusKwh[calendar.Buckets[calendar.BucketOf[i]].Bill] += ((run.SolarAc.Kw[i] + (run.SolarDc.Kw[i] * run.Plant.InverterEfficiency)) * calendar.Axis.StepHours) - loadKwh;
        }
        SolarKwh = new Expression[calendar.Bills.Count];
        for (int b = 0; b < SolarKwh.Length; b++) SolarKwh[b] = new Expression();
        if (calendar.SellsAll)
            for (int i = 0; i < calendar.Axis.Count; i++) SolarKwh[calendar.Buckets[calendar.BucketOf[i]].Bill].Plus(plant.SolarSent[i], calendar.Axis.StepHours);
        // Demand is of the import register, also where the meter nets.
        DemandKw = DemandsOf(plant.Import);
    }

    /// <summary>Column a bucket, kWh.</summary>
    public int[] ImportKwh { get; }

    /// <summary>Column a bucket, kWh.</summary>
    public int[] ExportKwh { get; }

    /// <summary>House and standby, kWh; no operation changes it.</summary>
    public double[] LoadKwh { get; }

    /// <summary>Solar − load of each bill, kWh: the most that a bill can sell more than it buys.</summary>
    public double[] SurplusKwh { get; }

    /// <summary>Import in event windows by bill and version, kWh.</summary>
    public Expression[,] EventKwh { get; }

    /// <summary>Export in the charged window by bill, kWh.</summary>
    public Expression[] ChargedKwh { get; }

    /// <summary>Export in the rewarded window by bill, kWh.</summary>
    public Expression[] RewardedKwh { get; }

    /// <summary>Solar put to use or sold by bill, kWh.</summary>
    public Expression[] SolarKwh { get; }

    /// <summary>What exports earn, by part and bill, money.</summary>
    public Expression[,] ExportValue { get; }

    /// <summary>Column a demand cell, kW: at least every mean of it.</summary>
    public int[] DemandKw { get; }

    // Where the meter nets inside its interval, columns of the net stand at the interval's first step.
    private (int[] Import, int[] Export) Metered(PlantProgramme plant)
    {
        if (!_calendar.MetersLongerIntervals) return (plant.Import, plant.Export);
        int[] import = [.. plant.Import], export = [.. plant.Export];
        for (int start = 0, end; start < import.Length; start = end)
        {
            TariffVersion version = _calendar.Tariff.Versions[_calendar.Buckets[_calendar.BucketOf[start]].Version];
            end = start + 1;
            if (version.MeterMinutes is not int minutes || minutes <= _calendar.Axis.StepMinutes) continue;
            _programme.Interval = start;
            var bought = new Expression().Plus(import[start]);
            var sold = new Expression().Plus(export[start]);
            for (; end < import.Length && !_calendar.Begins(end, minutes); end++)
            {
                bought.Plus(import[end]);
                sold.Plus(export[end]);
                import[end] = export[end] = -1;
            }
            if (version.NetsInsideMeterInterval)
            {
                import[start] = _programme.Column(0, _programme.HighOf(bought));
                export[start] = _programme.Column(0, _programme.HighOf(sold));
                _programme.Row(bought.Plus(sold, -1).Minus(import[start]).Plus(export[start]), 0, 0);
                (int one, int other) = (import[start], export[start]);
                _programme.Claim("a meter's interval is bought or sold", values => Math.Min(values[one], values[other]) < SmallKw);
            }
            else
            {
                import[start] = _programme.Named(bought, 0);
                export[start] = _programme.Named(sold, 0);
            }
        }
        _programme.Interval = Programme.Spanning;
        return (import, export);
    }

    private int[] SumsOf(int[] columns)
    {
        var sums = new Expression[_calendar.Buckets.Count];
        for (int b = 0; b < sums.Length; b++) sums[b] = new Expression();
        for (int i = 0; i < columns.Length; i++)
            if (columns[i] >= 0) sums[_calendar.BucketOf[i]].Plus(columns[i], _calendar.Axis.StepHours);
        return [.. sums.Select(s => _programme.Named(s, 0))];
    }

    private (Expression[,] Events, Expression[] Charged, Expression[] Rewarded) WindowSums(int[] import, int[] export)
    {
        var events = new Expression[_calendar.Bills.Count, _calendar.Tariff.Versions.Count];
        for (int b = 0; b < events.GetLength(0); b++)
            for (int v = 0; v < events.GetLength(1); v++) events[b, v] = new Expression();
        Expression[] charged = [.. _calendar.Bills.Select(_ => new Expression())], rewarded = [.. _calendar.Bills.Select(_ => new Expression())];
        double hours = _calendar.Axis.StepHours;
        for (int i = 0; i < import.Length; i++)
        {
            byte flags = _calendar.Flags[i];
            if (flags == 0 || import[i] < 0) continue;
            (int bill, int version, _, _) = _calendar.Buckets[_calendar.BucketOf[i]];
            if ((flags & TariffCalendar.EventFlag) != 0) events[bill, version].Plus(import[i], hours);
            if ((flags & TariffCalendar.ChargeFlag) != 0) charged[bill].Plus(export[i], hours);
            if ((flags & TariffCalendar.RewardFlag) != 0) rewarded[bill].Plus(export[i], hours);
        }
        return (events, charged, rewarded);
    }

    private Expression[,] ValuesOf(int[] export)
    {
        var values = new Expression[_calendar.ExportPrices.Parts.Count, _calendar.Bills.Count];
        for (int p = 0; p < values.GetLength(0); p++)
        {
            for (int b = 0; b < values.GetLength(1); b++) values[p, b] = new Expression();
            for (int i = 0; i < export.Length; i++)
                if (export[i] >= 0)
                    values[p, _calendar.Buckets[_calendar.BucketOf[i]].Bill].Plus(export[i], _calendar.ExportPrices.PricePerKwh[p][i] * _calendar.Axis.StepHours);
        }
        return values;
    }

    private int[] DemandsOf(int[] import)
    {
        double mostKw = import.Max(c => _programme.Columns[c].High);
        int[] cells = [.. _calendar.Demand.Cells.Select(_ => _programme.Column(0, mostKw))];
        foreach (DemandColumn column in _calendar.Demand.Columns)
            for (int start = 0, end; start < import.Length; start = end)
            {
                _programme.Interval = start;
                var mean = new Expression().Plus(import[start]);
                for (end = start + 1; end < import.Length && !column.Begins[end]; end++) mean.Plus(import[end]);
                if (column.CellOf[start] is >= 0 and int cell)
                    _programme.Row(new Expression().Plus(mean, 1.0 / (end - start)).Minus(cells[cell]), double.NegativeInfinity, 0);
            }
        _programme.Interval = Programme.Spanning;
        return cells;
    }
}
