using System.Diagnostics;
using System.Runtime.InteropServices;
using EnergySim.Batches;
using EnergySim.Engine;

namespace EnergySim.Benchmarks;

/// <summary>
/// The same physics written by hand in C (the folder <c>limit</c>), compiled here: what the C# step is measured against. Its results are compared
/// with the C# ones to the last bit, so that both do the same work.
/// </summary>
internal sealed unsafe class SpeedLimit : IDisposable
{
    private const int MostRows = 16;
    private readonly nint _library;
    private readonly delegate* unmanaged<LimitCase*, LimitSeries*, int, double*, double*, void> _lanes, _one;
    private readonly delegate* unmanaged<LimitCase*, LimitSeries*, double, LimitBook*, int, double> _full;
    private readonly int _width;

    private SpeedLimit(nint library)
    {
        _library = library;
        _one = (delegate* unmanaged<LimitCase*, LimitSeries*, int, double*, double*, void>)NativeLibrary.GetExport(library, "limit1_run");
        _lanes = (delegate* unmanaged<LimitCase*, LimitSeries*, int, double*, double*, void>)NativeLibrary.GetExport(library, "limitN_run");
        _full = (delegate* unmanaged<LimitCase*, LimitSeries*, double, LimitBook*, int, double>)NativeLibrary.GetExport(library, "limit_full");
        _width = ((delegate* unmanaged<int>)NativeLibrary.GetExport(library, "limit_width"))();
    }

    /// <summary>Compiles it; null where there is no C compiler.</summary>
    public static SpeedLimit? Compile()
    {
        string source = Path.Combine(AppContext.BaseDirectory, "limit", "limit.c"), library = Path.Combine(Path.GetTempPath(), $"limit-{Environment.ProcessId}.so");
        try
        {
            using Process gcc = Process.Start("gcc", ["-O3", "-march=native", "-ffp-contract=off", "-shared", "-fPIC", "-o", library, source]);
            gcc.WaitForExit();
            return gcc.ExitCode == 0 ? new SpeedLimit(NativeLibrary.Load(library)) : null;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
        finally
        {
            File.Delete(library);
        }
    }

    public void Dispose() => NativeLibrary.Free(_library);

    /// <summary>Runs all variants, with their warm-up, in lanes or one by one; into the rows of <paramref name="sums"/> go import and export by bucket and the value of export by bill.</summary>
    public void Run(LimitInput input, bool inLanes, Span<double> endKwh, Span<double> sums)
    {
        int width = inLanes ? _width : 1;
        var run = inLanes ? _lanes : _one;
        sums.Clear();
        fixed (LimitCase* cases = input.Cases)
        fixed (double* end = endKwh, result = sums, none = input.Scratch)
        {
            LimitSeries series = input.Series;
            for (int v = 0; v < input.Cases.Length; v += width)
            {
                for (int lane = v; lane < v + width; lane++) end[lane] = cases[lane].Rows[series.Picks[input.WarmUpFrom] * 5];
                run(cases + v, &series, input.WarmUpFrom, end + v, none);
                run(cases + v, &series, 0, end + v, result + (v * series.Results));
            }
        }
    }

    /// <summary>Runs one case and keeps every flow; with <paramref name="ledger"/> in every interval.</summary>
    public double Full(LimitInput input, double startKwh, LimitBook* book, bool ledger)
    {
        LimitSeries series = input.Series;
        fixed (LimitCase* cases = input.Cases) return _full(cases, &series, startKwh, book, ledger ? 1 : 0);
    }

    /// <summary>One case as the C code sees it.</summary>
    [StructLayout(LayoutKind.Sequential)]
    internal struct LimitCase
    {
        public double Lowest, Highest, ChargeLimit, DischargeLimit, ChargeEfficiency, DischargeEfficiency, Inverter, InverterEfficiency, RectifierEfficiency,
            SolarInput, Standby, Breaker, Import, Relief, Export, Busbar, AcOnBusbar;
        public fixed double Factors[3];
        public fixed double Rows[MostRows * 5];

        public static LimitCase Of(Variant v)
        {
            LimitCase c = new()
            {
                Lowest = v.Plant.LowestKwh,
                Highest = v.Plant.HighestKwh,
                ChargeLimit = v.Plant.ChargeLimitKw,
                DischargeLimit = v.Plant.DischargeLimitKw,
                ChargeEfficiency = v.Plant.ChargeEfficiency,
                DischargeEfficiency = v.Plant.DischargeEfficiency,
                Inverter = v.Plant.InverterKw,
                InverterEfficiency = v.Plant.InverterEfficiency,
                RectifierEfficiency = v.Plant.RectifierEfficiency,
                SolarInput = v.Plant.SolarInputKw,
                Standby = v.Plant.StandbyKw,
                Breaker = v.Site.InverterBreakerKw,
                Import = v.Site.ImportKw,
                Relief = v.Site.RelievesImport ? v.Site.ImportKw : double.PositiveInfinity,
                Export = v.Site.ExportKw,
                Busbar = v.Site.BusbarKw,
                AcOnBusbar = v.Site.AcSolarOnBusbar ? 1 : 0,
            };
            (c.Factors[0], c.Factors[1], c.Factors[2]) = (v.LoadFactor, v.SolarDc is null ? 0 : v.SolarDcFactor, v.SolarAc is null ? 0 : v.SolarAcFactor);
            for (int r = 0; r < v.SetPoints.Rows.Length; r++)
            {
                var row = new StepRow<Scalar>(v.SetPoints.Rows[r], v.Plant);
                double[] numbers = [row.FloorKwh.Value, row.CeilingKwh.Value, row.GridCeilingKwh.Value, row.ImportTargetKw.Value, row.SellDownKwh.Value];
                for (int n = 0; n < 5; n++) c.Rows[(r * 5) + n] = numbers[n];
            }
            return c;
        }
    }

    /// <summary>What all cases share, as the C code sees it.</summary>
    [StructLayout(LayoutKind.Sequential)]
    internal struct LimitSeries
    {
        public double* Load, Dc, Ac, Price;
        public int* Picks, BucketEnds, BucketOf, BillOf;
        public double Hours;
        public int Count, RowCount, Buckets, Results;
    }

    /// <summary>Where the C code keeps every flow of one case.</summary>
    [StructLayout(LayoutKind.Sequential)]
    internal struct LimitBook
    {
        public fixed double Sums[23];
        public fixed double Withheld[35];
        public fixed int Bound[15];
        public uint Now;
        public fixed long Columns[23];
        public double* Import, Export, Load, Solar;
        public ulong* Sites;
        public int At;
    }
}
