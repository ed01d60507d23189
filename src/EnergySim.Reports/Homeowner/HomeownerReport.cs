using EnergySim.Reports.Drawing;
using EnergySim.Studies.Findings;

namespace EnergySim.Reports.Homeowner;

/// <summary>
/// What a homeowner is told, in four pages: the answer, why, the worst days, and what it rests on. Printed and shown from this one content by
/// <see cref="ReportPdf"/> and <see cref="ReportHtml"/>. It says the findings' figures and computes none.
/// </summary>
public sealed class HomeownerReport
{
    private HomeownerReport(string title, string subtitle, IReadOnlyList<ReportPage> pages) => (Title, Subtitle, Pages) = (title, subtitle, pages);

    /// <summary>The report's title.</summary>
    public string Title { get; }

    /// <summary>Home, plan and days.</summary>
    public string Subtitle { get; }

    /// <summary>What stands under every page.</summary>
    public required string Foot { get; init; }

    internal IReadOnlyList<ReportPage> Pages { get; }

    /// <summary>Puts findings into words.</summary>
    /// <param name="findings">What the studies found.</param>
    /// <param name="manifest">How the report can be made again.</param>
    public static HomeownerReport Of(HomeFindings findings, ReportManifest manifest)
    {
        ArgumentNullException.ThrowIfNull(findings);
        ArgumentNullException.ThrowIfNull(manifest);
        var told = new ReportWords(findings);
        return new HomeownerReport(
            Lettering.Clean($"What a battery would do for {findings.Comparison.Home}"),
            Lettering.Clean(string.Join(" · ", new[] { findings.Place, told.Span, manifest.Dated ?? "" }.Where(p => p.Length > 0))),
            [AnswerPage.Of(told), WhyPage.Of(told), WorstDaysPage.Of(told), TrustPage.Of(told, manifest)])
        {
            Foot = told.Note.Length > 0 ? $"{told.Note} A computation, not a promise." : "A computation, not a promise.",
        };
    }
}
