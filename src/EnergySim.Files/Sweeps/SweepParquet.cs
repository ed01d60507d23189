using System.Globalization;
using CsvHelper;
using EnergySim.Studies.Sweeps;
using Parquet;
using Parquet.Schema;

namespace EnergySim.Files;

/// <summary>Writes the table of a sweep as Parquet, a row group a part, from the rows as they stand in parts.</summary>
internal static class SweepParquet
{
    /// <summary>Writes the table.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="plan">For its inputs: numbers where all their values are, else text.</param>
    /// <param name="names">All columns.</param>
    /// <param name="parts">Rows as comma-separated text, a text a part.</param>
    public static async Task Write(Stream stream, SweepPlan plan, IReadOnlyList<string> names, IEnumerable<string> parts)
    {
        DataField[] fields = [.. names.Select((name, at) => FieldOf(plan, name, at, names.Count))];
        await using ParquetWriter writer = await ParquetWriter.CreateAsync(new ParquetSchema(fields), stream);
        foreach (string part in parts)
        {
            List<string[]> rows = SweepTableReader.RowsOf(part);
            using ParquetRowGroupWriter group = writer.CreateRowGroup();
            for (int at = 0; at < fields.Length; at++) await Write(group, fields[at], rows, at);
            group.CompleteValidate();
        }
    }

    private static DataField FieldOf(SweepPlan plan, string name, int at, int count)
    {
        int input = at - 3;
        if (at == 0) return new DataField<int>(name);
        if (at < 3 || at == count - 1) return new DataField<string>(name);
        bool isText = input < plan.Inputs.Count && plan.Inputs[input].Values.Stated?.Any(v => v.Number is null) == true;
        return isText ? new DataField<string>(name) : new DataField<double?>(name);
    }

    private static Task Write(ParquetRowGroupWriter group, DataField field, List<string[]> rows, int at)
    {
        if (field is DataField<string>) return group.WriteAsync(field, [.. rows.Select(r => r[at])]);
        if (field is DataField<int>) return group.WriteAsync<int>(field, rows.Select(r => int.Parse(r[at], CultureInfo.InvariantCulture)).ToArray());
        return group.WriteAsync<double>(field, rows.Select(r => SweepTableReader.NumberIn(r[at])).ToArray());
    }
}

/// <summary>Reads rows of a sweep's table as they stand in its parts.</summary>
internal static class SweepTableReader
{
    /// <summary>The fields of rows of comma-separated text.</summary>
    public static List<string[]> RowsOf(string text)
    {
        using var reader = new StringReader(text);
        using var parser = new CsvParser(reader, CultureInfo.InvariantCulture);
        var rows = new List<string[]>();
        while (parser.Read()) rows.Add(parser.Record!);
        return rows;
    }

    /// <summary>A field's number; null where there is none.</summary>
    public static double? NumberIn(string field) => double.TryParse(field, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) ? number : null;
}
