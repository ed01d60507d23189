using System.Globalization;

namespace EnergySim.Files;

/// <summary>Settles what numbers below 0 are.</summary>
internal static class PortalSigns
{
    public static void Settle(List<PortalRow> rows, string file, MeterRows told)
    {
        bool hasExport = rows.Exists(r => r.Flow == MeterFlow.Export);
        int below = rows.Count(r => r.Flow == MeterFlow.Import && r.Value < 0);
        if (below > 0 && hasExport) throw new ProblemsException(rows.Where(r => r.Flow == MeterFlow.Import && r.Value < 0).Select(r => At(file, r, "is below 0 in a column of import, while the file has one of export")));
        if (below > 0)
        {
            told.Found("signs", "numbers below 0 are what was sold", string.Create(CultureInfo.InvariantCulture, $"{below:N0} of {rows.Count:N0} numbers are below 0 and there is no column of export"), 0.95);
            for (int i = 0; i < rows.Count; i++)
                if (rows[i].Flow == MeterFlow.Import) rows[i] = rows[i] with { Flow = MeterFlow.Net };
        }
        if (!rows.Exists(r => r.Flow == MeterFlow.Export && r.Value < 0)) return;
        if (rows.Exists(r => r.Flow == MeterFlow.Export && r.Value > 0))
            throw new ProblemsException(rows.Where(r => r.Flow == MeterFlow.Export && r.Value < 0).Select(r => At(file, r, "is below 0 in a column of export that has numbers above 0 too")));
        told.Found("signs", "export is written below 0", "none of its numbers is above 0", 0.95);
        for (int i = 0; i < rows.Count; i++)
            if (rows[i].Flow == MeterFlow.Export) rows[i] = rows[i] with { Value = -rows[i].Value };
    }

    private static Problem At(string file, in PortalRow row, string rule) =>
        new() { File = file, Line = row.Line, Value = row.Value?.ToString(CultureInfo.InvariantCulture), Rule = rule };
}
