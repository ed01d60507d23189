using System.Globalization;
using EnergySim.Studies.Sweeps;

namespace EnergySim.Files;

/// <summary>Reads an input of a sweep file and its values.</summary>
internal static class InputReader
{
    private const int MostValues = 1_000_000;

    private static readonly Bounds s_any = new(double.NegativeInfinity);
    private static readonly string[] s_kinds = ["list", "range", "uniform", "triangular", "normal", "lognormal", "observed"];

    /// <summary>The input; null, with problems, when something of it does not fit.</summary>
    public static SweepInput? Read(YamlMap map)
    {
        int before = map.Reported;
        string path = map.Name("input");
        if (path.Split('.').Any(string.IsNullOrWhiteSpace)) map.Report("input", "is no path of keys; write offers.one-battery.price");
        string[] given = [.. s_kinds.Where(map.Has)];
        InputValues? values = null;
        if (given.Length != 1) map.ReportHere($"an input has one of {string.Join(", ", s_kinds)}{(given.Length == 0 ? "" : $", not {string.Join(" and ", given)}")}");
        else values = ReadValues(map, given[0]);
        bool times = map.Flag("times", false);
        if (times && values?.Stated?.FirstOrDefault(v => v.Number is null) is { Number: null, Text.Length: > 0 } word) map.Report("times", $"multiplies by numbers; \"{word.Text}\" is none; with it a value");
        return map.Reported > before || values is null ? null : new SweepInput { Name = map.Word("name", path), Path = path, Multiplies = times, Values = values };
    }

    private static InputValues? ReadValues(YamlMap map, string kind)
    {
        int before = map.Reported;
        switch (kind)
        {
            case "list":
                SweepValue[] stated = [.. map.Texts("list").Select(t => SweepValue.Written(t.Value))];
                if (stated.Length == 0) map.ReportWhole("list", "there is no value");
                return stated.Length == 0 ? null : new InputValues.Listed(stated);
            case "range":
                return map.Map("range", SweepSections.Range) is YamlMap range ? ReadRange(range) : null;
            case "observed":
                return map.Map("observed", SweepSections.Observed) is YamlMap observed ? ReadObserved(observed) : null;
        }
        Section section = kind switch
        {
            "uniform" => SweepSections.Uniform,
            "triangular" => SweepSections.Triangular,
            "normal" => SweepSections.Normal,
            _ => SweepSections.Lognormal,
        };
        if (map.Map(kind, section) is not YamlMap at) return null;
        double Of(string key, double otherwise = 0) => at.Text(key)?.Share(s_any) ?? otherwise;
        double from = Of("from"), to = Of("to"), peak = Of("peak"), deviation = Of(kind == "normal" ? "deviation" : "logDeviation"), median = Of("median");
        double least = Of("least", kind == "normal" ? double.NegativeInfinity : 0), most = Of("most", double.PositiveInfinity);
        if (map.Reported > before) return null;
        if (kind is "uniform" or "triangular" && !(from < to)) at.Report("to", "is not above from");
        if (kind == "triangular" && !(peak >= from && peak <= to)) at.Report("peak", "does not lie between from and to");
        if (kind is "normal" or "lognormal" && !(deviation > 0)) at.Report(kind == "normal" ? "deviation" : "logDeviation", "is not above 0");
        if (kind == "lognormal" && !(median > 0)) at.Report("median", "is not above 0");
        if (kind is "normal" or "lognormal" && !(least < most)) at.Report("most", "is not above least");
        if (map.Reported > before) return null;
        return kind switch
        {
            "uniform" => new InputValues.Uniform(from, to),
            "triangular" => new InputValues.Triangular(from, peak, to),
            "normal" => new InputValues.Normal(Of("mean"), deviation, least, most),
            _ => new InputValues.Lognormal(median, deviation, Math.Max(0, least), most),
        };
    }

    private static InputValues.Listed? ReadRange(YamlMap map)
    {
        if (!map.OneOf("by", "count")) return null;
        if (map.Text("from")?.Share(s_any) is not double from || map.Text("to")?.Share(s_any) is not double to) return null;
        if (!(from < to))
        {
            map.Report("to", "is not above from");
            return null;
        }
        if (map.Text("by") is YamlText step)
        {
            if (step.Share(new Bounds(0, LeastExcluded: true)) is not double by) return null;
            // The last value may miss the end by the rounding of the step.
            double steps = Math.Floor(((to - from) / by) + 1e-9);
            if (steps >= MostValues)
            {
                step.Report(string.Create(CultureInfo.InvariantCulture, $"makes more than {MostValues:N0} values"));
                return null;
            }
            return Values((int)steps + 1, i => from + (i * by));
        }
        if (map.Text("count")?.Whole(2, MostValues) is not int count) return null;
        return Values(count, i => from + (i * (to - from) / (count - 1)));
    }

    private static InputValues.Listed Values(int count, Func<int, double> at) => new([.. Enumerable.Range(0, count).Select(i => SweepValue.Of(at(i)))]);

    private static InputValues.Observed? ReadObserved(YamlMap map)
    {
        if (map.Text("file") is not YamlText file || map.Text("column") is not YamlText column) return null;
        string path = HomeFile.Beside(map.File, file.Value);
        if (InputText.Read(path, map.Problems) is not string text) return null;
        var lines = new CsvLines(text);
        int at = -1, n = 0;
        if (lines.NextLine())
            for (; lines.NextField(out ReadOnlySpan<char> header); n++)
                if (header.SequenceEqual(column.Value)) at = n;
        if (at < 0)
        {
            column.Report($"is no column of {file.Value}");
            return null;
        }
        var numbers = new List<double>();
        while (lines.NextLine())
        {
            if (lines.Text.IsWhiteSpace()) continue;
            ReadOnlySpan<char> field = [];
            for (int i = 0; i <= at; i++) lines.NextField(out field);
            if (double.TryParse(field, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number)) numbers.Add(number);
            else map.Problems.Add(new Problem { File = path, Line = lines.Line, Field = column.Value, Value = field.ToString(), Rule = "is not a number" });
        }
        if (numbers.Count > 0) return new InputValues.Observed(numbers);
        column.Report("holds no number");
        return null;
    }
}
