using EnergySim.Engine;
using NodaTime;

namespace EnergySim.Studies.Outages;

/// <summary>What happens in an outage.</summary>
public enum SpellEventKind
{
    /// <summary>The cells are full.</summary>
    Full,

    /// <summary>Part of the house is not served for want of power.</summary>
    Overloaded,

    /// <summary>Dark for want of energy.</summary>
    Empty,

    /// <summary>Dark because the inverter tripped.</summary>
    Tripped,

    /// <summary>The house is served again.</summary>
    ServedAgain,

    /// <summary>The generator starts.</summary>
    GeneratorStarts,

    /// <summary>The generator stops.</summary>
    GeneratorStops,
}

/// <summary>Something that happens in an outage.</summary>
/// <param name="Kind">What.</param>
/// <param name="Hour">Hours after its start.</param>
/// <param name="At">Local time.</param>
/// <param name="StoredKwh">Energy in the cells before it, kWh.</param>
public sealed record SpellEvent(SpellEventKind Kind, double Hour, LocalDateTime At, double StoredKwh);

/// <summary>Reads the events of an outage from its ledger.</summary>
internal static class SpellEvents
{
    // Within so many kWh of the highest the cells count as full.
    private const double FullWithinKwh = 1e-6;

    public static IReadOnlyList<SpellEvent> Of(Ledger ledger, double highestKwh)
    {
        ReadOnlySpan<double> stored = ledger[LedgerColumn.StoredKwh], dark = ledger[LedgerColumn.Dark], unserved = ledger[LedgerColumn.UnservedKw];
        ReadOnlySpan<double> generator = ledger[LedgerColumn.ImportKw];
        var events = new List<SpellEvent>();
        // Full once is full for the day: it is told again only after a tenth has been used.
        bool full = ledger.Sums.StartKwh >= highestKwh - FullWithinKwh, failed = false, overloaded = false, runs = false;
        for (int i = 0; i < stored.Length; i++)
        {
            double before = i == 0 ? ledger.Sums.StartKwh : stored[i - 1];
            void Add(SpellEventKind kind) => events.Add(new SpellEvent(kind, i * ledger.Axis.StepHours, ledger.Axis.OffsetStartOf(i).LocalDateTime, before));
            bool runsNow = generator[i] > 0;
            if (runsNow != runs) Add(runsNow ? SpellEventKind.GeneratorStarts : SpellEventKind.GeneratorStops);
            runs = runsNow;
            bool tripped = ledger.Bound(i, LimitSite.Trip), wants = ledger.Bound(i, LimitSite.Rule5Floor);
            bool failedNow = unserved[i] > 0 && (dark[i] > 0 || wants);
            if (failedNow && !failed) Add(tripped ? SpellEventKind.Tripped : SpellEventKind.Empty);
            if (!failedNow && failed && unserved[i] == 0) Add(SpellEventKind.ServedAgain);
            failed = failedNow || (failed && unserved[i] > 0);
            bool overloadedNow = unserved[i] > 0 && !failed;
            if (overloadedNow && !overloaded) Add(SpellEventKind.Overloaded);
            overloaded = overloadedNow;
            if (!full && stored[i] >= highestKwh - FullWithinKwh) Add(SpellEventKind.Full);
            full = stored[i] >= highestKwh - FullWithinKwh || (full && stored[i] > 0.9 * highestKwh);
        }
        return events;
    }
}
