using System.Globalization;
using System.Text;
using EnergySim.Studies.Sweeps;

namespace EnergySim.Files;

/// <summary>
/// The table of a sweep as comma-separated text: <c>variant, home, tariff</c>, the inputs, the outputs, <c>error</c>. Numbers are written so
/// that they read as the very same number; nothing is written where there is no figure.
/// </summary>
internal sealed class SweepCsv
{
    private readonly SweepReading _reading;
    private readonly IReadOnlyList<SweepColumn> _columns;

    public SweepCsv(SweepReading reading, IReadOnlyList<SweepColumn> columns) => (_reading, _columns) = (reading, columns);

    /// <summary>Names of all columns.</summary>
    public IReadOnlyList<string> Names => ["variant", "home", "tariff", .. _reading.Plan.Inputs.Select(i => i.Name), .. _columns.Select(c => c.Name), "error"];

    /// <summary>The header, with its line's end.</summary>
    public string Header => string.Join(',', Names.Select(Quoted)) + "\n";

    /// <summary>Rows as text, each with its line's end.</summary>
    public string Text(IReadOnlyList<SweepRow> rows)
    {
        var text = new StringBuilder(rows.Count * 64);
        foreach (SweepRow row in rows) Append(text, row);
        return text.ToString();
    }

    private void Append(StringBuilder text, SweepRow row)
    {
        PlannedVariant variant = row.Variant;
        SweepPlan plan = _reading.Plan;
        text.Append(CultureInfo.InvariantCulture, $"{variant.Index + 1L},").Append(Quoted(plan.Homes[variant.Home])).Append(',');
        if (plan.Tariffs.Count > 0) text.Append(Quoted(plan.Tariffs[variant.Tariff]));
        for (int i = 0; i < variant.Values.Count; i++)
        {
            text.Append(',');
            SweepValue value = variant.Values[i] ?? SweepValue.Written(_reading.Homes.OwnValue(variant, i) ?? "");
            if (value.Number is double number) text.Append(CultureInfo.InvariantCulture, $"{number}");
            else text.Append(Quoted(value.Text));
        }
        foreach (double? output in row.Outputs)
        {
            text.Append(',');
            if (output is double number) text.Append(CultureInfo.InvariantCulture, $"{number}");
        }
        text.Append(',').Append(Quoted(row.Error ?? "")).Append('\n');
    }

    private static string Quoted(string text) => text.AsSpan().ContainsAny(",\"\n\r") ? $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal).ReplaceLineEndings(" ")}\"" : text;
}
