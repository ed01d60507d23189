namespace EnergySim.Files;

/// <summary>Finds the columns of amounts, what they hold and in which unit.</summary>
internal sealed class ValueSniffer(PortalTable table, StampLayout stamps, MeterOptions options, MeterRows rows)
{
    private readonly List<ColumnProfile> _free = [.. table.Columns.Where(c => !stamps.Uses(c.Index))];

    /// <summary>The amounts; what is open is asked.</summary>
    public ValueLayout? Find()
    {
        int unit = UnitColumn(), direction = DirectionColumn(), meter = MeterColumn();
        List<ValueColumn> columns = stamps.Kind == StampKind.Wide
            ? [new ValueColumn(stamps.Wide[0].Column, table.Columns[stamps.Date].Header, MeterFlow.Import, null)]
            : Columns(direction >= 0);
        if (columns.Count == 0) return null;
        var units = new UnitSniffer(table, options, rows);
        int[] cells = stamps.Kind == StampKind.Wide ? [.. stamps.Wide.Select(w => w.Column)] : [.. columns.Select(c => c.Column)];
        return new ValueLayout
        {
            Columns = [.. columns.Select(c => c with { Unit = units.Of(c, unit) })],
            Direction = direction,
            Unit = unit,
            Meter = meter,
            Quality = QualityColumn(direction, unit),
            Services = [.. _free.Where(c => c.IsText && c.Distinct?.Any(HeaderWords.IsOtherService) == true).Select(c => c.Index)],
            IsDecimalComma = Decimal(cells),
            IsRegister = IsRegister(columns),
        };
    }

    private int UnitColumn() =>
        _free.Find(c => c.IsText && c.Distinct is { Count: > 0 } d && d.All(t => UnitWord.Of(t) is not null || HeaderWords.IsOtherService(t) || (HeaderWords.IsUnit(c.Header) && t.Length < 12))
            && d.Any(t => UnitWord.Of(t) is not null))?.Index ?? -1;

    private int DirectionColumn()
    {
        if (options.IsSolarRecord) return -1;
        foreach (ColumnProfile c in _free)
        {
            if (!c.IsText || c.Distinct is not { Count: > 0 and <= 10 } values || (HeaderWords.IsQuality(c.Header) && !HeaderWords.IsExport(c.Header))) continue;
            bool sells = values.Any(HeaderWords.IsExport), makes = values.Any(HeaderWords.IsGeneration);
            if (!sells && !makes) continue;
            if (values.Count > 1 && !values.Any(HeaderWords.IsImport) && !values.Any(HeaderWords.IsNet)) continue;
            if (!sells && makes && !values.Where(HeaderWords.IsGeneration).All(v => RoleOf(v) is not null)) AskRole(values.First(HeaderWords.IsGeneration));
            return c.Index;
        }
        return -1;
    }

    private void AskRole(string name) => rows.Ask("--role",
        $"\"{SafeText.Of(name)}\" may be what was sold to the grid, or all that the roof gave; which is it?", $"\"{SafeText.Of(name)}=export\"", $"\"{SafeText.Of(name)}=ignore\"");

    private MeterRole? RoleOf(string name)
    {
        foreach ((string key, MeterRole role) in options.Roles)
            if (string.Equals(key.Trim(), name.Trim(), StringComparison.OrdinalIgnoreCase)) return role;
        return null;
    }

    private int MeterColumn()
    {
        ColumnProfile? column = _free.Find(c => c.Distinct is { Count: > 1 and <= 20 } && (c.IsText || c.IsWhole) && HeaderWords.IsMeter(c.Header)
            && !HeaderWords.IsRegister(c.Header) && c.Distinct.Max(t => t.Length) <= 40 && !c.Distinct.Any(t => HeaderWords.IsExport(t) || HeaderWords.IsOtherService(t)));
        if (column is null) return -1;
        string[] meters = [.. column.Distinct!];
        if (options.Meter is null)
        {
            rows.Ask("--meter", $"The column \"{SafeText.Of(column.Header)}\" names {meters.Length} meters; which is wanted?", [.. meters.Select(SafeText.Of), "sum"]);
            return column.Index;
        }
        if (options.Meter != "sum" && !meters.Contains(options.Meter, StringComparer.OrdinalIgnoreCase))
            throw new ArgumentException($"--meter {options.Meter}: the file has {string.Join(", ", meters.Select(SafeText.Of))}.");
        rows.Found("meter", options.Meter == "sum" ? $"the sum of {meters.Length}" : options.Meter, "as asked", 1);
        return column.Index;
    }

