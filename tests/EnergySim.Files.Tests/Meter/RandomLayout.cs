using System.Globalization;
using System.Text;
using CsCheck;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Files.Tests.Meter;

/// <summary>A way in which some portal might write a meter's series, drawn at random, and the writing of it.</summary>
internal sealed record RandomLayout
{
    private static readonly string[] s_zones = ["America/Denver", "America/New_York", "Europe/Madrid", "Europe/London", "Australia/Sydney", "America/Phoenix", "Asia/Kolkata"];
    private static readonly (int Month, int Day)[] s_starts = [(3, 1), (3, 20), (6, 5), (10, 20), (9, 28), (1, 3), (4, 1)];

    public required DateTimeZone Zone { get; init; }

    public required TimeAxis Axis { get; init; }

    /// <summary>moment, date-time, ordinal, wide, offset, utc, epoch.</summary>
    public required string Stamps { get; init; }

    public required string DateFormat { get; init; }

    public required string TimeFormat { get; init; }

    /// <summary>start, end, both, inclusive.</summary>
    public required string Ends { get; init; }

    /// <summary>one, two, signed, rows.</summary>
    public required string Channels { get; init; }

    public required char Separator { get; init; }

    public required bool DecimalComma { get; init; }

    public required MeterUnit Unit { get; init; }

    public required bool NewestFirst { get; init; }

    public required int Preamble { get; init; }

    public required bool HasTotal { get; init; }

    public required bool HasQuality { get; init; }

    public required string Encoding { get; init; }

    public required int Seed { get; init; }

    public static Gen<RandomLayout> Any { get; } =
        from zone in OneOf(s_zones)
        from start in OneOf(s_starts)
        from step in OneOf(60, 30, 15)
        from days in Gen.Int[14, 33]
        from stamps in OneOf("moment", "date-time", "ordinal", "wide", "offset", "utc", "epoch")
        from date in OneOf("uuuu-MM-dd", "M/d/uuuu", "dd/MM/uuuu", "dd.MM.uuuu", "MMM d, uuuu", "dd-MMM-uuuu", "uuuuMMdd")
        from time in OneOf("HH:mm", "H:mm", "HH:mm:ss", "h:mm tt")
        from ends in OneOf("start", "end", "both", "inclusive")
        from channels in OneOf("one", "two", "signed", "rows")
        from separator in OneOf(',', ';', '\t', '|')
        from comma in Gen.Bool
        from unit in OneOf(MeterUnit.KWh, MeterUnit.Wh, MeterUnit.KW, MeterUnit.W)
        from newest in Gen.Bool
        from preamble in Gen.Int[0, 4]
        from flags in Gen.Int[0, 3]
        from encoding in OneOf("utf-8", "utf-8-bom", "utf-16", "windows-1252")
        from seed in Gen.Int[0, 100_000]
        select new RandomLayout
        {
            Zone = DateTimeZoneProviders.Tzdb[zone],
            Axis = TimeAxis.OfDates(DateTimeZoneProviders.Tzdb[zone], new LocalDate(2025, start.Item1, start.Item2), new LocalDate(2025, start.Item1, start.Item2).PlusDays(days), step),
            Stamps = stamps,
            // A date without signs between its parts needs a time with some.
            DateFormat = date,
            TimeFormat = time,
            Ends = stamps is "ordinal" or "wide" ? "start" : stamps == "date-time" && ends == "end" ? "both" : ends,
            Channels = stamps == "wide" ? (channels == "two" ? "one" : channels) : channels,
            Separator = separator,
            DecimalComma = comma && separator != ',',
            Unit = unit,
            NewestFirst = newest,
            Preamble = preamble,
            HasTotal = (flags & 1) == 1,
            HasQuality = (flags & 2) == 2,
            Encoding = encoding,
            Seed = seed,
        };

    private static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    /// <summary>Bought in an interval, Wh.</summary>
    public int ImportWh(int i) => IsSelling(i) ? 0 : 40 + (int)(((i * 7919L) + Seed) % 2900);

