using System.Runtime.CompilerServices;

namespace EnergySim.Engine;

/// <summary>Keeps sums: kW summed over intervals by flow and by site of a clamp, and the number of intervals in which each limit bound.</summary>
internal struct SumsBook : IBook<Scalar>
{
    public Flows<Scalar> SumKw;
    public SiteValues WithheldKw;
    public LimitCounts BoundIntervals;
    public ulong SitesNow;
    private uint _limitsNow;

    [InlineArray(Limits.SiteCount)]
    internal struct SiteValues
    {
        private double _first;
    }

    [InlineArray(Limits.Count)]
    internal struct LimitCounts
    {
        private int _first;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Cut(LimitSite site, Scalar withheldKw)
    {
        if (withheldKw.Value <= Step.TinyKw) return;
        WithheldKw[(int)site] += withheldKw.Value;
        SitesNow |= 1ul << (int)site;
        _limitsNow |= 1u << (int)Limits.LimitOf(site);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Close(in Flows<Scalar> flows)
    {
        SumKw.LoadKw += flows.LoadKw;
        SumKw.StandbyKw += flows.StandbyKw;
        SumKw.ImportKw += flows.ImportKw;
        SumKw.OverloadKw += flows.OverloadKw;
        if (flows.SolarDcKw.Value + flows.SolarAcKw.Value > 0)
        {
            SumKw.SolarDcKw += flows.SolarDcKw;
            SumKw.SolarAcKw += flows.SolarAcKw;
            SumKw.ClippedInputKw += flows.ClippedInputKw;
            SumKw.SolarDcToLoadKw += flows.SolarDcToLoadKw;
            SumKw.SolarAcToLoadKw += flows.SolarAcToLoadKw;
            SumKw.SolarDcToCellsKw += flows.SolarDcToCellsKw;
            SumKw.SolarAcToCellsKw += flows.SolarAcToCellsKw;
            SumKw.SolarToGridKw += flows.SolarToGridKw;
            SumKw.CurtailedDcKw += flows.CurtailedDcKw;
            SumKw.CurtailedAcKw += flows.CurtailedAcKw;
        }
        if (flows.InverterInKw.Value + flows.InverterOutKw.Value > 0)
        {
            SumKw.GridToCellsKw += flows.GridToCellsKw;
            SumKw.InverterInKw += flows.InverterInKw;
            SumKw.InverterOutKw += flows.InverterOutKw;
            SumKw.CellsToLoadKw += flows.CellsToLoadKw;
            SumKw.CellsToGridKw += flows.CellsToGridKw;
        }
        SumKw.ExportKw += flows.ExportKw;
        SumKw.UnservedKw += flows.UnservedKw;
        SumKw.Dark += flows.Dark;
        if (_limitsNow != 0) CountLimits();
    }

    /// <summary>Forgets which sites bound in this interval; call before the next.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Next() => SitesNow = 0;

    private void CountLimits()
    {
        for (uint left = _limitsNow; left != 0; left &= left - 1)
            BoundIntervals[System.Numerics.BitOperations.TrailingZeroCount(left)]++;
        _limitsNow = 0;
    }
}
