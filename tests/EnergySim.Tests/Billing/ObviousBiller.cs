using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Billing;

/// <summary>A slow second reading of TARIFF.md: bills straight from what the meter saw, interval by interval off the zone's clock, without buckets or calendars.</summary>
internal sealed class ObviousBiller
{
    private sealed record Line(string Kind, decimal Value, decimal Unrounded, decimal Amount);

    private sealed record Seen(int Version, string Season, string Period, DayType Day, LocalDateTime Clock, double ImportKwh, double ExportKwh, double LoadKwh, double SolarKwh, double RawImportKw);

    private readonly RandomPlan _plan;
    private readonly List<Seen> _seen = [];
    private readonly Dictionary<string, List<(int Bill, decimal Amount)>> _banks = [];
    private readonly List<double> _measured = [], _billed = [];
    private bool _knowsEarlier;
    private decimal _yearAmount, _yearKwh, _surplus;
    private List<Line> _lines = [];

    private ObviousBiller(RandomPlan plan) => _plan = plan;

    /// <summary>The total of each bill.</summary>
    public static List<decimal> Totals(RandomPlan plan, TimeAxis axis, ReadOnlySpan<double> import, ReadOnlySpan<double> export, ReadOnlySpan<double> load, ReadOnlySpan<double> solar)
    {
        var biller = new ObviousBiller(plan);
        for (int i = 0; i < axis.Count; i++)
        {
            LocalDateTime clock = axis.StartOf(i).InZone(plan.Tariff.Zone).LocalDateTime;
            int v = biller.VersionOn(clock.Date);
            TariffVersion version = plan.Tariff.Versions[v];
            double bought = import[i], sold = export[i];
            if (version.MeterMinutes == 60 && axis.StepMinutes == 30)
            {
                int first = clock.Minute == 0 ? i : i - 1;
                (bought, sold) = ((import[first] + import[first + 1]) / 2, (export[first] + export[first + 1]) / 2);
                if (version.NetsInsideMeterInterval) (bought, sold) = (Math.Max(0, bought - sold), Math.Max(0, sold - bought));
            }
            DayType day = version.Holidays.Any(h => h.In(clock.Year) == clock.Date) ? DayType.Holiday : clock.DayOfWeek >= IsoDayOfWeek.Saturday ? DayType.Weekend : DayType.Weekday;
            string season = version.Seasons.First(s => s.Contains(MonthDay.Of(clock.Date))).Name;
            int minute = (clock.Hour * 60) + clock.Minute;
            string period = version.Periods.First(p => p.Window.Contains(minute) && (p.Days.Count == 0 || p.Days.Contains(day))).Period;
            double h = axis.StepHours;
            biller._seen.Add(new Seen(v, season, period, day, clock, bought * h, sold * h, load[i] * h, solar[i] * h, import[i]));
        }
        return biller.All();
    }

    private int VersionOn(LocalDate date) => Math.Max(0, _plan.Tariff.Versions.ToList().FindLastIndex(v => v.Effective <= date));

    private static decimal Six(double sum) => Math.Round((decimal)sum, 6, MidpointRounding.AwayFromZero);

    private List<decimal> All()
    {
        List<LocalDate> bounds = _plan.Account.ReadDates.Count > 0 ? [.. _plan.Account.ReadDates] : [RandomPlan.From, new(2025, 3, 1), new(2025, 4, 1), RandomPlan.Until];
        LocalDate anniversary = _plan.Account.Anniversary ?? RandomPlan.From;
        int YearOf(LocalDate d) => d.Year - ((d.Month, d.Day).CompareTo((anniversary.Month, anniversary.Day)) < 0 ? 1 : 0);
        var totals = new List<decimal>();
        ExportTerms? before = null;
        for (int b = 0; b + 1 < bounds.Count; b++)
        {
            TariffVersion atEnd = _plan.Tariff.Versions[VersionOn(bounds[b + 1].PlusDays(-1))];
            if (before is not null && before.GetType() != atEnd.Export.GetType()) (_yearAmount, _yearKwh) = (0, 0);
            if (before is not null && before.GetType() != atEnd.Export.GetType()) _banks.Clear();
            before = atEnd.Export;
            bool last = b + 2 >= bounds.Count;
            bool settles = last || YearOf(bounds[b]) != YearOf(bounds[b + 1]) || _plan.Tariff.Versions[VersionOn(bounds[b + 2].PlusDays(-1))].Export.GetType() != atEnd.Export.GetType();
            totals.Add(One(b, bounds[b], bounds[b + 1], atEnd, settles));
        }
        return totals;
    }

