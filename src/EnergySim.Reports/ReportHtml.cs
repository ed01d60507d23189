using System.Text;
using EnergySim.Reports.Homeowner;
using EnergySim.Reports.Html;

namespace EnergySim.Reports;

/// <summary>Shows a homeowner's report as one HTML page that holds everything it needs. The same report gives the same bytes.</summary>
public static class ReportHtml
{
    /// <summary>The page.</summary>
    /// <param name="report">The report.</param>
    public static string Of(HomeownerReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        return new HtmlPage(report).Write();
    }

    /// <summary>Writes the page as UTF-8 without a byte order mark.</summary>
    /// <param name="report">The report.</param>
    /// <param name="output">Where to; stays open.</param>
    public static void Write(HomeownerReport report, Stream output)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.Write(Encoding.UTF8.GetBytes(Of(report)));
    }
}
