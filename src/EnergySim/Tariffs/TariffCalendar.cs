using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tariffs;

/// <summary>What an interval's energy is billed as.</summary>
/// <param name="Bill">Index of the bill.</param>
/// <param name="Version">Index of the tariff's version.</param>
/// <param name="Season">Season.</param>
/// <param name="Period">Period.</param>
public readonly record struct Bucket(int Bill, int Version, string Season, string Period);

/// <summary>Days of one bill under one version and season.</summary>
/// <param name="Bill">Index of the bill.</param>
/// <param name="Version">Index of the tariff's version.</param>
/// <param name="Season">Season.</param>
public readonly record struct BillPart(int Bill, int Version, string Season);

/// <summary>
/// A plan laid onto an axis: each interval's bucket, event, windows and export price, worked out once and read by every run on that axis.
/// </summary>
public sealed class TariffCalendar
{
    internal const byte EventFlag = 1, ChargeFlag = 2, RewardFlag = 4;

    private readonly DayRules[] _rules;
    private readonly int[] _bucketOf;
    private readonly byte[] _flags;
    private readonly DayFacts[] _days;
    private readonly int _firstDay;

    /// <param name="tariff">The plan.</param>
    /// <param name="axis">The intervals, in the plan's zone.</param>
    /// <param name="account">Read dates and anniversary; null = calendar months.</param>
    /// <param name="loadKw">The house's load, one value an interval, for events on the days of highest load; empty = unknown.</param>
    /// <exception cref="ArgumentException">The zones differ, a date is in no bill or season, a minute in no period, or a period has no price.</exception>
    public TariffCalendar(Tariff tariff, TimeAxis axis, Account? account = null, ReadOnlySpan<double> loadKw = default)
    {
        ArgumentNullException.ThrowIfNull(tariff);
        ArgumentNullException.ThrowIfNull(axis);
        if (tariff.Zone.Id != axis.Zone.Id)
            throw new ArgumentException($"The plan is in {tariff.Zone.Id}, the home in {axis.Zone.Id}.", nameof(tariff));
        if (!loadKw.IsEmpty && loadKw.Length != axis.Count) throw new ArgumentException("The load has another length than the axis.", nameof(loadKw));
        Axis = axis;
        var notes = new List<string>();
        Tariff = EventDays.Chosen(tariff, axis, loadKw, notes);
        Bills = BillSpan.Of(axis, account ?? new Account(), notes);
        int firstYear = axis.LocalDateOf(0).Year, lastYear = axis.LocalDateOf(axis.Count - 1).Year;
        _rules = [.. Tariff.Versions.Select(v => new DayRules(v, firstYear, lastYear))];
        _firstDay = axis.LocalDayOf(0);
        _days = new DayFacts[axis.LocalDayOf(axis.Count - 1) - _firstDay + 1];
        for (int d = 0; d < _days.Length; d++) _days[d] = FactsOf(_firstDay + d);
        (_bucketOf, Buckets) = LayBuckets();
        _flags = LayFlags();
        Parts = CountDays();
        Demand = DemandCells.Lay(this, notes);
        ExportPrices = ExportPriceTable.Lay(this);
        HasWindows = _flags.AsSpan().ContainsAnyExcept((byte)0);
        Runs = RunsOf(_bucketOf);
        NoteBoundaries(notes);
        Notes = notes;
    }

    private TariffCalendar(TariffCalendar laid, Tariff priced)
    {
        Tariff = priced;
        Axis = laid.Axis;
        Bills = laid.Bills;
        _rules = [.. priced.Versions.Select((v, i) => laid._rules[i].WithPricesOf(v))];
        _firstDay = laid._firstDay;
        _days = laid._days;
        (_bucketOf, Buckets) = (laid._bucketOf, laid.Buckets);
        _flags = laid._flags;
        Parts = laid.Parts;
        Demand = laid.Demand;
        ExportPrices = laid.ExportPrices;
        HasWindows = laid.HasWindows;
        Runs = laid.Runs;
        Notes = laid.Notes;
    }

    /// <summary>
    /// The same plan at other prices, without laying it again. Export prices by the hour stay as they were laid:
    /// <see cref="Billing.MeterSums.AtPrices"/> brings their growth.
    /// </summary>
    /// <param name="priced">The plan with the same versions, seasons, periods and charges, in the same order.</param>
    /// <exception cref="ArgumentException">It has another number of versions.</exception>
    public TariffCalendar WithPrices(Tariff priced)
    {
        ArgumentNullException.ThrowIfNull(priced);
        if (priced.Versions.Count != Tariff.Versions.Count) throw new ArgumentException($"{priced.Versions.Count} versions for {Tariff.Versions.Count}.", nameof(priced));
        return new TariffCalendar(this, priced);
    }

    /// <summary>The plan.</summary>
    public Tariff Tariff { get; }