    private decimal One(int bill, LocalDate from, LocalDate until, TariffVersion atEnd, bool settles)
    {
        _lines = [];
        List<Seen> seen = [.. _seen.Where(s => s.Clock.Date >= from && s.Clock.Date < until)];
        int days = Period.DaysBetween(from, until);
        void Add(string kind, decimal quantity, decimal price, decimal of = 1)
        {
            if (quantity == 0) return;
            decimal exact = quantity * price / of, cents = Math.Round(exact, 2, MidpointRounding.AwayFromZero);
            _lines.Add(new Line(kind, atEnd.Rounding.OfTotal ? exact : cents, exact, cents));
        }
        decimal Sum(Func<string, bool> kinds) => _lines.Where(l => kinds(l.Kind)).Sum(l => l.Value);

        // Energy, by version, season and period.
        List<(int V, string Season, string Period, decimal Import, decimal Billed)> cells = Cells(bill, seen, atEnd.Export);
        foreach ((int v, string season, string period, decimal import, decimal billed) in cells)
        {
            TariffVersion version = _plan.Tariff.Versions[v];
            EnergyPrice price = version.EnergyPrices.FirstOrDefault(p => p.Season == season && p.Period == period) ?? version.EnergyPrices.FirstOrDefault(p => p.Season == season && p.Period is null)
                ?? version.EnergyPrices.FirstOrDefault(p => p.Season is null && p.Period == period) ?? version.EnergyPrices.First(p => p.Season is null && p.Period is null);
            foreach (PricePart part in price.Parts) Add(part.Part, atEnd.Export is ExportTerms.RetailNetting { NeverOffsetOnImport: true } && part.Part == version.NeverOffsetPart ? import : billed, part.PricePerKwh);
        }
        AddTiers(seen, cells, atEnd, Add);
        for (int v = 0; v < _plan.Tariff.Versions.Count; v++)
            if (_plan.Tariff.Versions[v].Events is EventCharge events)
                Add("event", Six(seen.Where(s => s.Version == v && events.Dates.Contains(s.Clock.Date) && In(events.Window, s)).Sum(s => s.ImportKwh)), events.AdderPerKwh);
        for (int v = 0; v < _plan.Tariff.Versions.Count; v++)
            if (_plan.Tariff.Versions[v].FixedPerDay != 0) Add("fixed", seen.Where(s => s.Version == v).Select(s => s.Clock.Date).Distinct().Count(), _plan.Tariff.Versions[v].FixedPerDay);
        if (atEnd.FixedPerMonth != 0) Add("fixed", atEnd.FixedPerMonthByDays ? days : 1, atEnd.FixedPerMonth, atEnd.FixedPerMonthByDays ? 30 : 1);
        AddDemand(seen, days, Add);
        AddExport(bill, seen, cells, days, atEnd, Add, Sum);
        if (atEnd.Minimum is MinimumBill minimum && minimum.PerBill + (minimum.PerDay * days) - Sum(k => minimum.Counts.Count == 0 || minimum.Counts.Contains(k)) is > 0 and decimal lacks) Add("minimum", 1, lacks);
        foreach (Percentage p in atEnd.Percentages) Add(p.Name, Sum(k => p.Of.Count == 0 || p.Of.Contains(k)), p.Rate);
        if (settles) Settle(atEnd.Export, Add);
        decimal unrounded = _lines.Sum(l => l.Unrounded);
        return atEnd.Rounding.OfTotal ? Math.Round(unrounded / atEnd.Rounding.To, MidpointRounding.AwayFromZero) * atEnd.Rounding.To : _lines.Sum(l => l.Amount);
    }

    private static bool In(ClockWindow window, Seen s) => window.Contains((s.Clock.Hour * 60) + s.Clock.Minute);