    private int QualityColumn(int direction, int unit) =>
        _free.Find(c => (c.IsText || (c.Cells > 0 && c.Cells == c.Blanks)) && c.Index != direction && c.Index != unit && HeaderWords.IsQuality(c.Header))?.Index
        ?? _free.Find(c => c.IsText && c.Distinct is { Count: > 0 and <= 8 } d && d.All(t => t.Length <= 2 || HeaderWords.IsEstimate(t) || t.StartsWith("act", StringComparison.OrdinalIgnoreCase)) && d.Any(HeaderWords.IsEstimate))?.Index
        ?? -1;

    private List<ValueColumn> Columns(bool hasDirection)
    {
        var named = new List<ValueColumn>();
        foreach (ColumnProfile c in _free)
            if (RoleOf(c.Header) is MeterRole role and not MeterRole.Ignore)
                named.Add(Value(c, role switch { MeterRole.Export => MeterFlow.Export, MeterRole.Net => MeterFlow.Net, _ => MeterFlow.Import }));
        if (named.Count > 0)
        {
            rows.Found("channels", string.Join(", ", named.Select(Text)), "as said", 1);
            return named;
        }
        if (options.Roles.Count > 0 && options.Roles.Keys.FirstOrDefault(k => !_free.Exists(c => Is(c.Header, k)) && !_free.Exists(c => c.Distinct?.Any(d => Is(d, k)) == true)) is string unknown)
            throw new ArgumentException($"--role {unknown}: the file has no such column{Nearest.Hint(unknown, _free.Select(c => c.Header))}.");
        return Choose(Candidates(), hasDirection);
    }

    private static bool Is(string a, string b) => string.Equals(a.Trim(), b.Trim(), StringComparison.OrdinalIgnoreCase);

    private List<ColumnProfile> Candidates()
    {
        List<ColumnProfile> list =
        [
            .. _free.Where(c => c.IsNumber && RoleOf(c.Header) is not MeterRole.Ignore && !HeaderWords.IsMoney(c.Header) && !HeaderWords.IsOtherQuantity(c.Header)
                && !(HeaderWords.IsOtherService(c.Header) && !c.Header.Contains("electric", StringComparison.OrdinalIgnoreCase))),
        ];
        Narrow(list, c => !HeaderWords.IsMeter(c.Header) || UnitWord.In(c.Header) is not null || HeaderWords.IsRegister(c.Header));
        Narrow(list, c => !(c.IsWhole && c.Distinct?.Count == 1) || UnitWord.In(c.Header) is not null);
        Narrow(list, c => !HeaderWords.IsTotal(c.Header.Trim()));
        Narrow(list, c => !c.IsMark || UnitWord.In(c.Header) is not null);
        Narrow(list, c => UnitWord.In(c.Header) is not null);
        Narrow(list, c => UnitWord.In(c.Header) is null or MeterUnit.Wh or MeterUnit.KWh or MeterUnit.MWh);
        // A register beside the energy of the interval tells the same once more.
        Narrow(list, c => !HeaderWords.IsRegister(c.Header));
        return list;
    }

    // Leaves out what does not fit, unless nothing would be left.
    private static void Narrow(List<ColumnProfile> list, Predicate<ColumnProfile> fits)
    {
        if (list.Exists(fits)) list.RemoveAll(c => !fits(c));
    }