    /// <summary>The intervals.</summary>
    public TimeAxis Axis { get; }

    /// <summary>The bills.</summary>
    public IReadOnlyList<BillSpan> Bills { get; }

    /// <summary>The buckets, in order of first appearance.</summary>
    public IReadOnlyList<Bucket> Buckets { get; }

    /// <summary>For each interval the index of its bucket.</summary>
    public ReadOnlySpan<int> BucketOf => _bucketOf;

    /// <summary>Number of days by bill, version and season.</summary>
    public IReadOnlyDictionary<BillPart, int> Parts { get; }

    /// <summary>Sentences on what was assumed.</summary>
    public IReadOnlyList<string> Notes { get; }

    internal DemandCells Demand { get; }

    internal ExportPriceTable ExportPrices { get; }

    internal ReadOnlySpan<byte> Flags => _flags;

    /// <summary>The stretches of intervals that share a bucket.</summary>
    internal BucketRun[] Runs { get; }

    /// <summary>True when the meter's interval is longer than the run's.</summary>
    internal bool MetersLongerIntervals => Tariff.Versions.Any(v => v.MeterMinutes > Axis.StepMinutes);

    /// <summary>True when events or export windows ask for sums of their own.</summary>
    internal bool HasWindows { get; }

    /// <summary>True when all load is bought and all solar sold under some version.</summary>
    internal bool SellsAll => Tariff.Versions.Any(v => v.Export is ExportTerms.SellAll);

    /// <summary>True when a bill asks what was bought and sold in each bucket and what one series of prices makes of the export, and nothing else.</summary>
    internal bool AsksBucketsOnly => !MetersLongerIntervals && !HasWindows && !SellsAll && Demand.Columns.Count == 0 && ExportPrices.Parts.Count == 1;

    /// <summary>The rules of a version.</summary>
    public DayRules RulesOf(int version) => _rules[version];

    /// <summary>The version in force on the last day of a bill: what is taken once a bill is taken at its terms.</summary>
    public int VersionAtEndOf(BillSpan bill)
    {
        ArgumentNullException.ThrowIfNull(bill);
        return _days[bill.UntilDay - 1 - _firstDay].Version;
    }

    /// <summary>For each interval whether it lies in one of the named periods; with no names, in the dearest period of its season and version.</summary>
    /// <exception cref="ArgumentException">A name is no period of the plan.</exception>
    public bool[] InPeriods(IReadOnlyList<string> periods)
    {
        ArgumentNullException.ThrowIfNull(periods);
        foreach (string name in periods)
            if (!Tariff.Versions.Any(v => v.Periods.Any(p => p.Period == name))) throw new ArgumentException($"\"{name}\" is no period of {Tariff.Name}.", nameof(periods));
        var inside = new bool[Buckets.Count];
        for (int b = 0; b < inside.Length; b++)
            inside[b] = periods.Count > 0 ? periods.Contains(Buckets[b].Period) : IsDearest(Buckets[b]);
        var result = new bool[Axis.Count];
        for (int i = 0; i < result.Length; i++) result[i] = inside[_bucketOf[i]];
        return result;
    }

    /// <summary>For each interval whether the utility calls an event.</summary>
    public bool[] InEvents()
    {
        var result = new bool[Axis.Count];
        for (int i = 0; i < result.Length; i++) result[i] = (_flags[i] & EventFlag) != 0;
        return result;
    }

    /// <summary>When demand is measured; a plan without demand charges counts every interval by itself.</summary>
    public DemandWatch WatchDemand()
    {
        bool[] counts = new bool[Axis.Count], begins = new bool[Axis.Count];
        var billOf = new int[Axis.Count];
        for (int i = 0; i < billOf.Length; i++)
        {
            counts[i] = Demand.Columns.Count == 0 || Demand.Columns.Any(c => c.CellOf[i] >= 0);
            begins[i] = Demand.Columns.All(c => c.Begins[i]);
            billOf[i] = Buckets[_bucketOf[i]].Bill;
        }
        return new DemandWatch(counts, begins, billOf);
    }

    // A plan of one price all day has no dearest period.
    private bool IsDearest(Bucket bucket)
    {
        DayRules rules = _rules[bucket.Version];
        decimal own = rules.PriceOf(bucket.Season, bucket.Period)!.TotalPerKwh;
        IEnumerable<decimal> prices = Buckets.Where(b => b.Version == bucket.Version && b.Season == bucket.Season)
            .Select(b => rules.PriceOf(b.Season, b.Period)!.TotalPerKwh).ToList();
        return own == prices.Max() && own > prices.Min();
    }

    internal DayFacts DayOf(int localDay) => _days[localDay - _firstDay];

    /// <summary>True where an interval begins a stretch of so many minutes on the wall clock, or the span.</summary>
    internal bool Begins(int index, int minutes) => index == 0 || Axis.LocalMinuteOf(index) % minutes == 0;

