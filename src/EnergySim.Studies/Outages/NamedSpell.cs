using EnergySim.Engine;
using EnergySim.Profiles;
using EnergySim.Time;

namespace EnergySim.Studies.Outages;

/// <summary>Works out one outage in detail.</summary>
internal static class NamedSpell
{
    public static NamedOutage Of(Run offGrid, double startKwh, int start, OutageTerms terms)
    {
        int perHour = 60 / offGrid.Axis.StepMinutes, length = terms.NamedHours * perHour, horizon = terms.HorizonHours * perHour;
        Run At(int count, bool sun)
        {
            var axis = new TimeAxis(offGrid.Axis.Zone, offGrid.Axis.StartOf(start), offGrid.Axis.StepMinutes, count);
            Profile From(Profile whole)
            {
                var kw = new double[count];
                for (int i = 0; i < count; i++) kw[i] = whole.Kw[(start + i) % whole.Kw.Length];
                return new Profile(axis, kw);
            }
            return new Run(From(offGrid.Load), sun ? From(offGrid.SolarDc) : null, sun ? From(offGrid.SolarAc) : null, offGrid.Plant, offGrid.Site, null, startKwh, offGrid: true);
        }
        Ledger ledger = At(length, sun: true).Ledger();
        // The walk goes on past the outage's end, so that "hours left" is not cut off there.
        Ledger beyond = At(length + horizon, sun: true).Ledger();
        ReadOnlySpan<double> unserved = ledger[LedgerColumn.UnservedKw], dark = ledger[LedgerColumn.Dark];
        int firstUnserved = unserved.IndexOfAnyExcept(0.0), firstDark = dark.IndexOf(1.0);
        int recovers = -1;
        for (int i = Math.Max(firstDark, 0); firstDark >= 0 && recovers < 0 && i < length; i++)
            if (dark[i] == 0 && unserved[i] == 0) recovers = i;
        double? Hours(int index) => index < 0 ? null : index * offGrid.Axis.StepHours;
        return new NamedOutage
        {
            Ledger = ledger,
            At = offGrid.Axis.OffsetStartOf(start).LocalDateTime,
            Hours = terms.NamedHours,
            StartKwh = startKwh,
            HoursLeftWithSun = WithSun(beyond, length),
            HoursLeftWithoutSun = WithoutSun(At(length + horizon, sun: false), ledger, startKwh, horizon),
            FirstUnservedHours = Hours(firstUnserved),
            FirstDarkHours = Hours(firstDark),
            RecoversHours = Hours(recovers),
            CurtailedKwh = ledger.Sums.Kwh(LedgerColumn.ClippedInputKw) + ledger.Sums.Kwh(LedgerColumn.CurtailedDcKw) + ledger.Sums.Kwh(LedgerColumn.CurtailedAcKw),
        };
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

    private static double?[] WithoutSun(Run sunless, Ledger ledger, double startKwh, int horizon)
    {
        ReadOnlySpan<double> stored = ledger[LedgerColumn.StoredKwh], dark = ledger[LedgerColumn.Dark];
        var energies = new double[sunless.Axis.Count];
        // Starts past the outage are not asked.
        Array.Fill(energies, sunless.Plant.LowestKwh);
        energies[0] = startKwh;
        stored[..^1].CopyTo(energies.AsSpan(1));
        StartOutcomes outcomes = new EveryStart(sunless, horizon).Walk(energies);
        var left = new double?[stored.Length];
        for (int i = 0; i < left.Length; i++)
        {
            if (dark[i] > 0) left[i] = 0;
            else if (outcomes.LastingIntervals[i] < horizon) left[i] = outcomes.LastingIntervals[i] * outcomes.StepHours;
        }
        return left;
    }
}
