using EnergySim.Reports.Homeowner;
using EnergySim.Reports.Pdf;
using PdfSharp.Pdf;

namespace EnergySim.Reports;

/// <summary>Prints a homeowner's report as PDF: text stays text, pictures are drawn, the font is inside. The same report gives the same bytes.</summary>
public static class ReportPdf
{
    /// <summary>Writes the report.</summary>
    /// <param name="report">The report.</param>
    /// <param name="output">Where to; stays open.</param>
    /// <param name="paper">The paper.</param>
    public static void Write(HomeownerReport report, Stream output, Paper paper = Paper.Letter)
    {
        ArgumentNullException.ThrowIfNull(report);
        ArgumentNullException.ThrowIfNull(output);
        using var document = new PdfDocument();
        document.Info.Title = report.Title;
        document.Info.Subject = report.Subtitle;
        document.Info.Creator = "EnergySim";
        document.Language = "en";
        new PdfSheets(document, report, paper == Paper.A4 ? new PageSheet(595.28, 841.89) : new PageSheet(612, 792)).Set();
        using var bytes = new MemoryStream();
        document.Save(bytes, closeStream: false);
        output.Write(StableBytes.Of(bytes.ToArray()));
    }
}
