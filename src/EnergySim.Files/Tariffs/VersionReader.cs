using System.Globalization;
using EnergySim.Tariffs;
using EnergySim.Time;

namespace EnergySim.Files;

/// <summary>Reads one version of a tariff: its calendar and its prices.</summary>
internal sealed class VersionReader
{
    private readonly YamlMap _map;

    private VersionReader(YamlMap map) => _map = map;

    private List<string> SeasonNames { get; } = [];

    private List<string> PeriodNames { get; } = [];

    /// <summary>Reads a version; what does not fit is reported and left at a default.</summary>
    public static TariffVersion Read(YamlMap map) => new VersionReader(map).Read();

    private TariffVersion Read()
    {
        int before = _map.Reported;
        IReadOnlyList<Season> seasons = Seasons();
        IReadOnlyList<PeriodRule> periods = [.. _map.Maps("periods", TariffSections.Period).Select(Period)];
        PeriodNames.AddRange(periods.Select(p => p.Period).Where(p => p.Length > 0).Distinct());
        IReadOnlyList<EnergyPrice> prices = [.. _map.Maps("energy", TariffSections.Energy).Select(Energy)];
        AskSameSelectors(prices);
        bool sound = _map.Reported == before;
        YamlMap? flat = _map.Map("fixed", TariffSections.Fixed);
        var names = new TariffNames(SeasonNames, PeriodNames, periods, [.. prices.SelectMany(p => p.Parts).Select(p => p.Part).Distinct()]);
        var charges = new ChargesReader(_map, names);
        IReadOnlyList<Percentage> percentages = charges.Percentages();
        string? neverOffset = _map.Text("neverOffsetPart")?.Name("price part of this tariff", names.Parts);
        var version = new TariffVersion
        {
            Effective = _map.Text("effective")?.Date() ?? default,
            Seasons = seasons,
            Holidays = [.. _map.Maps("holidays", TariffSections.Holiday).Select(HolidayReader.Read).OfType<HolidayRule>()],
            Periods = periods,
            EnergyPrices = prices,
            NeverOffsetPart = neverOffset,
            FixedPerDay = flat?.Money("perDay") ?? 0,
            FixedPerMonth = flat?.Money("perMonth") ?? 0,
            FixedPerMonthByDays = flat?.Flag("byDays", false) ?? false,
            Tiers = charges.Tiers(),
            Minimum = charges.Minimum(),
            Percentages = percentages,
            Demand = charges.Demand(),
            Events = charges.Events(),
            Rounding = charges.Rounding(),
            Export = new ExportReader(_map, names).Read(neverOffset),
            MeterMinutes = _map.Text("meterMinutes")?.StepMinutes(),
            NetsInsideMeterInterval = _map.Flag("netsInsideMeterInterval", false),
        };
        // Faults of the calendar's parts would show as gaps that nobody left.
        if (sound) ReportCoverage(version);
        return version;
    }

    private List<Season> Seasons()
    {
        var seasons = new List<Season>();
        if (_map.Map("seasons", null) is YamlMap map)
            foreach (string name in map.Keys)
            {
                SeasonNames.Add(name);
                if (map.Text(name) is not YamlText text) continue;
                string[] ends = text.Value.Split(" to ");
                if (ends.Length == 2 && MonthDay.TryParse(ends[0].Trim(), out MonthDay from) && MonthDay.TryParse(ends[1].Trim(), out MonthDay to))
                    seasons.Add(new Season(name, from, to));
                else
                    text.Report("is no season; write MM-DD to MM-DD");
            }
        if (SeasonNames.Count == 0) SeasonNames.Add(TariffVersion.WholeYear);
        return seasons;
    }

    private PeriodRule Period(YamlMap map) => new(map.Name("period"))
    {
        Season = SeasonIn(map),
        Days = DaysIn(map),
        Window = map.Window(),
    };