    private List<(int V, string Season, string Period, decimal Import, decimal Billed)> Cells(int bill, List<Seen> seen, ExportTerms terms)
    {
        var groups = seen.GroupBy(s => (s.Version, s.Season, s.Period)).OrderBy(g => g.Key.Version).ThenBy(g => g.Key.Season, StringComparer.Ordinal).ThenBy(g => g.Key.Period, StringComparer.Ordinal)
            .Select(g => (g.Key, Import: Six(g.Sum(s => s.ImportKwh)), Export: Six(g.Sum(s => s.ExportKwh)), Load: Six(g.Sum(s => s.LoadKwh)))).ToList();
        decimal[] billed = [.. groups.Select(g => g.Import)];
        if (terms is ExportTerms.SellAll) billed = [.. groups.Select(g => g.Load)];
        if (terms is ExportTerms.RetailNetting) billed = [.. groups.Select(g => g.Import - g.Export)];
        if (terms is ExportTerms.MonthlyNetting monthly)
        {
            _surplus = 0;
            foreach (string name in _banks.Keys) Expire(name, bill, monthly.CreditLastsBills);
            decimal Net(string name, decimal net)
            {
                if (net >= 0) return net - Use(name, net);
                if (monthly.SurplusPricePerKwh is not null) _surplus -= net;
                else Lots(name).Add((bill, -net));
                return 0;
            }
            decimal import = groups.Sum(g => g.Import);
            if (monthly.AcrossPeriods)
            {
                decimal all = Net("all", import - groups.Sum(g => g.Export));
                billed = [.. groups.Select(g => import == 0 ? 0 : all * g.Import / import)];
            }
            else
            {
                // What is over in one season of a bill is kept for later bills.
                foreach (bool over in (bool[])[false, true])
                    for (int i = 0; i < billed.Length; i++)
                        if (groups[i].Import < groups[i].Export == over) billed[i] = Net(groups[i].Key.Period, groups[i].Import - groups[i].Export);
            }
        }
        return [.. groups.Select((g, i) => (g.Key.Version, g.Key.Season, g.Key.Period, g.Import, billed[i]))];
    }

    private void AddTiers(List<Seen> seen, List<(int V, string Season, string Period, decimal Import, decimal Billed)> cells, TariffVersion atEnd, Action<string, decimal, decimal, decimal> add)
    {
        decimal total = Math.Max(0, cells.Sum(c => c.Billed)), positive = cells.Sum(c => Math.Max(0, c.Billed));
        if (total == 0) return;
        decimal allowance = atEnd.Tiers?.AllowanceKwhPerBill is double whole ? Six(whole) : seen.GroupBy(s => s.Clock.Date).Select(d => d.First())
            .Sum(s => _plan.Tariff.Versions[s.Version].Tiers?.AllowanceKwhPerDay is { } perDay ? Six(perDay[s.Season]) : 0);
        for (int step = 0; step < 3; step++)
        {
            var shares = new Dictionary<(int, string), (decimal Kwh, decimal Price)>();
            foreach ((int v, _, string period, _, decimal billed) in cells)
            {
                if (billed <= 0 || _plan.Tariff.Versions[v].Tiers is not { } tiers || step >= tiers.Steps.Count) continue;
                TierStep terms = tiers.Steps[step];
                decimal from = (decimal)terms.FromFraction * allowance, to = step + 1 < tiers.Steps.Count ? (decimal)tiers.Steps[step + 1].FromFraction * allowance : decimal.MaxValue;
                var key = (v, terms.ByPeriod is null ? "" : period);
                shares[key] = (shares.GetValueOrDefault(key).Kwh + (Math.Max(0, Math.Min(total, to) - from) * billed / positive), terms.PricePerKwh ?? terms.ByPeriod![period]);
            }
            foreach ((decimal kwh, decimal price) in shares.Values) add("tier", kwh, price, 1);
        }
        foreach (var byPrice in cells.Where(c => c.Billed > 0 && _plan.Tariff.Versions[c.V].Tiers?.CreditPerKwh is not null).GroupBy(c => _plan.Tariff.Versions[c.V].Tiers!.CreditPerKwh!.Value))
            add("tier", -Math.Round(byPrice.Sum(c => Math.Min(total, allowance) * c.Billed / positive), 6), byPrice.Key, 1);
    }

