using System.Globalization;
using EnergySim.Engine;
using EnergySim.Tariffs;

namespace EnergySim.Studies.Outages;

/// <summary>What one thing done otherwise would have come to in the outage told in detail.</summary>
/// <param name="Change">What was done otherwise, in words.</param>
/// <param name="Carries">True when the house is then served throughout.</param>
/// <param name="FirstUnservedHours">Else: hours to the first unserved load.</param>
public sealed record CarryingChange(string Change, bool Carries, double? FirstUnservedHours);

/// <summary>
/// Runs an outage again with one thing done otherwise, each kind in steps from little to much until it carries: a higher reserve, a part switched
/// off, less kept, a larger inverter, one battery more. In that order, from what costs nothing to what costs most.
/// </summary>
internal sealed class CarryingChanges(Home home, TariffCalendar calendar, OutageTerms terms, OutageCase one, int start)
{
    private readonly WeatherYear? _weather = terms.WeatherYears.FirstOrDefault(w => w.Name == one.Weather);
    private readonly List<CarryingChange> _tried = [];

    public static IReadOnlyList<CarryingChange> Of(Home home, TariffCalendar calendar, OutageTerms terms, OutageCase one, int start, NamedOutage named)
    {
        if (named.FirstUnservedHours is null) return [];
        UnservedByCause causes = named.Ledger.Sums.UnservedKwh;
        var changes = new CarryingChanges(home, calendar, terms, one, start);
        if (causes.Energy > 0 && terms.StartCharge is StartCharge.Everyday or StartCharge.Reserve) changes.MoreReserve();
        changes.PartsOff();
        changes.KeepLess();
        if (causes.Power + causes.Trip > 0) changes.LargerInverter();
        changes.OneMore();
        return changes._tried;
    }

    private void MoreReserve()
    {
        foreach (int percent in Steps(one.Offer.Strategy.ReserveFraction))
        {
            OutageCase kept = one.WithReserve(percent / 100.0, terms);
            if (Try(string.Create(CultureInfo.InvariantCulture, $"a reserve of {percent} %"), kept.OffGrid, kept.StartKwh, percent == 100)) return;
        }
    }

    private void PartsOff()
    {
        foreach (LoadPart part in terms.Kept.Parts.Where(p => p.KeptFraction > 0))
        {
            LoadPart[] parts = [.. terms.Kept.Parts.Select(p => ReferenceEquals(p, part) ? p with { KeptFraction = 0 } : p)];
            Try($"{part.Name} switched off", one.OffGridKeeping(terms.Kept with { Parts = parts }, terms), one.StartKwh, isLast: true);
        }
    }

    private void KeepLess()
    {
        if (terms.Kept.Base.HouseFraction is not double kept) return;
        for (int percent = (int)Math.Ceiling((kept * 10) - 1 - 1e-9) * 10; percent >= 10; percent -= 10)
        {
            Run less = one.OffGridKeeping(terms.Kept with { Base = LoadSource.Share(percent / 100.0) }, terms);
            string rest = terms.Kept.Parts.Count > 0 ? "rest of the house" : "house";
            if (Try(string.Create(CultureInfo.InvariantCulture, $"{percent} % of the {rest} kept in place of {kept:0.# %}"), less, one.StartKwh, percent == 10)) return;
        }
    }

    // As much power as the kept load ever asks; the breaker and the cells' limit grow with it.
    private void LargerInverter()
    {
        double peakKw = one.OffGrid.Plant.StandbyKw;
        double highest = 0;
        foreach (double kw in one.Loads.Everything.Kw) highest = Math.Max(highest, kw);
        double kwNeeded = Math.Ceiling((peakKw + highest) * 2) / 2, perUnit = kwNeeded / one.Offer.Units;
        Offer offer = one.Offer with
        {
            BreakerAmps = null,
            Battery = one.Offer.Battery with
            {
                InverterKw = Math.Max(one.Offer.Battery.InverterKw, perUnit),
                DischargeLimitKw = Math.Max(one.Offer.Battery.DischargeLimitKw, perUnit / one.Offer.Battery.InverterEfficiency),
            },
        };
        Try(string.Create(CultureInfo.InvariantCulture, $"inverters of {kwNeeded:0.#} kW with the same cells"), offer);
    }

    private void OneMore() => Try("one battery more", one.Offer with
    {
        Units = one.Offer.Units + 1,
        BreakerAmps = one.Offer.BreakerAmps * (one.Offer.Units + 1) / one.Offer.Units,
    });

    // Other equipment: everything anew.
    private void Try(string change, Offer offer)
    {
        OutageCase again = OutageCase.Of(home, calendar, offer, terms, _weather);
        Try(change, again.OffGrid, again.StartKwh, isLast: true);
    }

    // A step that does not carry is told only when it is the last of its kind.
    private bool Try(string change, Run offGrid, double[] startKwh, bool isLast)
    {
        int length = terms.NamedHours * 60 / offGrid.Axis.StepMinutes;
        Ledger ledger = NamedSpell.From(offGrid, startKwh, start, terms, length).Ledger();
        int first = ledger[LedgerColumn.UnservedKw].IndexOfAnyExcept(0.0);
        if (first < 0 || isLast) _tried.Add(new CarryingChange(change, first < 0, first < 0 ? null : first * ledger.Axis.StepHours));
        return first < 0;
    }

    private static IEnumerable<int> Steps(double from)
    {
        for (int percent = (int)Math.Floor((from * 10) + 1 + 1e-9) * 10; percent <= 100; percent += 10) yield return percent;
    }
}
