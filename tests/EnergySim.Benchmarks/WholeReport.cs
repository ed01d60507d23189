using EnergySim.Files;
using EnergySim.Reports;
using EnergySim.Reports.Homeowner;
using EnergySim.Reports.Pdf;
using EnergySim.Studies.Findings;

namespace EnergySim.Benchmarks;

/// <summary>The demo home's report, in a process that has made it before: what its questions cost, and what its pages and pictures do.</summary>
internal sealed class WholeReport
{
    private readonly HomeReading _reading = HomeFile.Read(Path.Combine(AppContext.BaseDirectory, "demo/profiles/demo-home.yaml"));
    private HomeFindings? _findings;

    /// <summary>Every question of the report.</summary>
    public HomeFindings Ask() => _findings = FindingsStudy.Of(_reading.Home, _reading.Outage);

    /// <summary>Two PDFs, the page, 52 pictures and the figures of one asking.</summary>
    public int Write()
    {
        HomeFindings findings = _findings ??= Ask();
        var manifest = new ReportManifest { ProgramVersion = "0", Options = [], Inputs = [] };
        HomeownerReport report = HomeownerReport.Of(findings, manifest);
        var writes = new List<Action<Stream>>
        {
            stream => ReportPdf.Write(report, stream, Paper.Letter),
            stream => ReportPdf.Write(report, stream, Paper.A4),
            stream => ReportHtml.Write(report, stream),
            stream => ReportJson.Write(stream, findings, manifest),
        };
        foreach (NamedChart chart in ReportCharts.Of(findings)) writes.AddRange([chart.WritePng, chart.WriteSvg]);
        Parallel.ForEach(writes, write => { using var stream = new MemoryStream(); write(stream); });
        return writes.Count;
    }
}
