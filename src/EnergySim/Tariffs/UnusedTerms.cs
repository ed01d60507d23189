using System.Globalization;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tariffs;

/// <summary>
/// Finds what a plan says in vain: seasons without a day, rules, prices, tiers and charges that can never bear on a bill. Such a plan can
/// be billed; it is most often mistyped.
/// </summary>
public static class UnusedTerms
{
    /// <summary>The most that a 200 A service at 240 V carries in a day, kWh.</summary>
    private const double MostKwhPerDay = 200 * 240 * 24 / 1000.0;

    private const int DaysPerBill = 30;

    /// <summary>What is said in vain, a sentence each. Empty = nothing.</summary>
    public static IReadOnlyList<string> Of(Tariff tariff)
    {
        ArgumentNullException.ThrowIfNull(tariff);
        var findings = new List<string>();
        findings.AddRange(SeasonsWithoutDay(tariff));
        findings.AddRange(EventsOutside(tariff));
        for (int v = 0; v < tariff.Versions.Count; v++)
        {
            string which = tariff.Versions.Count == 1 ? "" : string.Create(CultureInfo.InvariantCulture, $"prices of {tariff.Versions[v].Effective:uuuu-MM-dd}: ");
            findings.AddRange(new OfVersion(tariff.Versions[v], UntilOf(tariff, tariff.Versions[v])).Findings().Select(f => which + f));
        }
        return findings;
    }

    // Prices that hold for some weeks only need not see every season; one that no version sees is said in vain.
    private static IEnumerable<string> SeasonsWithoutDay(Tariff tariff)
    {
        foreach (Season season in tariff.Versions.SelectMany(v => v.Seasons).DistinctBy(s => s.Name))
            if (season is { From: { Month: 2, Day: 29 }, To: { Month: 2, Day: 29 } })
                yield return $"season {season.Name} has no day in most years: it is 29 February alone";
            else if (!tariff.Versions.Where(v => v.Seasons.Any(s => s.Name == season.Name)).Any(v => new OfVersion(v, UntilOf(tariff, v)).HasDay(season.Name)))
                yield return $"season {season.Name} has no day: other prices hold on all of its days";
    }

    private static IEnumerable<string> EventsOutside(Tariff tariff)
    {
        foreach (LocalDate date in tariff.Versions.SelectMany(v => v.Events?.Dates ?? []).Distinct())
            if (!tariff.Versions.Any(v => v.Events is not null && v.Events.Dates.Contains(date) && date >= v.Effective && !(date >= UntilOf(tariff, v))))
                yield return string.Create(CultureInfo.InvariantCulture, $"the event of {date:uuuu-MM-dd} lies outside the days on which its prices hold");
    }

    private static LocalDate? UntilOf(Tariff tariff, TariffVersion version) =>
        tariff.Versions.SkipWhile(v => !ReferenceEquals(v, version)).Skip(1).FirstOrDefault()?.Effective;

    private sealed class OfVersion(TariffVersion version, LocalDate? until)
    {
        private readonly DayRules _rules = new(version, version.Effective.Year, version.Effective.Year + 1);

        public IEnumerable<string> Findings()
        {
            HashSet<(string Season, string Period)> occurring = Occurring();
            return [.. Periods(), .. Prices(occurring), .. Tiers(occurring), .. Charges(), .. ExportPrices(occurring)];
        }

        private IEnumerable<string> Periods()
        {
            foreach (PeriodRule rule in version.Periods)
                if (rule.Days.Count > 0 && !rule.Days.Any(Exists))
                    yield return $"period {rule.Period} on {Names(rule.Days)}: the plan has no such day";
        }

        private IEnumerable<string> Prices(HashSet<(string Season, string Period)> occurring)
        {
            foreach (EnergyPrice price in version.EnergyPrices)
                if (!occurring.Any(o => ReferenceEquals(_rules.PriceOf(o.Season, o.Period), price)))
                    yield return $"the energy price for {price.Season ?? "any season"}, {price.Period ?? "any period"} is never used";
        }

        private IEnumerable<string> Tiers(HashSet<(string Season, string Period)> occurring)
        {
            if (version.Tiers is not Tiers tiers) yield break;
            double mostPerDay = tiers.AllowanceKwhPerDay?.Values.Min() ?? (tiers.AllowanceKwhPerBill ?? 0) / DaysPerBill;
            for (int s = 0; s < tiers.Steps.Count; s++)
            {
                TierStep step = tiers.Steps[s];
                if (step.FromFraction * mostPerDay > MostKwhPerDay)
                    yield return string.Create(CultureInfo.InvariantCulture,
                        $"step {s + 1} of the tiers is out of reach: it begins at {step.FromFraction * mostPerDay:#,0} kWh a day, a 200 A service carries {MostKwhPerDay:#,0}");
                if (s > 0 && step.PricePerKwh is decimal price && price == tiers.Steps[s - 1].PricePerKwh)
                    yield return string.Create(CultureInfo.InvariantCulture, $"step {s + 1} of the tiers has the price of the step before it");
                foreach (string period in step.ByPeriod?.Keys ?? [])
                    if (!occurring.Any(o => o.Period == period))
                        yield return string.Create(CultureInfo.InvariantCulture, $"step {s + 1} of the tiers names {period}, which never occurs");
            }
        }

        private IEnumerable<string> Charges()
        {
            foreach (DemandCharge charge in version.Demand)
                if (charge.Days.Count > 0 && !charge.Days.Any(Exists))
                    yield return $"demand charge {charge.Name} on {Names(charge.Days)}: the plan has no such day";
        }

        private IEnumerable<string> ExportPrices(HashSet<(string Season, string Period)> occurring)
        {
            if (version.Export is not ExportTerms.NetBilling billing) yield break;
            foreach (ExportPrice price in billing.Prices)
                if (price.Period is string period && !occurring.Any(o => o.Period == period && (price.Season ?? o.Season) == o.Season))
                    yield return $"the export price for {price.Season ?? "any season"}, {period} is never used";
        }

        private HashSet<(string Season, string Period)> Occurring()
        {
            var occurring = new HashSet<(string, string)>();
            foreach (string season in _rules.Seasons.Select(s => s.Name))
                foreach (DayType day in Enum.GetValues<DayType>().Where(Exists))
                    foreach (string? period in _rules.PeriodsOf(season, day))
                        if (period is not null) occurring.Add((season, period));
            return occurring;
        }

        public bool HasDay(string season)
        {
            if (until is not LocalDate end) return true;
            for (LocalDate date = version.Effective; date < end && date < version.Effective.PlusYears(1); date = date.PlusDays(1))
                if (_rules.SeasonOf(date) == season) return true;
            return false;
        }

        private bool Exists(DayType day) => day switch
        {
            DayType.Holiday => version.Holidays.Count > 0,
            DayType.Event => version.Events is not null,
            _ => true,
        };

        private static string Names(IEnumerable<DayType> days) => string.Join(" and ", days.Select(d => $"{d.ToString().ToLowerInvariant()}s"));
    }
}
