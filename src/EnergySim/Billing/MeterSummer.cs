using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using EnergySim.Engine;
using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>
/// Sums what meters see, for one case or several side by side, a block of intervals after another. Where blocks begin changes no bit: sums go
/// on from block to block.
/// </summary>
/// <typeparam name="T">One case or several.</typeparam>
internal sealed class MeterSummer<T> where T : struct, ILane<T>
{
    private readonly TariffCalendar _calendar;
    private readonly T _hours;
    private readonly T[] _importKwh, _exportKwh, _loadKwh, _solarKwh, _eventKwh, _chargedKwh, _rewardedKwh, _value, _demandKw;
    private readonly MeterIntervals<T>? _meter;
    private readonly int[] _billOf;
    private readonly int _bills;

    // The stretch that the sums stand in, and what was summed of it so far.
    private int _run, _done;
    private T _importKw, _exportKw, _loadKw, _solarKw;
    private readonly T[] _valueNow;

    public MeterSummer(TariffCalendar calendar)
    {
        _calendar = calendar;
        _hours = T.All(calendar.Axis.StepHours);
        int buckets = calendar.Buckets.Count, bills = calendar.Bills.Count, parts = calendar.ExportPrices.Parts.Count;
        _billOf = [.. calendar.Buckets.Select(b => b.Bill)];
        _bills = bills;
        _importKwh = new T[buckets];
        _exportKwh = new T[buckets];
        _loadKwh = new T[calendar.SellsAll ? buckets : 0];
        _solarKwh = new T[calendar.SellsAll ? buckets : 0];
        _eventKwh = new T[bills * calendar.Tariff.Versions.Count];
        _chargedKwh = new T[bills];
        _rewardedKwh = new T[bills];
        _value = new T[parts * bills];
        _valueNow = new T[parts];
        _demandKw = new T[calendar.Demand.Cells.Count];
        _meter = calendar.MetersLongerIntervals ? new MeterIntervals<T>(calendar) : null;
    }

    /// <summary>Begins anew.</summary>
    public void Clear()
    {
        foreach (T[] sums in (ReadOnlySpan<T[]>)[_importKwh, _exportKwh, _loadKwh, _solarKwh, _eventKwh, _chargedKwh, _rewardedKwh, _value, _demandKw, _valueNow]) Array.Clear(sums);
        (_run, _done) = (0, 0);
        (_importKw, _exportKw, _loadKw, _solarKw) = (default, default, default, default);
    }

    /// <summary>Sums the next block.</summary>
    /// <param name="from">Its first interval; one at which <see cref="TariffCalendar.CanCutAt"/> holds, and the end of the block before.</param>
    /// <param name="importKw">Bought.</param>
    /// <param name="exportKw">Sold.</param>
    /// <param name="loadKw">House and standby; asked only where all load is bought.</param>
    /// <param name="solarKw">Solar; asked only where all solar is sold.</param>
    public void Add(int from, ReadOnlySpan<T> importKw, ReadOnlySpan<T> exportKw, ReadOnlySpan<T> loadKw, ReadOnlySpan<T> solarKw)
    {
        ReadOnlySpan<T> boughtKw = importKw, soldKw = exportKw;
        if (_meter is not null)
        {
            _meter.Take(from, importKw, exportKw);
            boughtKw = _meter.ImportKw;
            soldKw = _meter.ExportKw;
        }
        int at = 0;
        while (at < importKw.Length)
        {
            BucketRun run = _calendar.Runs[_run];
            int count = Math.Min(run.Length - _done, importKw.Length - at);
            ReadOnlySpan<T> bought = boughtKw.Slice(at, count), sold = soldKw.Slice(at, count);
            if (_valueNow.Length == 0) SumTwo(bought, sold, ref _importKw, ref _exportKw);
            else SumThree(bought, sold, PricesOf(0, from + at, count), ref _importKw, ref _exportKw, ref _valueNow[0]);
            for (int part = 1; part < _valueNow.Length; part++) SumValue(sold, PricesOf(part, from + at, count), ref _valueNow[part]);
            if (_loadKwh.Length > 0) SumTwo(loadKw.Slice(at, count), solarKw.Slice(at, count), ref _loadKw, ref _solarKw);
            at += count;
            _done += count;
            if (_done == run.Length) Finish(run.Bucket);
        }
        if (_calendar.HasWindows) SumWindows(from, boughtKw, soldKw);
        // Demand is of the import register, also where the meter nets.
        for (int c = 0; c < _calendar.Demand.Columns.Count; c++) FindDemand(_calendar.Demand.Columns[c], from, importKw);
    }

    /// <summary>Takes the sums of a whole stretch of one bucket that were made elsewhere, in the order of its intervals.</summary>
    /// <param name="bucket">The bucket.</param>
    /// <param name="importKw">Bought.</param>
    /// <param name="exportKw">Sold.</param>
    /// <param name="value">Sold, each times the first part's price.</param>
    public void AddStretch(int bucket, in T importKw, in T exportKw, in T value)
    {
        _importKwh[bucket] += importKw * _hours;
        _exportKwh[bucket] += exportKw * _hours;
        _value[_billOf[bucket]] += value * _hours;
    }