    private EnergyPrice Energy(YamlMap map) => new()
    {
        Season = SeasonIn(map),
        Period = map.Text("period")?.Name("period of this tariff", PeriodNames),
        Parts = PriceIn(map),
    };

    private string? SeasonIn(YamlMap map) => map.Text("season")?.Name("season of this tariff", SeasonNames);

    /// <summary>The kinds of day under the key <c>days</c>.</summary>
    internal static IReadOnlyList<DayType> DaysIn(YamlMap map)
    {
        var days = new List<DayType>();
        foreach (YamlText text in map.Texts("days"))
            if (DayIn(text) is DayType day)
            {
                if (days.Contains(day)) text.Report("stands twice");
                days.Add(day);
            }
        return days;
    }

    internal static DayType? DayIn(YamlText? text) =>
        text?.Choice(("weekday", DayType.Weekday), ("weekend", DayType.Weekend), ("holiday", DayType.Holiday), ("event", DayType.Event));

    /// <summary>The key <c>price</c>: a number, whose part is called energy, or parts by name.</summary>
    internal static IReadOnlyList<PricePart> PriceIn(YamlMap map)
    {
        if (!map.IsMap("price")) return [new PricePart(OnlyPart, map.Money("price") ?? 0)];
        YamlMap parts = map.Map("price", null)!;
        if (!parts.Keys.Any()) map.ReportWhole("price", "names no part");
        return [.. parts.Keys.Select(part => new PricePart(part, parts.Money(part) ?? 0))];
    }

    /// <summary>Name of the only part of a price.</summary>
    internal const string OnlyPart = "energy";

    private void AskSameSelectors(IReadOnlyList<EnergyPrice> prices)
    {
        foreach (IGrouping<(string?, string?), EnergyPrice> same in prices.GroupBy(p => (p.Season, p.Period)).Where(g => g.Count() > 1))
            _map.ReportWhole("energy", $"{same.Key.Item1 ?? "any season"} and {same.Key.Item2 ?? "any period"} have two prices");
    }

    private void ReportCoverage(TariffVersion version)
    {
        if (_map.Has("periods") && version.Periods.Count == 0) _map.ReportWhole("periods", "there is no period");
        if (version.Periods.Count == 0) return;
        foreach (CoverageFinding finding in PeriodCoverage.Of(version))
        {
            string time = finding.Minute is int minute ? string.Create(CultureInfo.InvariantCulture, $"{minute / 60:00}:{minute % 60:00}") : "";
            string where = $"a {finding.DayType?.ToString().ToLowerInvariant()} in season {finding.Season}";
            switch (finding.Fault)
            {
                case CoverageFault.DayWithoutSeason:
                    _map.ReportWhole("seasons", $"{finding.Day} is in no season");
                    break;
                case CoverageFault.DayInTwoSeasons:
                    _map.ReportWhole("seasons", $"{finding.Day} is in two seasons, {finding.Names[0]} and {finding.Names[1]}");
                    break;
                case CoverageFault.MinuteWithoutPeriod:
                    _map.ReportWhole("periods", $"on {where} the minute {time} is in no period");
                    break;
                case CoverageFault.MinuteInTwoPeriods:
                    _map.ReportWhole("periods", $"on {where} the minute {time} is in two periods, {finding.Names[0]} and {finding.Names[1]}");
                    break;
                default:
                    _map.ReportWhole("energy", $"period {finding.Names[0]} has no price in season {finding.Season}");
                    break;
            }
        }
    }
}

/// <summary>The names that a version's charges may refer to.</summary>
internal sealed record TariffNames(
    IReadOnlyList<string> Seasons, IReadOnlyList<string> Periods, IReadOnlyList<PeriodRule> Rules, IReadOnlyList<string> Parts)
{
    /// <summary>True when the period can occur in the season.</summary>
    public bool Occurs(string season, string period) => Rules.Any(r => r.Period == period && (r.Season ?? season) == season);
}
