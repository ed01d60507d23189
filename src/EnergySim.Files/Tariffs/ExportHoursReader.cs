using System.Globalization;
using EnergySim.Tariffs;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Files;

/// <summary>Reads prices of exported energy hour by hour: a CSV whose first column is <c>start</c>, and a column a part of the price.</summary>
internal sealed class ExportHoursReader
{
    private static readonly OffsetDateTimePattern s_start = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd'T'HH':'mmo<Z+HH:mm>");
    private readonly string _file;
    private readonly ProblemList _problems;
    private readonly List<string> _parts = [];
    private readonly List<IReadOnlyList<decimal>> _prices = [];
    private Instant? _first;

    private ExportHoursReader(string file, ProblemList problems) => (_file, _problems) = (file, problems);

    /// <summary>The hours; null, with problems, when the file does not fit.</summary>
    public static ExportHours? Read(string file, ProblemList problems)
    {
        int before = problems.Reported;
        if (InputText.Read(file, problems) is not string text) return null;
        var reader = new ExportHoursReader(file, problems);
        reader.ReadText(text);
        return problems.Reported == before ? new ExportHours(reader._first!.Value, reader._parts, reader._prices) : null;
    }

    private void ReadText(string text)
    {
        var lines = new CsvLines(text);
        if (lines.IsAtEnd || !lines.NextLine() || !lines.NextField(out ReadOnlySpan<char> first) || !first.SequenceEqual("start"))
        {
            Report(1, null, null, "the header is start, then a name for each part of the price");
            return;
        }
        while (lines.NextField(out ReadOnlySpan<char> part))
            if (part.IsEmpty || _parts.Contains(part.ToString())) Report(1, null, part.ToString(), "is empty, or names two columns");
            else _parts.Add(part.ToString());
        if (_parts.Count == 0) Report(1, null, null, "the header names no part of the price");
        if (_parts.Count == 0 || lines.IsAtEnd)
        {
            Report(null, null, null, "the file holds no hour");
            return;
        }
        while (!lines.IsAtEnd && lines.NextLine()) ReadRow(ref lines);
    }

    private void ReadRow(ref CsvLines lines)
    {
        lines.NextField(out ReadOnlySpan<char> field);
        string stamp = field.ToString();
        if (s_start.Parse(stamp) is not { Success: true, Value: OffsetDateTime start }) Report(lines.Line, "start", stamp, "is no hour; write 2025-01-31T16:00-07:00");
        else
        {
            _first ??= start.ToInstant();
            if (start.ToInstant() != _first + Duration.FromHours(_prices.Count)) Report(lines.Line, "start", stamp, "is not one hour after the row before");
        }
        var prices = new List<decimal>(_parts.Count);
        while (lines.NextField(out field))
        {
            string part = prices.Count < _parts.Count ? _parts[prices.Count] : "";
            if (!decimal.TryParse(field, NumberStyles.Float, CultureInfo.InvariantCulture, out decimal price)) Report(lines.Line, part, field.ToString(), "is not an amount of money");
            prices.Add(price);
        }
        if (prices.Count != _parts.Count)
            Report(lines.Line, null, null, string.Create(CultureInfo.InvariantCulture, $"the row has {prices.Count} prices, the header {_parts.Count}"));
        _prices.Add(prices);
    }

    private void Report(int? line, string? field, string? value, string rule) =>
        _problems.Add(new Problem { File = _file, Line = line, Field = field, Value = value, Rule = rule });
}