    private void AddDemand(List<Seen> seen, int days, Action<string, decimal, decimal, decimal> add)
    {
        double highestMeasured = -1, highestBilled = -1;
        foreach (var part in seen.GroupBy(s => (s.Version, s.Season)))
        {
            DemandCharge? terms = _plan.Tariff.Versions[part.Key.Version].Demand.SingleOrDefault();
            if (terms is null || (terms.Season is string only && only != part.Key.Season)) continue;
            if (!_knowsEarlier) (_knowsEarlier, _) = (true, Keep(terms.EarlierMeasuredKw, terms.EarlierBilledKw));
            double measured = part.Where(s => In(terms.Window, s) && (terms.Days.Count == 0 || terms.Days.Contains(s.Day)))
                .GroupBy(s => (s.Clock.Date, ((s.Clock.Hour * 60) + s.Clock.Minute) / terms.Minutes)).Select(g => g.Average(s => s.RawImportKw)).DefaultIfEmpty(0).Max();
            double billed = _measured.TakeLast(terms.RatchetBills).Select(kw => kw * terms.RatchetFraction).Append(measured).Max();
            if (terms.CapKw is double cap && _billed.Count > 0) billed = Math.Min(billed, _billed[^1] + cap);
            (highestMeasured, highestBilled) = (Math.Max(highestMeasured, measured), Math.Max(highestBilled, billed));
            add("demand", Six(billed) * part.Select(s => s.Clock.Date).Distinct().Count(), terms.PricePerKw ?? terms.PriceBySeason![part.Key.Season], days);
        }
        if (highestMeasured >= 0) Keep([highestMeasured], [highestBilled]);
    }

    private bool Keep(IReadOnlyList<double> measured, IReadOnlyList<double> billed)
    {
        _measured.AddRange(measured);
        _billed.AddRange(billed);
        return true;
    }

    private void AddExport(int bill, List<Seen> seen, List<(int V, string Season, string Period, decimal Import, decimal Billed)> cells, int days, TariffVersion atEnd, Action<string, decimal, decimal, decimal> add, Func<Func<string, bool>, decimal> sum)
    {
        switch (atEnd.Export)
        {
            case ExportTerms.RetailNetting retail:
                _yearKwh += cells.Sum(c => c.Billed);
                decimal energy = sum(k => k == "tier" || ((k is "delivery" or "supply") && !(retail.NeverOffsetOnImport && k == atEnd.NeverOffsetPart)));
                _yearAmount += energy;
                if (retail.Settlement == Settlement.Year) break;
                Expire("$", bill, retail.CreditLastsBills);
                if (energy < 0) Lots("$").Add((bill, -energy));
                add("credit", 1, energy < 0 ? -energy : -Use("$", energy), 1);
                break;
            case ExportTerms.NetBilling net:
                AddCredits(bill, seen, net, add);
                break;
            case ExportTerms.MonthlyNetting { SurplusPricePerKwh: decimal price }:
                add("export", -_surplus, price, 1);
                break;
            case ExportTerms.TwoWay two:
                add("export", -Six(seen.Sum(s => s.ExportKwh)), two.AnyTimePerKwh ?? 0, 1);
                bool Same(Seen s) => _plan.Tariff.Versions[s.Version].Export is ExportTerms.TwoWay;
                ExportTerms.TwoWay Of(Seen s) => (ExportTerms.TwoWay)_plan.Tariff.Versions[s.Version].Export;
                add("export charge", Math.Max(0, Six(seen.Where(s => Same(s) && In(Of(s).ChargeWindow, s)).Sum(s => s.ExportKwh)) - Six(two.FreeKwhPerBill + (two.FreeKwhPerDay * days))), two.ChargePerKwh, 1);
                add("export", -Six(seen.Where(s => Same(s) && In(Of(s).RewardWindow, s)).Sum(s => s.ExportKwh)), two.RewardPerKwh, 1);
                break;
            case ExportTerms.SellAll sell:
                add("export", -Six(seen.Sum(s => s.SolarKwh)), sell.PricePerKwh, 1);
                break;
            default:
                break;
        }
    }

