using System.Runtime.InteropServices;

namespace EnergySim.Engine;

/// <summary>
/// For each interval of an outage the band of stored energy in which no flow depends on it (neither full nor empty, never dark), and what the
/// step then adds to it. Within the band the step's own last line, <c>stored + change</c>, is all that is left to do: the same bits, without the
/// step. The bands come from the step itself, run once an interval at half of usable energy.
/// </summary>
internal sealed class FreeIntervals
{
    // Wider than any rounding of the limits, so that whatever is close to one goes through the step.
    private const double MarginKwh = 1e-6;
    private readonly Band[] _bands;

    /// <param name="run">A run off the grid, without rules beyond the step.</param>
    /// <param name="constants">Its constants.</param>
    /// <param name="row">The outage row.</param>
    public FreeIntervals(Run run, in StepConstants<Scalar> constants, in StepRow<Scalar> row)
    {
        ReadOnlySpan<double> load = run.Load.Kw, dc = run.SolarDc.Kw, ac = run.SolarAc.Kw;
        _bands = new Band[load.Length];
        double middle = (run.Plant.LowestKwh + run.Plant.HighestKwh) / 2;
        var pending = new FlowBook();
        var none = new NoBook();
        for (int i = 0; i < _bands.Length; i++)
        {
            var stored = new Scalar(middle);
            Darkness dark = Darkness.None;
            pending.ForgetEnergyLimits();
            UnservedByCause causes = OffGrid.Interval(
                in constants, in row, new Scalar(load[i]), new Scalar(dc[i]), new Scalar(ac[i]), Restart.ByRule, ref stored, ref dark, ref pending, ref none);
            bool depends = constants.Tapers || dark != Darkness.None || pending.EnergyBound;
            double charge = pending.DcToCellsKw;
            charge += pending.AcToCellsKw;
            _bands[i] = new Band
            {
                // A band that nothing lies in where the flows depend on the stored energy.
                LowestKwh = depends ? double.PositiveInfinity : row.FloorKwh.Value + (pending.FromCellsKw / constants.OutKwPerKwh.Value) + MarginKwh,
                HighestKwh = row.CeilingKwh.Value - (charge / constants.RoomKwPerKwh.Value) - MarginKwh,
                // The expression of rule 9, term by term.
                ChangeKwh = constants.StepHours.Value * ((constants.ChargeEfficiency.Value * charge)
                    - (pending.FromCellsKw * constants.PerInverterEfficiency.Value * constants.PerDischargeEfficiency.Value)),
                UnservedKw = causes.Energy + causes.Power + causes.Trip,
                WantsEnergy = causes.Energy > 0,
            };
            _bands[i].ServedLowestKwh = _bands[i].UnservedKw > 0 ? double.PositiveInfinity : _bands[i].LowestKwh;
        }
    }

    /// <summary>The bands, one an interval.</summary>
    public ReadOnlySpan<Band> Bands => _bands;

    /// <summary>One interval's band.</summary>
    [StructLayout(LayoutKind.Sequential)]
    internal struct Band
    {
        /// <summary>As the lowest, where all of the house is served; where not, no energy is enough.</summary>
        public double ServedLowestKwh;

        public double LowestKwh, HighestKwh, ChangeKwh, UnservedKw;
        public bool WantsEnergy;
    }

    // Keeps the flows into and out of the cells, and whether the stored energy bound one, also in a first try that was taken back.
    private struct FlowBook : IPendingBook
    {
        private CauseBook _causes;

        public double DcToCellsKw { get; private set; }

        public double AcToCellsKw { get; private set; }

        public double FromCellsKw { get; private set; }

        public bool EnergyBound { get; private set; }

        public readonly bool WantsEnergy => _causes.WantsEnergy;

        public readonly double GeneratorKw => 0;

        public void ForgetEnergyLimits() => EnergyBound = false;

        public static bool KeepsFlows => true;

        public static bool KeepsGross => true;

        public void Cut(LimitSite site, Scalar withheldKw)
        {
            if (site is LimitSite.Rule4DcFull or LimitSite.Rule4AcFull or LimitSite.Rule5Floor && withheldKw.Value > 0) EnergyBound = true;
            _causes.Cut(site, withheldKw);
        }

        public void Flow(LedgerColumn column, Scalar value)
        {
            if (column == LedgerColumn.SolarDcToCellsKw) DcToCellsKw = value.Value;
            else if (column == LedgerColumn.SolarAcToCellsKw) AcToCellsKw = value.Value;
            else if (column == LedgerColumn.CellsToLoadKw) FromCellsKw = value.Value;
        }

        public readonly void Meter(Scalar importKw, Scalar exportKw, Scalar loadKw, Scalar solarKw) { }

        public readonly void Close() { }

        public void Clear()
        {
            _causes.Clear();
            (DcToCellsKw, AcToCellsKw, FromCellsKw) = (0, 0, 0);
        }

        public readonly UnservedByCause Causes(Scalar unservedKw) => _causes.Causes(unservedKw);

        public readonly void PassOn<TBook>(ref TBook book) where TBook : struct, IBook<Scalar> => book.Close();
    }
}