    /// <summary>True where a block of intervals may end and the next begin: no interval of the meter and no mean of a demand lies across.</summary>
    internal bool CanCutAt(int index)
    {
        foreach (DemandColumn column in Demand.Columns)
            if (!column.Begins[index]) return false;
        foreach (TariffVersion version in Tariff.Versions)
            if (version.MeterMinutes is int minutes && minutes > Axis.StepMinutes && !Begins(index, minutes)) return false;
        return true;
    }

    private DayFacts FactsOf(int day)
    {
        LocalDate date = TimeAxis.DateOfDay(day);
        int version = 0;
        for (int v = 1; v < Tariff.Versions.Count; v++)
            if (Tariff.Versions[v].Effective <= date) version = v;
        int bill = 0;
        while (Bills[bill].UntilDay <= day) bill++;
        DayRules rules = _rules[version];
        string season = rules.SeasonOf(date);
        return new DayFacts(bill, version, season, rules.DayTypeOf(date), rules.IsEvent(date), rules.PeriodsOf(season, rules.PeriodDayTypeOf(date)));
    }

    private (int[] BucketOf, List<Bucket> Buckets) LayBuckets()
    {
        var buckets = new List<Bucket>();
        var index = new Dictionary<Bucket, int>();
        var bucketOf = new int[Axis.Count];
        Bucket last = default;
        int lastIndex = -1;
        for (int i = 0; i < bucketOf.Length; i++)
        {
            DayFacts day = DayOf(Axis.LocalDayOf(i));
            string period = day.Periods[Axis.LocalMinuteOf(i)]
                ?? throw new ArgumentException($"{Axis.OffsetStartOf(i):uuuu-MM-dd HH:mm} is in no period of {Tariff.Name}.");
            if (lastIndex >= 0 && day.Bill == last.Bill && day.Version == last.Version && ReferenceEquals(day.Season, last.Season) && ReferenceEquals(period, last.Period))
            {
                bucketOf[i] = lastIndex;
                continue;
            }
            last = new Bucket(day.Bill, day.Version, day.Season, period);
            if (!index.TryGetValue(last, out lastIndex))
            {
                if (_rules[day.Version].PriceOf(day.Season, period) is null)
                    throw new ArgumentException($"{Tariff.Name} has no price for {day.Season}/{period}.");
                lastIndex = buckets.Count;
                index.Add(last, lastIndex);
                buckets.Add(last);
            }
            bucketOf[i] = lastIndex;
        }
        return (bucketOf, buckets);
    }

    private static BucketRun[] RunsOf(int[] bucketOf)
    {
        var runs = new List<BucketRun>();
        int start = 0;
        for (int i = 1; i <= bucketOf.Length; i++)
        {
            if (i < bucketOf.Length && bucketOf[i] == bucketOf[start]) continue;
            runs.Add(new BucketRun(start, i - start, bucketOf[start]));
            start = i;
        }
        return [.. runs];
    }

    private byte[] LayFlags()
    {
        var flags = new byte[Axis.Count];
        if (!Tariff.Versions.Any(v => v.Events is not null || v.Export is ExportTerms.TwoWay)) return flags;
        for (int i = 0; i < flags.Length; i++)
        {
            DayFacts day = DayOf(Axis.LocalDayOf(i));
            TariffVersion version = Tariff.Versions[day.Version];
            int minute = Axis.LocalMinuteOf(i);
            if (day.IsEvent && version.Events!.Window.Contains(minute)) flags[i] |= EventFlag;
            if (version.Export is not ExportTerms.TwoWay twoWay) continue;
            if (twoWay.ChargeWindow.Contains(minute)) flags[i] |= ChargeFlag;
            if (twoWay.RewardWindow.Contains(minute)) flags[i] |= RewardFlag;
        }
        return flags;
    }

    private Dictionary<BillPart, int> CountDays()
    {
        var parts = new Dictionary<BillPart, int>();
        foreach (DayFacts day in _days)
        {
            var part = new BillPart(day.Bill, day.Version, day.Season);
            parts[part] = parts.GetValueOrDefault(part) + 1;
        }
        return parts;
    }

    private void NoteBoundaries(List<string> notes)
    {
        foreach (TariffVersion version in Tariff.Versions)
            foreach (PeriodRule rule in version.Periods)
                if (rule.Window.FromMinute % Axis.StepMinutes != 0)
                {
                    notes.Add($"the period {rule.Period} begins inside an interval of {Axis.StepMinutes} minutes; each interval is priced by its start");
                    return;
                }
    }
}

/// <summary>What the plan says of one date.</summary>
internal readonly record struct DayFacts(int Bill, int Version, string Season, DayType Day, bool IsEvent, IReadOnlyList<string?> Periods);

/// <summary>A stretch of intervals that share a bucket.</summary>
internal readonly record struct BucketRun(int Start, int Length, int Bucket);