    private void AddCredits(int bill, List<Seen> seen, ExportTerms.NetBilling net, Action<string, decimal, decimal, decimal> add)
    {
        foreach (string part in (string[])["credit a", "credit b"])
        {
            double value = 0;
            foreach (Seen s in seen)
                if (_plan.Tariff.Versions[s.Version].Export is ExportTerms.NetBilling own) value += s.ExportKwh * (double)PriceOf(own, s, part);
            decimal earned = Math.Round(Six(value), 2, MidpointRounding.AwayFromZero);
            Expire(part, bill, net.CreditLastsBills);
            // A debt is a lot below zero: what is earned fills it first.
            decimal debt = -Lots(part).Where(l => l.Amount < 0).Sum(l => l.Amount);
            Lots(part).RemoveAll(l => l.Amount < 0);
            earned -= debt;
            if (earned > 0) Lots(part).Add((bill, earned));
            else if (-earned - Use(part, -earned) is > 0 and decimal owed) Lots(part).Add((int.MaxValue / 2, -owed));
        }
        var open = new Dictionary<string, decimal>();
        foreach (Line line in _lines) open[line.Kind] = open.GetValueOrDefault(line.Kind) + line.Value;
        IEnumerable<(string, IReadOnlyList<string>)> uses = net.Pays.Count == 0
            ? [("credit a", [.. open.Keys]), ("credit b", [.. open.Keys])]
            : net.Pays.Select(u => (u.Part == "*" ? "credit a" : u.Part, u.Kinds));
        foreach ((string part, IReadOnlyList<string> kinds) in uses)
        {
            decimal used = 0;
            foreach (string kind in kinds)
            {
                decimal paid = Use(part, open.GetValueOrDefault(kind));
                open[kind] = open.GetValueOrDefault(kind) - paid;
                used += paid;
            }
            add("credit", used == 0 ? 0 : 1, -used, 1);
        }
    }

    private static decimal PriceOf(ExportTerms.NetBilling own, Seen s, string part)
    {
        DayType day = s.Day == DayType.Holiday ? DayType.Weekend : s.Day;
        ExportPrice row = own.Prices.FirstOrDefault(p => p.Month == s.Clock.Month && p.Hour == s.Clock.Hour && p.Day == day) ?? own.Prices.FirstOrDefault(p => p.Period == s.Period) ?? own.Prices[^1];
        return row.Parts.Where(p => p.Part == part).Sum(p => p.PricePerKwh);
    }

    private void Settle(ExportTerms terms, Action<string, decimal, decimal, decimal> add)
    {
        if (terms is ExportTerms.RetailNetting retail)
        {
            if (retail.Settlement == Settlement.Year && _yearAmount < 0) add("settlement", 1, -_yearAmount, 1);
            if (_yearKwh < 0) add("settlement", _yearKwh, retail.SurplusPricePerKwh, 1);
            (_yearAmount, _yearKwh) = (0, 0);
        }
        foreach (string name in _banks.Keys)
        {
            decimal left = Lots(name).Sum(l => l.Amount);
            if (terms is ExportTerms.MonthlyNetting monthly) add("settlement", -left, monthly.CashOutPerKwh, 1);
            if (terms is ExportTerms.NetBilling net)
            {
                if (left < 0) add("settlement", 1, -left, 1);
                else if (net.CashOutFraction is decimal share) add("settlement", -left, share, 1);
                else if (net.YearEnd == LeftOver.RollsOver) continue;
            }
            Lots(name).Clear();
        }
    }

    private List<(int Bill, decimal Amount)> Lots(string name) => _banks.TryGetValue(name, out List<(int Bill, decimal Amount)>? lots) ? lots : _banks[name] = [];

    private void Expire(string name, int bill, int? lasts) => Lots(name).RemoveAll(l => l.Bill + lasts < bill);

    private decimal Use(string name, decimal most)
    {
        decimal used = 0;
        List<(int Bill, decimal Amount)> lots = Lots(name);
        for (int i = 0; i < lots.Count; i++)
        {
            decimal taken = Math.Max(0, Math.Min(most - used, lots[i].Amount));
            lots[i] = (lots[i].Bill, lots[i].Amount - taken);
            used += taken;
        }
        lots.RemoveAll(l => l.Amount == 0);
        return used;
    }
}