    /// <summary>Puts the sums of one lane into their place.</summary>
    public void CopyTo(int lane, MeterSums into)
    {
        Copy(_importKwh, lane, into.ImportKwhArray);
        Copy(_exportKwh, lane, into.ExportKwhArray);
        Copy(_eventKwh, lane, Flat(into.EventKwh));
        Copy(_chargedKwh, lane, into.ChargedExportKwh);
        Copy(_rewardedKwh, lane, into.RewardedExportKwh);
        Copy(_value, lane, Flat(into.ExportValue));
        Copy(_demandKw, lane, into.DemandKw);
        if (_loadKwh.Length == 0) return;
        Copy(_loadKwh, lane, into.LoadKwhArray);
        ReadOnlySpan<double> solar = MemoryMarshal.Cast<T, double>(_solarKwh);
        Array.Clear(into.SolarKwh);
        for (int bucket = 0; bucket < _solarKwh.Length; bucket++) into.SolarKwh[_calendar.Buckets[bucket].Bill] += solar[(bucket * T.Count) + lane];
    }

    private static Span<double> Flat(double[,] table) =>
        table.Length == 0 ? [] : MemoryMarshal.CreateSpan(ref Unsafe.As<byte, double>(ref MemoryMarshal.GetArrayDataReference((Array)table)), table.Length);

    private static void Copy(T[] sums, int lane, Span<double> into)
    {
        ReadOnlySpan<double> all = MemoryMarshal.Cast<T, double>(sums);
        for (int i = 0; i < into.Length; i++) into[i] = all[(i * T.Count) + lane];
    }

    private void Finish(int bucket)
    {
        _importKwh[bucket] += _importKw * _hours;
        _exportKwh[bucket] += _exportKw * _hours;
        (_importKw, _exportKw) = (default, default);
        if (_loadKwh.Length > 0)
        {
            _loadKwh[bucket] += _loadKw * _hours;
            _solarKwh[bucket] += _solarKw * _hours;
            (_loadKw, _solarKw) = (default, default);
        }
        for (int part = 0; part < _valueNow.Length; part++)
        {
            _value[(part * _bills) + _billOf[bucket]] += _valueNow[part] * _hours;
            _valueNow[part] = default;
        }
        (_run, _done) = (_run + 1, 0);
    }

    // Two columns at once: each addition waits for the one before it, but not for the other column's.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void SumTwo(ReadOnlySpan<T> first, ReadOnlySpan<T> second, ref T firstSum, ref T secondSum)
    {
        T one = firstSum, two = secondSum;
        for (int i = 0; i < first.Length; i++)
        {
            one += first[i];
            two += second[i];
        }
        (firstSum, secondSum) = (one, two);
    }

    // And what the second is worth.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void SumThree(ReadOnlySpan<T> first, ReadOnlySpan<T> second, ReadOnlySpan<double> prices, ref T firstSum, ref T secondSum, ref T valueSum)
    {
        T one = firstSum, two = secondSum, value = valueSum;
        for (int i = 0; i < first.Length; i++)
        {
            one += first[i];
            two += second[i];
            value += second[i] * T.All(prices[i]);
        }
        (firstSum, secondSum, valueSum) = (one, two, value);
    }

    private ReadOnlySpan<double> PricesOf(int part, int from, int count) => _calendar.ExportPrices.PricePerKwh[part].AsSpan(from, count);

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void SumValue(ReadOnlySpan<T> kw, ReadOnlySpan<double> prices, ref T valueSum)
    {
        T sum = valueSum;
        for (int i = 0; i < kw.Length; i++) sum += kw[i] * T.All(prices[i]);
        valueSum = sum;
    }

    private void SumWindows(int from, ReadOnlySpan<T> importKw, ReadOnlySpan<T> exportKw)
    {
        ReadOnlySpan<byte> flags = _calendar.Flags.Slice(from, importKw.Length);
        for (int i = 0; i < flags.Length; i++)
        {
            if (flags[i] == 0) continue;
            (int bill, int version, _, _) = _calendar.Buckets[_calendar.BucketOf[from + i]];
            if ((flags[i] & TariffCalendar.EventFlag) != 0) _eventKwh[(bill * _calendar.Tariff.Versions.Count) + version] += importKw[i] * _hours;
            if ((flags[i] & TariffCalendar.ChargeFlag) != 0) _chargedKwh[bill] += exportKw[i] * _hours;
            if ((flags[i] & TariffCalendar.RewardFlag) != 0) _rewardedKwh[bill] += exportKw[i] * _hours;
        }
    }

    private void FindDemand(DemandColumn column, int from, ReadOnlySpan<T> importKw)
    {
        int start = 0;
        while (start < importKw.Length)
        {
            T sum = importKw[start];
            int end = start + 1;
            while (end < importKw.Length && !column.Begins[from + end]) sum += importKw[end++];
            int cell = column.CellOf[from + start];
            if (cell >= 0) _demandKw[cell] = T.Max(_demandKw[cell], end - start == 1 ? sum : sum / T.All(end - start));
            start = end;
        }
    }
}
