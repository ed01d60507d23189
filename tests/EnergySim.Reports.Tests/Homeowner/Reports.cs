using EnergySim.Files;
using EnergySim.Reports.Pdf;
using EnergySim.Studies.Findings;
using EnergySim.Studies.Outages;
using UglyToad.PdfPig;

namespace EnergySim.Reports.Homeowner;

/// <summary>Reports of invented homes, each asked once.</summary>
internal static class Reports
{
    private static readonly Dictionary<string, Lazy<HomeFindings>> s_findings = Homes.All.ToDictionary(h => h.Key, h => new Lazy<HomeFindings>(() => FindingsStudy.Of(h.Value, new OutageTerms { HorizonHours = 72 })));

    public static ReportManifest Manifest { get; } = new()
    {
        ProgramVersion = "1.2.3",
        Options = [("tariff", "plans/other.yaml")],
        Inputs = [new InputDigest("homes/sedge-row.yaml", new string('a', 64)), new InputDigest("load.csv", string.Concat(Enumerable.Repeat("0123456789abcdef", 4)))],
    };

    public static TheoryData<string> Names => [.. Homes.All.Keys];

    public static HomeFindings FindingsOf(string home) => s_findings[home].Value;

    public static HomeownerReport Of(string home) => HomeownerReport.Of(FindingsOf(home), Manifest);

    public static byte[] Pdf(string home, Paper paper = Paper.Letter)
    {
        using var stream = new MemoryStream();
        ReportPdf.Write(Of(home), stream, paper);
        return stream.ToArray();
    }

    public static PdfDocument Opened(string home, Paper paper = Paper.Letter) => PdfDocument.Open(Pdf(home, paper));

    public static byte[] Json(string home)
    {
        using var stream = new MemoryStream();
        ReportJson.Write(stream, FindingsOf(home), Manifest);
        return stream.ToArray();
    }
}
