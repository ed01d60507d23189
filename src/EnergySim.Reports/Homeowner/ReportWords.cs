using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Studies;
using EnergySim.Studies.Findings;
using EnergySim.Studies.Lifetime;
using EnergySim.Studies.WiringFit;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Reports.Homeowner;

/// <summary>The findings with what all pages ask of them.</summary>
internal sealed class ReportWords
{
    public ReportWords(HomeFindings findings)
    {
        Findings = findings;
        Rough = new Rough(findings.Comparison.Currency);
        Names = [.. Columns.Select(c => Lettering.Clean(c.Name))];
        Drawn = Math.Min(Columns.Count, Palette.MostColumns);
        Styles = Palette.StylesOf([.. Columns.Take(Drawn)]);
    }

    public HomeFindings Findings { get; }

    public Comparison Comparison => Findings.Comparison;

    public IReadOnlyList<ComparisonColumn> Columns => Comparison.Columns;

    public Rough Rough { get; }

    /// <summary>The columns' names, the home as it is first.</summary>
    public IReadOnlyList<string> Names { get; }

    /// <summary>Columns that pictures can tell apart: the first of all.</summary>
    public int Drawn { get; }

    public IReadOnlyList<BarStyle> Styles { get; }

    /// <summary>True when the data are of a year, so that sums may be called "a year".</summary>
    public bool IsYear => Findings.Days is 365 or 366;

    /// <summary>"a year", or the number of days.</summary>
    public string PerSpan => IsYear ? "a year" : string.Create(CultureInfo.InvariantCulture, $"in these {Findings.Days} days");

    public string Span => $"{Date(Comparison.From)} to {Date(Comparison.To)}";

    /// <summary>The note that says that the data are invented; empty where none does.</summary>
    public string Note => Lettering.Clean(Comparison.Notes.FirstOrDefault(n => n.Contains("invented", StringComparison.OrdinalIgnoreCase)) ?? "");

    public WayResult? WayOf(int offer) => Findings.Wiring?.Offers[offer].Cheapest;

    /// <summary>The first rule by which a way may be; null = none has a section.</summary>
    public static Verdict? RuleOf(WayResult way) => way.Fit.Verdicts.FirstOrDefault(v => v.Standing == Standing.Within && v.Section is not null);

    public LifetimeOffer? LifetimeOf(int offer) => Findings.Lifetime?.Offers[offer];

    public string Price(decimal? price) => price is decimal some ? Rough.Money.Whole(some) : "not stated";

    public static string Date(LocalDate date) => date.ToString("d MMMM uuuu", CultureInfo.InvariantCulture);

    public static string At(LocalDateTime at) => at.ToString("d MMMM uuuu, HH:mm", CultureInfo.InvariantCulture);

    public static string ShortAt(LocalDateTime at) => at.ToString("d MMM uuuu HH:mm", CultureInfo.InvariantCulture);

    /// <summary>A name at the beginning of a sentence.</summary>
    public static string Capital(string words) => words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];
}
