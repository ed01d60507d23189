using EnergySim.Engine;
using EnergySim.Profiles;
using EnergySim.Time;

namespace EnergySim.Studies.Outages;

/// <summary>Works out one outage in detail.</summary>
internal static class NamedSpell
{
    private const int HoursOfADay = 24;

    public static NamedOutage Of(OutageCase one, int start, OutageTerms terms)
    {
        Run offGrid = one.OffGrid;
        int perHour = 60 / offGrid.Axis.StepMinutes, length = terms.NamedHours * perHour, horizon = terms.HorizonHours * perHour;
        Ledger ledger = From(offGrid, one.StartKwh, start, terms, length).Ledger();
        // The walk goes on past the outage's end, so that "hours left" is not cut off there.
        Run beyond = From(offGrid, one.StartKwh, start, terms, length + horizon);
        ReadOnlySpan<double> unserved = ledger[LedgerColumn.UnservedKw], dark = ledger[LedgerColumn.Dark];
        int firstUnserved = unserved.IndexOfAnyExcept(0.0), firstDark = dark.IndexOf(1.0);
        int recovers = -1;
        for (int i = Math.Max(firstDark, 0); firstDark >= 0 && recovers < 0 && i < length; i++)
            if (dark[i] == 0 && unserved[i] == 0) recovers = i;
        double? Hours(int index) => index < 0 ? null : index * offGrid.Axis.StepHours;
        int[] sunless = BackupLeft.WithoutSun(beyond, length, horizon);
        return new NamedOutage
        {
            Ledger = ledger,
            At = offGrid.Axis.OffsetStartOf(start).LocalDateTime,
            Weather = one.Weather,
            Hours = terms.NamedHours,
            StartKwh = one.StartKwh[start],
            LowestKwh = offGrid.Plant.LowestKwh,
            HighestKwh = offGrid.Plant.HighestKwh,
            HoursLeftWithSun = WithSun(beyond.Ledger(), length),
            HoursLeftWithoutSun = [.. sunless.Select(n => n < horizon ? n * offGrid.Axis.StepHours : (double?)null)],
            FirstUnservedHours = Hours(firstUnserved),
            FirstDarkHours = Hours(firstDark),
            RecoversHours = Hours(recovers),
            CurtailedKwh = ledger.Sums.Kwh(LedgerColumn.ClippedInputKw) + ledger.Sums.Kwh(LedgerColumn.CurtailedDcKw) + ledger.Sums.Kwh(LedgerColumn.CurtailedAcKw),
            Events = SpellEvents.Of(ledger, offGrid.Plant.HighestKwh),
        };
    }

    /// <summary>The outage as a run of its own: the series laid out from its start, past the end of the data from their beginning.</summary>
    public static Run From(Run offGrid, double[] startKwh, int start, OutageTerms terms, int count)
    {
        var axis = new TimeAxis(offGrid.Axis.Zone, offGrid.Axis.StartOf(start), offGrid.Axis.StepMinutes, count);
        Profile Laid(Profile whole, bool isSun)
        {
            var kw = new double[count];
            for (int i = 0; i < count; i++) kw[i] = whole.Kw[(start + i) % whole.Kw.Length] * (isSun ? OnDay(i) : 1);
            return new Profile(axis, kw);
        }
        double OnDay(int i)
        {
            if (terms.CloudFactorByDay.Count == 0) return 1;
            int day = i / (HoursOfADay * 60 / offGrid.Axis.StepMinutes);
            return terms.CloudFactorByDay[Math.Min(day, terms.CloudFactorByDay.Count - 1)];
        }
        OutageRules rules = offGrid.Rules with { Sheddable = [.. offGrid.Rules.Sheddable.Select(p => p with { Load = Laid(p.Load, isSun: false) })] };
        return new Run(
            Laid(offGrid.Load, isSun: false), Laid(offGrid.SolarDc, isSun: true), Laid(offGrid.SolarAc, isSun: true), offGrid.Plant, offGrid.Site, null,
            startKwh[start], offGrid: true, rules);
    }

    private static double?[] WithSun(Ledger beyond, int length)
    {
        ReadOnlySpan<double> unserved = beyond[LedgerColumn.UnservedKw];
        var left = new double?[length];
        int next = -1;
        for (int i = unserved.Length - 1; i >= 0; i--)
        {
            if (unserved[i] > 0) next = i;
            if (i < length && next >= 0) left[i] = (next - i) * beyond.Axis.StepHours;
        }
        return left;
    }
}