    /// <summary>Sold in an interval, Wh.</summary>
    public int ExportWh(int i) => Channels != "one" && IsSelling(i) ? 10 + (int)(((i * 104729L) + Seed) % 1900) : 0;

    private bool IsSelling(int i) => Channels != "one" && Axis.LocalMinuteOf(i) is >= 600 and < 960;

    public MeterOptions Options() => new() { Zone = Zone, DayFirst = DateFormat.Contains('/', StringComparison.Ordinal) ? DateFormat[0] == 'd' : null };

    public void Write(string path)
    {
        var lines = new List<string>();
        for (int p = 0; p < Preamble; p++) lines.Add(p == 2 ? "" : $"Account {p}{Separator}{(Separator == ',' ? "\"1 Example Street, Sampletown\"" : "Zähler 000")}");
        lines.Add(string.Join(Separator, Header()));
        List<string> rows = Stamps == "wide" ? WideRows() : LongRows();
        if (NewestFirst) rows.Reverse();
        lines.AddRange(rows);
        if (HasTotal) lines.Add($"Total{Separator}{Separator}999");
        string text = string.Join("\r\n", lines);
        Encoding encoding = Encoding switch
        {
            "utf-8-bom" => new UTF8Encoding(true),
            "utf-16" => new UnicodeEncoding(false, true),
            "windows-1252" => CodePagesEncodingProvider.Instance.GetEncoding(1252)!,
            _ => new UTF8Encoding(false),
        };
        File.WriteAllText(path, text, encoding);
    }

    private string UnitText => Unit switch { MeterUnit.Wh => "Wh", MeterUnit.KWh => "kWh", MeterUnit.KW => "kW", _ => "W" };

    private List<string> Header()
    {
        var header = new List<string>();
        if (Stamps == "wide")
        {
            header.Add("Date");
            if (Channels == "rows") header.Add("Direction");
            header.Add("Unit");
            int most = Enumerable.Range(0, Axis.Count).GroupBy(Axis.LocalDayOf).Max(g => g.Count());
            for (int n = 1; n <= most; n++) header.Add(n.ToString(CultureInfo.InvariantCulture));
            return header;
        }
        string zone = Stamps == "utc" ? " (UTC)" : "";
        if (Stamps is "date-time") header.Add("Date");
        if (Stamps == "ordinal") header.AddRange(["Date", "Hour"]);
        else if (Stamps == "date-time") header.AddRange(Ends is "both" or "inclusive" ? ["Start time", "End time"] : [$"{(Ends == "end" ? "End" : "Start")} time"]);
        else if (Ends is "both" or "inclusive") header.AddRange([$"Start{zone}", $"End{zone}"]);
        else header.Add($"Interval {Ends}{zone}");
        if (Channels == "rows") header.Add("Direction");
        header.AddRange(Channels == "two" ? [$"Import ({UnitText})", $"Export ({UnitText})"] : [$"{(Channels == "signed" ? "Net" : "Usage")} ({UnitText})"]);
        if (HasQuality) header.Add("Quality");
        return header;
    }

    private List<string> LongRows()
    {
        var rows = new List<string>();
        for (int i = 0; i < Axis.Count; i++)
        {
            List<string> fields = StampFields(i);
            string[] tail = HasQuality ? ["A"] : [];
            if (Channels == "rows")
            {
                rows.Add(Row([.. fields, "Delivered to customer", Number(ImportWh(i)), .. tail]));
                rows.Add(Row([.. fields, "Surplus to grid", Number(ExportWh(i)), .. tail]));
            }
            else if (Channels == "two") rows.Add(Row([.. fields, Number(ImportWh(i)), Number(ExportWh(i)), .. tail]));
            else rows.Add(Row([.. fields, Number(ImportWh(i) - ExportWh(i)), .. tail]));
        }
        return rows;
    }

    private List<string> WideRows()
    {
        var rows = new List<string>();
        int most = Enumerable.Range(0, Axis.Count).GroupBy(Axis.LocalDayOf).Max(g => g.Count());
        foreach (IGrouping<int, int> day in Enumerable.Range(0, Axis.Count).GroupBy(Axis.LocalDayOf))
        {
            string date = TimeAxis.DateOfDay(day.Key).ToString(DateFormat, CultureInfo.InvariantCulture);
            int[] all = [.. day];
            string[] blank = [.. Enumerable.Repeat("", most - all.Length)];
            if (Channels == "rows")
            {
                rows.Add(Row([date, "Consumption", UnitText, .. all.Select(i => Number(ImportWh(i))), .. blank]));
                rows.Add(Row([date, "Export", UnitText, .. all.Select(i => Number(ExportWh(i))), .. blank]));
            }
            else rows.Add(Row([date, UnitText, .. all.Select(i => Number(ImportWh(i) - ExportWh(i))), .. blank]));
        }
        return rows;
    }

    private List<string> StampFields(int i)
    {
        Instant start = Axis.StartOf(i), end = Axis.StartOf(i + 1);
        if (Stamps == "ordinal")
        {
            int n = 1;
            while (i - n >= 0 && Axis.LocalDayOf(i - n) == Axis.LocalDayOf(i)) n++;
            return [TimeAxis.DateOfDay(Axis.LocalDayOf(i)).ToString(DateFormat, CultureInfo.InvariantCulture), n.ToString(CultureInfo.InvariantCulture)];
        }
        Instant last = Ends == "inclusive" ? end - Duration.FromMinutes(1) : end;
        if (Stamps == "date-time")
        {
            string date = start.InZone(Zone).ToString(DateFormat, CultureInfo.InvariantCulture);
            return Ends is "both" or "inclusive" ? [date, Time(start), Time(last)] : [date, Time(start)];
        }
        return Ends switch { "start" => [Moment(start)], "end" => [Moment(end)], _ => [Moment(start), Moment(last)] };
    }

    private string Time(Instant at) => at.InZone(Zone).ToString(TimeFormat, CultureInfo.InvariantCulture);

    private string Moment(Instant at) => Stamps switch
    {
        "epoch" => at.ToUnixTimeSeconds().ToString(CultureInfo.InvariantCulture),
        "utc" => at.InUtc().ToString($"{DateFormat} {TimeFormat}", CultureInfo.InvariantCulture),
        "offset" => at.InZone(Zone).ToString("uuuu-MM-dd'T'HH:mm:sso<G>", CultureInfo.InvariantCulture),
        _ => at.InZone(Zone).ToString($"{DateFormat} {TimeFormat}", CultureInfo.InvariantCulture),
    };

    private string Number(int wh)
    {
        double hours = Axis.StepHours;
        string text = Unit switch
        {
            MeterUnit.Wh => wh.ToString(CultureInfo.InvariantCulture),
            MeterUnit.KWh => (wh / 1000.0).ToString("0.000", CultureInfo.InvariantCulture),
            MeterUnit.KW => (wh / 1000.0 / hours).ToString("0.000000", CultureInfo.InvariantCulture),
            _ => (wh / hours).ToString("0.###", CultureInfo.InvariantCulture),
        };
        return DecimalComma ? text.Replace('.', ',') : text;
    }

    private string Row(List<string> fields) => string.Join(Separator, fields.Select(f => f.Contains(Separator, StringComparison.Ordinal) ? $"\"{f}\"" : f));

    public override string ToString() =>
        $"{Zone.Id} {Axis.LocalDateOf(0)} {Axis.StepMinutes} min, {Stamps} {DateFormat} {TimeFormat} {Ends}, {Channels}, '{Separator}' comma {DecimalComma} {Unit}, newest {NewestFirst}, pre {Preamble}, total {HasTotal}, quality {HasQuality}, {Encoding}, seed {Seed}";
}
