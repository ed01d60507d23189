using System.Runtime.CompilerServices;
using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>
/// All of one bill that stands before any meter is read: what it prices in which order, the names and prices of its lines, its days. Made once
/// a plan on its axis; the bills of a million variants are filled in on the same forms.
/// </summary>
internal sealed class BillForm
{
    private static readonly ConditionalWeakTable<TariffCalendar, BillForm[]> s_forms = [];

    private BillForm(TariffCalendar calendar, int bill)
    {
        Calendar = calendar;
        Bill = bill;
        Span = calendar.Bills[bill];
        AtEnd = calendar.Tariff.Versions[calendar.VersionAtEndOf(Span)];
        Energy = [.. Enumerable.Range(0, calendar.Buckets.Count).Where(i => calendar.Buckets[i].Bill == bill).Select(i => new EnergyRow(calendar, i)).Order()];
        Days = [.. calendar.Parts.Where(p => p.Key.Bill == bill).Select(p => (p.Key.Version, p.Key.Season, p.Value))];
        Fixed = [.. calendar.Tariff.Versions.Select((v, i) => new FixedRow(Named("service, a day", calendar, i), v.FixedPerDay, Days.Sum(d => d.Version == i ? d.Count : 0)))
            .Where(f => f.PricePerDay != 0 && f.Days != 0)];
        Events = [.. calendar.Tariff.Versions.Select((v, i) => (Terms: v.Events, Version: i)).Where(e => e.Terms is not null)
            .Select(e => (e.Version, Named("event adder", calendar, e.Version), e.Terms!.AdderPerKwh))];
        Demand = [.. Enumerable.Range(0, calendar.Demand.Columns.Count).Select(DemandOf).Where(rows => rows.Length > 0)];
        HasTiers = calendar.Tariff.Versions.Any(v => v.Tiers is not null);
        AllowanceKwh = HasTiers ? Allowance() : 0;
    }

    public TariffCalendar Calendar { get; }

    /// <summary>Index of the bill.</summary>
    public int Bill { get; }

    public BillSpan Span { get; }

    /// <summary>The version on its last day.</summary>
    public TariffVersion AtEnd { get; }

    /// <summary>Its buckets, by version, season and period.</summary>
    public EnergyRow[] Energy { get; }

    /// <summary>Charges by the day.</summary>
    public FixedRow[] Fixed { get; }

    /// <summary>Event adders by version.</summary>
    public (int Version, string Name, decimal PricePerKwh)[] Events { get; }

    /// <summary>Demand charges, each with a row for each version and season.</summary>
    public DemandRow[][] Demand { get; }

    public bool HasTiers { get; }

    /// <summary>kWh that the shares of tiers are of.</summary>
    public decimal AllowanceKwh { get; }

    private (int Version, string Season, int Count)[] Days { get; }

    /// <summary>The forms of a plan's bills, in order.</summary>
    public static BillForm[] Of(TariffCalendar calendar) =>
        s_forms.GetValue(calendar, static c => [.. Enumerable.Range(0, c.Bills.Count).Select(bill => new BillForm(c, bill))]);

    /// <summary>A line's name with the version it is priced by, where the plan has several.</summary>
    public static string Named(string name, TariffCalendar calendar, int version) => calendar.Tariff.Versions.Count == 1
        ? name
        : $"{name} (prices of {calendar.Tariff.Versions[version].Effective.ToString("uuuu-MM-dd", System.Globalization.CultureInfo.InvariantCulture)})";

    private DemandRow[] DemandOf(int charge)
    {
        var rows = new List<DemandRow>();
        foreach ((int version, string season, int days) in Days)
        {
            IReadOnlyList<DemandCharge> charges = Calendar.Tariff.Versions[version].Demand;
            if (charge >= charges.Count || (charges[charge].Season is string own && own != season)) continue;
            DemandCharge terms = charges[charge];
            string when = Calendar.Tariff.Versions[version].Seasons.Count == 0 ? "" : $", {season}";
            string share = days == Span.Days ? "" : $", {days} of {Span.Days} days";
            rows.Add(new DemandRow(
                terms, CellOf(new DemandCell(Bill, version, season, charge)), Named(terms.Name + when + share, Calendar, version),
                terms.PricePerKw ?? terms.PriceBySeason!.GetValueOrDefault(season), days));
        }
        return [.. rows];
    }

    private int CellOf(DemandCell wanted)
    {
        for (int i = 0; i < Calendar.Demand.Cells.Count; i++)
            if (Calendar.Demand.Cells[i] == wanted) return i;
        return -1;
    }

    private decimal Allowance()
    {
        if (AtEnd.Tiers?.AllowanceKwhPerBill is double perBill) return BillDraft.Exact(perBill);
        decimal allowance = 0;
        foreach ((int version, string season, int days) in Days)
            if (Calendar.Tariff.Versions[version].Tiers?.AllowanceKwhPerDay is { } perDay) allowance += days * BillDraft.Exact(perDay.GetValueOrDefault(season));
        return allowance;
    }
}

/// <summary>A bucket of a bill, with a line for each part of its price.</summary>
internal sealed class EnergyRow : IComparable<EnergyRow>
{
    public EnergyRow(TariffCalendar calendar, int index)
    {
        Index = index;
        Bucket = calendar.Buckets[index];
        TariffVersion version = calendar.Tariff.Versions[Bucket.Version];
        string when = version.Seasons.Count == 0 ? Bucket.Period : $"{Bucket.Season} {Bucket.Period}";
        Prices = [.. calendar.RulesOf(Bucket.Version).PriceOf(Bucket.Season, Bucket.Period)!.Parts
            .Select(p => new PartPrice(p.Part, BillForm.Named($"{when}, {p.Part}", calendar, Bucket.Version), p.PricePerKwh, p.Part == version.NeverOffsetPart))];
    }

    /// <summary>Index of the bucket.</summary>
    public int Index { get; }

    public Bucket Bucket { get; }

    public PartPrice[] Prices { get; }

    public int CompareTo(EnergyRow? other)
    {
        if (other is null) return 1;
        int order = Bucket.Version.CompareTo(other.Bucket.Version);
        if (order == 0) order = string.CompareOrdinal(Bucket.Season, other.Bucket.Season);
        return order != 0 ? order : string.CompareOrdinal(Bucket.Period, other.Bucket.Period);
    }
}

/// <summary>The line of a part of a price.</summary>
internal sealed record PartPrice(string Part, string Name, decimal PricePerKwh, bool IsNeverOffset);

/// <summary>The line of a charge by the day.</summary>
internal sealed record FixedRow(string Name, decimal PricePerDay, int Days);

/// <summary>The line of a demand charge in a version and season.</summary>
/// <param name="Terms">The charge.</param>
/// <param name="Cell">Where its highest demand stands; −1 where none was looked for.</param>
/// <param name="Name">The line's name.</param>
/// <param name="PricePerKw">Money per kW a bill.</param>
/// <param name="Days">Days of the bill that it holds on.</param>
internal sealed record DemandRow(DemandCharge Terms, int Cell, string Name, decimal PricePerKw, int Days);