    private List<ValueColumn> Choose(List<ColumnProfile> list, bool hasDirection)
    {
        if (list.Count == 0) return [];
        ColumnProfile[] exports = [.. list.Where(c => HeaderWords.IsExport(c.Header))];
        ColumnProfile[] makes = [.. list.Where(c => HeaderWords.IsGeneration(c.Header))];
        ColumnProfile[] rest = [.. list.Except(exports).Except(makes)];
        if (rest.Length > 1) rest = Narrowed(rest, c => !HeaderWords.IsNet(c.Header) || exports.Length == 0);
        if (rest.Length > 1) rest = Narrowed(rest, c => HeaderWords.IsImport(c.Header));
        if (rest.Length > 1) rest = Narrowed(rest, c => HeaderWords.IsWhole(c.Header));
        if (hasDirection && list.Count >= 1)
        {
            ColumnProfile only = rest.Length > 0 ? rest[0] : list[0];
            rows.Found("channels", "each row says which way its energy went", $"the column of directions; amounts in \"{SafeText.Of(only.Header)}\"", 0.95);
            return [Value(only, MeterFlow.Import)];
        }
        if (options.IsSolarRecord && (makes.Length == 1 || list.Count == 1))
        {
            ColumnProfile record = makes.Length == 1 ? makes[0] : list[0];
            rows.Found("channels", $"solar \"{SafeText.Of(record.Header)}\"", "the file is given as the solar record", 0.95);
            return [Value(record, MeterFlow.Import)];
        }
        if (rest.Length > 1 || exports.Length > 1 || (makes.Length > 0 && (exports.Length == 0 || rest.Length == 0)))
        {
            AskColumns(list, makes, rest, exports);
            return [.. rest.Take(1).Concat(exports.Take(1)).DefaultIfEmpty(list[0]).Select(c => Value(c, MeterFlow.Import))];
        }
        var found = new List<ValueColumn>();
        foreach (ColumnProfile c in rest) found.Add(Value(c, HeaderWords.IsNet(c.Header) && exports.Length == 0 ? MeterFlow.Net : MeterFlow.Import));
        foreach (ColumnProfile c in exports) found.Add(Value(c, MeterFlow.Export));
        string left = list.Count > found.Count ? $"; not used: {string.Join(", ", list.Where(c => found.TrueForAll(f => f.Column != c.Index)).Take(5).Select(c => $"\"{SafeText.Of(c.Header)}\""))}" : "";
        rows.Found("channels", string.Join(", ", found.Select(Text)), "headers" + left, left.Length > 0 ? 0.85 : 0.95);
        return found;
    }

    private static ColumnProfile[] Narrowed(ColumnProfile[] columns, Predicate<ColumnProfile> fits) =>
        Array.Exists(columns, fits) ? Array.FindAll(columns, fits) : columns;

    private void AskColumns(List<ColumnProfile> list, ColumnProfile[] makes, ColumnProfile[] rest, ColumnProfile[] exports)
    {
        if (rest.Length == 1 && exports.Length == 0 && makes.Length == 1)
        {
            string import = SafeText.Of(rest[0].Header), made = SafeText.Of(makes[0].Header);
            rows.Ask("--role", $"\"{made}\" may be what was sold to the grid, or all that the roof gave; which is it?",
                $"\"{import}=import\" --role \"{made}=export\"", $"\"{import}=import\" --role \"{made}=ignore\"");
            return;
        }
        string names = string.Join(", ", list.Take(8).Select(c => $"\"{SafeText.Of(c.Header)}\"")) + (list.Count > 8 ? ", …" : "");
        rows.Ask("--role", $"Several columns hold amounts ({names}); which is what was bought?", [.. list.Take(4).Select(c => $"\"{SafeText.Of(c.Header)}=import\"")]);
    }

    private static ValueColumn Value(ColumnProfile column, MeterFlow flow) => new(column.Index, column.Header, flow, UnitWord.In(column.Header));

    private static string Text(ValueColumn c) =>
        $"{(c.Flow switch { MeterFlow.Export => "export", MeterFlow.Net => "net", _ => "import" })} \"{SafeText.Of(c.Header)}\"";

    private bool Decimal(int[] cells)
    {
        if (options.DecimalComma is bool stated)
        {
            rows.Found("decimal mark", stated ? "comma" : "point", "as said", 1);
            return stated;
        }
        if (DecimalMark.Of(table, cells) is not (bool isComma, string ground))
        {
            rows.Ask("--decimal", "Every number has one comma before three digits: is it the decimal mark, or does it stand between thousands?", "comma", "point");
            return false;
        }
        rows.Found("decimal mark", isComma ? "comma" : "point", ground, isComma ? 0.95 : 1);
        return isComma;
    }

    private bool IsRegister(List<ValueColumn> columns)
    {
        if (options.IsRegister is bool stated) return stated;
        if (stamps.Kind == StampKind.Wide) return false;
        return RegisterRows.LooksLike(table, columns[0].Column, new NumberText(IsDecimalComma(columns)), HeaderWords.IsRegister(columns[0].Header));
    }

    private bool IsDecimalComma(List<ValueColumn> columns) => options.DecimalComma ?? DecimalMark.Of(table, [columns[0].Column])?.IsComma ?? false;
}
