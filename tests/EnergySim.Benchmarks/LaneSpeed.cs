using System.Diagnostics;
using System.Globalization;
using EnergySim.Batches;
using EnergySim.Billing;
using EnergySim.Engine;

namespace EnergySim.Benchmarks;

/// <summary>
/// Speed of the step, from a stopwatch, beside the same physics in C: tries take turns and the best of each counts, since the machine may be shared.
/// </summary>
internal static unsafe class LaneSpeed
{
    public static void Print(string words)
    {
        using SpeedLimit? limit = SpeedLimit.Compile();
        if (limit is null) Console.WriteLine("no C compiler: no ratios");
        foreach (int minutes in (int[])[60, 15])
        {
            if ("outages".Contains(words, StringComparison.Ordinal)) Outages(minutes);
            foreach (bool allRules in (bool[])[false, true])
            {
                Console.WriteLine($"years of {minutes} minutes{(allRules ? ", every rule in use" : "")}");
                Measure(new YearOfVariants(Count, allRules, minutes), limit, words);
                if ("sweep".Contains(words, StringComparison.Ordinal)) Sweep(new YearOfVariants(512, allRules, minutes));
            }
        }
    }

    private static void Outages(int minutes)
    {
        foreach (bool apart in (bool[])[false, true])
        {
            var year = new YearOfOutages(apart, minutes);
            Say($"outages of 336 h from every start, an offer{(apart ? ", no two alike" : "")}", 2, 525600 / minutes, () => year.Walk(), null);
        }
    }

    // Few, so that a try ends before another process takes the core; as many as the widest C code takes at once.
    private const int Count = 32;

    private static void Sweep(YearOfVariants year)
    {
        foreach (int cores in (int[])[1, 2])
            Say($"sweep of {year.Variants.Length} with bills, {cores} cores", year.Variants.Length, year.Calendar.Axis.Count, () => year.RunAndBill(cores), null);
    }

    private static void Measure(YearOfVariants year, SpeedLimit? limit, string words)
    {
        int intervals = year.Calendar.Axis.Count;
        var input = new LimitInput(year.Variants, year.Calendar);
        double[] end = new double[Count], sums = new double[Count * input.Series.Results];
        if (limit is not null)
        {
            limit.Run(input, inLanes: true, end, sums);
            Compare(year.Run(), end, sums, input);
            limit.Run(input, inLanes: false, end, sums);
            Compare(year.Run(), end, sums, input);
        }
        if ("lanes".Contains(words, StringComparison.Ordinal)) Say("lanes", Count, intervals, () => year.Run(), limit is null ? null : () => limit.Run(input, inLanes: true, end, sums));
        if ("one by one, what bills need".Contains(words, StringComparison.Ordinal)) Say("one by one, what bills need", Count, intervals, () => year.RunOneByOne(), limit is null ? null : () => limit.Run(input, inLanes: false, end, sums));
        if ("lanes, with bills".Contains(words, StringComparison.Ordinal)) Say("lanes, with bills", Count, intervals, () => year.RunAndBill(1), null);

        if ("bills alone".Contains(words, StringComparison.Ordinal)) Say("bills alone", Count, intervals, () => year.BillAll(), null);

        Run run = year.Variants[9].ToRun();
        var meter = new MeterColumns(intervals);
        Ledger ledger = run.Ledger();
        LimitInput one = new([year.Variants[9]], year.Calendar);
        SpeedLimit.LimitBook* book = NewBook(one, intervals);
        if (limit is not null)
        {
            limit.Full(one, ledger.Sums.StartKwh, book, ledger: true);
            foreach (LedgerColumn column in Enum.GetValues<LedgerColumn>())
                if (!new ReadOnlySpan<double>((double*)book->Columns[(int)column], intervals).SequenceEqual(ledger[column])) throw new InvalidOperationException($"C and C# differ in {column}.");
            for (int i = 0; i < intervals; i++)
                if (ledger.Sites[i] != book->Sites[i]) throw new InvalidOperationException($"C and C# differ in the limits of interval {i}.");
        }
        var stated = new Run(run.Load, run.SolarDc, run.SolarAc, run.Plant, run.Site, run.SetPoints, ledger.Sums.StartKwh);
        if ("one, every flow and limit summed".Contains(words, StringComparison.Ordinal)) Say("one, every flow and limit summed", 1, intervals, () => stated.Sums(meter), limit is null ? null : () => limit.Full(one, ledger.Sums.StartKwh, book, ledger: false));
        if ("one, ledger".Contains(words, StringComparison.Ordinal)) Say("one, ledger", 1, intervals, () => stated.Ledger(), limit is null ? null : () => limit.Full(one, ledger.Sums.StartKwh, book, ledger: true));
    }

    private static SpeedLimit.LimitBook* NewBook(LimitInput input, int intervals)
    {
        double* Column() => input.Pinned(new double[intervals]);
        var book = new SpeedLimit.LimitBook { Import = Column(), Export = Column(), Load = Column(), Solar = Column(), Sites = input.Pinned(new ulong[intervals]) };
        for (int c = 0; c < Ledger.ColumnCount; c++) book.Columns[c] = (long)Column();
        return input.Pinned([book]);
    }

    private static void Compare(IReadOnlyList<VariantSums> ours, double[] endKwh, double[] sums, LimitInput input)
    {
        int buckets = input.Series.Buckets, results = input.Series.Results;
        for (int v = 0; v < ours.Count; v++)
        {
            MeterSums meter = ours[v].Meters[0];
            ReadOnlySpan<double> theirs = sums.AsSpan(v * results, results);
            bool same = ours[v].EndKwh == endKwh[v] && meter.ImportKwh.SequenceEqual(theirs[..buckets]) && meter.ExportKwh.SequenceEqual(theirs.Slice(buckets, buckets))
                && meter.ExportValue.Cast<double>().SequenceEqual(theirs[(2 * buckets)..].ToArray());
            if (!same) throw new InvalidOperationException($"C and C# differ for variant {v}: their speeds cannot be compared.");
        }
    }

    // Turn by turn, so that both meet the same neighbours.
    private static void Say(string what, int years, int intervals, Action work, Action? theirs)
    {
        double best = double.MaxValue, bestOfTheirs = double.MaxValue;
        long bytes = 0, began = Stopwatch.GetTimestamp();
        for (int i = 0; i < 2000 && Stopwatch.GetElapsedTime(began).TotalSeconds < 4; i++)
        {
            long before = GC.GetAllocatedBytesForCurrentThread(), start = Stopwatch.GetTimestamp();
            work();
            best = Math.Min(best, Stopwatch.GetElapsedTime(start).TotalMicroseconds);
            bytes = GC.GetAllocatedBytesForCurrentThread() - before;
            if (theirs is not null)
            {
                start = Stopwatch.GetTimestamp();
                theirs();
                bestOfTheirs = Math.Min(bestOfTheirs, Stopwatch.GetElapsedTime(start).TotalMicroseconds);
            }
            if (i % 20 == 19) Thread.Sleep(60);
        }
        double ns = best * 1000 / years / intervals, nsOfTheirs = bestOfTheirs * 1000 / years / intervals;
        string ratio = theirs is null ? "" : string.Create(CultureInfo.InvariantCulture, $"   C {nsOfTheirs,6:0.00} ns   ratio {ns / nsOfTheirs:0.00}");
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {what,-34} {best / years,8:0.0} µs {ns,6:0.00} ns {bytes / years,9:N0} bytes {1e6 * years / best,9:N0} home-years/s{ratio}"));
    }
}
