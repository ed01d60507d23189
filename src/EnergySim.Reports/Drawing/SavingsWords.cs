using System.Globalization;
using System.Text;
using EnergySim.Billing;
using EnergySim.Studies;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Reports.Drawing;

/// <summary>Everything the savings chart says.</summary>
internal sealed class SavingsWords
{
    private static readonly LocalDatePattern s_date = LocalDatePattern.CreateWithInvariantCulture("d MMM uuuu");
    private static readonly LocalDatePattern s_month = LocalDatePattern.CreateWithInvariantCulture("MMM");

    private readonly Comparison _comparison;
    private readonly IReadOnlyList<Bill> _bills;
    private readonly bool _areMonthly;

    public SavingsWords(Comparison comparison)
    {
        _comparison = comparison;
        _bills = comparison.Columns[0].Bills.Bills;
        Money = new Money(comparison.Currency);
        // Meter readings fall on working days, so that a month's bill has about 26–35 days (common practice).
        _areMonthly = _bills.All(b => Period.DaysBetween(b.From, b.To) + 1 is >= 26 and <= 35);
        AreCalendarMonths = _bills.All(b => b.From.Day == 1 && b.To == b.From.PlusMonths(1).PlusDays(-1));
    }

    public Money Money { get; }

    /// <summary>True when every bill is of one whole calendar month, so that the month's name says which.</summary>
    public bool AreCalendarMonths { get; }

    public string Title => _bills.Count == 1 ? "Your bill" : _areMonthly ? "Your bill each month" : "Your bills, one by one";

    private bool HasCredits => _comparison.Columns.Any(c => c.Bills.Bills.Any(b => b.Total < 0));

    /// <summary>What the sums beside the columns are of.</summary>
    public string Lead =>
        _bills.Count == 1 ? "In this bill:"
        : _comparison.From.PlusYears(1) == _comparison.To.PlusDays(1) ? "In a year:"
        : string.Create(CultureInfo.InvariantCulture, $"In these {_bills.Count} bills:");

    public string ScaleTitle =>
        $"bill, {Money.Symbol}{(_areMonthly ? " a month" : "")}{(HasCredits ? " (below zero: a credit)" : "")}";

    public string ColumnName(int column) => Lettering.Clean(_comparison.Columns[column].Name);

    public string ColumnAmount(int column) => Money.Whole(_comparison.Columns[column].AnnualBill);

    /// <summary>Home, plan and span.</summary>
    public IReadOnlyList<string> Origin =>
        [Lettering.Clean(_comparison.Home), "tariff " + Lettering.Clean(_comparison.Tariff), $"{s_date.Format(_comparison.From)} to {s_date.Format(_comparison.To)}"];

    /// <summary>The note that says that the data are invented; null where none does.</summary>
    public string? InventedNote
    {
        get
        {
            string? note = _comparison.Notes.FirstOrDefault(n => n.Contains("invented", StringComparison.OrdinalIgnoreCase));
            return note is null ? null : Lettering.Clean(note);
        }
    }

    /// <summary>Lines that name a bill by its first date, most important first; on few lines, or on more where the bills stand close.</summary>
    public IReadOnlyList<string> BillDate(int bill, bool isNarrow)
    {
        LocalDate from = _bills[bill].From;
        string month = s_month.Format(from), day = from.Day.ToString(CultureInfo.InvariantCulture);
        return AreCalendarMonths ? [month] : isNarrow ? [day, month] : [$"{day} {month}"];
    }

    public int Year(int bill) => _bills[bill].From.Year;

    /// <summary>Every figure of the chart, in words.</summary>
    public string Description
    {
        get
        {
            var words = new StringBuilder($"{Title}. {Lead} ");
            words.AppendJoin(", ", _comparison.Columns.Select((c, i) => $"{ColumnName(i)} {Money.Exact(c.AnnualBill)}")).Append('.');
            for (int b = 0; b < _bills.Count; b++)
            {
                words.Append(CultureInfo.InvariantCulture, $" {s_date.Format(_bills[b].From)} to {s_date.Format(_bills[b].To)}: ");
                words.AppendJoin(", ", _comparison.Columns.Select((c, i) => $"{ColumnName(i)} {Money.Exact(c.Bills.Bills[b].Total)}")).Append('.');
            }
            return words.Append($" {string.Join("; ", Origin)}. {InventedNote}").ToString().TrimEnd();
        }
    }
}
