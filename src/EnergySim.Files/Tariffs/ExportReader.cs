using System.Globalization;
using EnergySim.Tariffs;
using EnergySim.Time;

namespace EnergySim.Files;

/// <summary>Reads what exported energy earns.</summary>
internal sealed class ExportReader(YamlMap version, TariffNames names)
{
    private const int Months = 12;
    private const int Hours = 24;

    public ExportTerms Read(string? neverOffsetPart)
    {
        if (!version.Has("export")) return new ExportTerms.Nothing();
        if (version.Map("export", null) is not YamlMap any) return new ExportTerms.Nothing();
        if (!any.Has("terms")) any.ReportHere("terms is missing");
        switch (any.Word("terms"))
        {
            case "retail-netting": return RetailNetting(version.Map("export", TariffSections.RetailNetting)!, neverOffsetPart);
            case "net-billing": return NetBilling(version.Map("export", TariffSections.NetBilling)!);
            case "monthly-netting": return MonthlyNetting(version.Map("export", TariffSections.MonthlyNetting)!);
            case "two-way": return TwoWay(version.Map("export", TariffSections.TwoWay)!);
            case "sell-all": return new ExportTerms.SellAll(version.Map("export", TariffSections.SellAll)!.Money("price") ?? 0);
            default:
                any.Text("terms")?.Choice(
                    ("nothing", 0), ("retail-netting", 0), ("net-billing", 0), ("monthly-netting", 0), ("two-way", 0), ("sell-all", 0));
                if (any.Word("terms") == "nothing") version.Map("export", TariffSections.Nothing);
                return new ExportTerms.Nothing();
        }
    }

    private static ExportTerms.RetailNetting RetailNetting(YamlMap map, string? neverOffsetPart)
    {
        bool onImport = map.Flag("neverOffsetOnImport", false);
        if (onImport && neverOffsetPart is null) map.ReportWhole("neverOffsetOnImport", "the tariff names no neverOffsetPart");
        Settlement settlement = map.Text("settlement")?.Choice(("year", Settlement.Year), ("carry", Settlement.Carry)) ?? Settlement.Year;
        if (settlement == Settlement.Year && map.Has("creditLastsBills")) map.ReportWhole("creditLastsBills", "with settlement year a credit is not kept by bills");
        return new ExportTerms.RetailNetting(onImport, settlement, map.Money("surplusPrice") ?? 0, LastsBills(map));
    }

    private static ExportTerms.MonthlyNetting MonthlyNetting(YamlMap map)
    {
        decimal? surplus = map.Money("surplusPrice");
        if (surplus is not null && map.Has("cashOutPrice")) map.ReportHere("surplusPrice pays each bill's surplus, so cashOutPrice has nothing left to pay");
        if (surplus is not null && map.Has("creditLastsBills")) map.ReportHere("surplusPrice pays each bill's surplus, so creditLastsBills has nothing left to keep");
        return new(surplus, map.Flag("acrossPeriods", false), map.Money("cashOutPrice") ?? 0, LastsBills(map));
    }

    private static int? LastsBills(YamlMap map) => map.Text("creditLastsBills")?.Whole(0);

    private static ExportTerms.TwoWay TwoWay(YamlMap map)
    {
        YamlMap? charge = map.Map("charge", TariffSections.ExportCharge);
        YamlMap? reward = map.Map("reward", TariffSections.ExportReward);
        return new ExportTerms.TwoWay
        {
            ChargeWindow = charge?.Window() ?? ClockWindow.WholeDay,
            ChargePerKwh = charge?.Money("price", false) ?? 0,
            FreeKwhPerBill = charge?.Number("freeKwhPerBill", Bounds.NotNegative) ?? 0,
            FreeKwhPerDay = charge?.Number("freeKwhPerDay", Bounds.NotNegative) ?? 0,
            RewardWindow = reward?.Window() ?? ClockWindow.WholeDay,
            RewardPerKwh = reward?.Money("price", false) ?? 0,
            AnyTimePerKwh = map.Money("anyTimePrice"),
        };
    }

    private ExportTerms.NetBilling NetBilling(YamlMap map)
    {
        if (map.Text("hours") is YamlText hours) return ByTheHour(map, hours);
        int before = version.Reported;
        List<ExportPrice> prices = [.. map.Maps("prices", TariffSections.ExportPrice).Select(Price)];
        prices.AddRange(Tables(map));
        if (!map.Has("prices") && !map.Has("tables")) map.ReportHere("prices, tables or hours is missing");
        else if (version.Reported == before && !CoverEveryHour(prices)) map.ReportHere("the prices do not cover every hour; add one without selectors for the rest");
        // A selector that could not be read would show here as a second price for the rest.
        bool sound = version.Reported == before;
        foreach (var same in prices.GroupBy(p => (p.Month, p.Hour, p.Day, p.Season, p.Period)).Where(g => sound && g.Count() > 1))
        {
            map.ReportHere(string.Create(CultureInfo.InvariantCulture,
                $"two prices hold for {string.Join(", ", Selectors(same.First()).DefaultIfEmpty("the rest"))}"));
            break;
        }
        return Credit(map, prices.SelectMany(p => p.Parts).Select(p => p.Part)) with { Prices = prices };
    }

    private ExportTerms.NetBilling ByTheHour(YamlMap map, YamlText file)
    {
        if (map.Has("prices") || map.Has("tables")) map.ReportHere("hours hold every price; prices and tables have nothing left to say");
        ExportHours? hours = ExportHoursReader.Read(Path.Combine(Path.GetDirectoryName(map.File) ?? "", file.Value), map.Problems);
        return Credit(map, hours?.Parts ?? []) with { Hours = hours };
    }

    private ExportTerms.NetBilling Credit(YamlMap map, IEnumerable<string> priceParts)
    {
        string[] parts = [.. priceParts.Distinct(), "*"];
        var kinds = new ChargesReader(version, names);
        return new ExportTerms.NetBilling
        {
            Prices = [],
            Pays = [.. map.Maps("pays", TariffSections.CreditUse).Select(use => new CreditUse(
                use.Text("part")?.Name("part of these prices", parts) ?? "", kinds.KindsPaid(use)))],
            CreditLastsBills = LastsBills(map),
            CashOutFraction = map.Text("cashOut")?.Share(Bounds.Share) is double share ? (decimal)share : null,
            YearEnd = map.Text("yearEnd")?.Choice(("lapses", LeftOver.Lapses), ("rolls-over", LeftOver.RollsOver)) ?? LeftOver.Lapses,
        };
    }

    private ExportPrice Price(YamlMap map)
    {
        var price = new ExportPrice
        {
            Month = map.Text("month")?.Whole(1, Months),
            Hour = map.Text("hour")?.Whole(0, Hours - 1),
            Day = VersionReader.DayIn(map.Text("day")),
            Season = map.Text("season")?.Name("season of this tariff", names.Seasons),
            Period = map.Text("period")?.Name("period of this tariff", names.Periods),
            Parts = VersionReader.PriceIn(map),
        };
        string[] selectors = ["month", "hour", "day", "season", "period"];
        string used = string.Join(' ', selectors.Where(map.Has));
        if (used is not ("" or "month hour" or "month hour day" or "season period" or "period"))
            map.ReportHere("a price is for month and hour (and day), for season and period, for a period, or for the rest");
        return price;
    }

    // Tables of month × hour; those of one kind of day add their parts to the same prices.
    private static IEnumerable<ExportPrice> Tables(YamlMap map)
    {
        var cells = new Dictionary<(int Month, int Hour, DayType? Day), List<PricePart>>();
        foreach (YamlMap table in map.Maps("tables", TariffSections.ExportTable))
        {
            DayType? day = VersionReader.DayIn(table.Text("day"));
            string part = table.Word("part", VersionReader.OnlyPart);
            IReadOnlyList<IReadOnlyList<YamlText>> months = table.Rows("months");
            if (months.Count != Months || months.Any(m => m.Count != Hours))
            {
                table.ReportWhole("months", "a table has 12 lists, January first, of 24 prices, midnight first");
                continue;
            }
            for (int month = 0; month < Months; month++)
                for (int hour = 0; hour < Hours; hour++)
                {
                    if (!cells.TryGetValue((month + 1, hour, day), out List<PricePart>? parts)) cells[(month + 1, hour, day)] = parts = [];
                    if (month + hour == 0 && parts.Any(p => p.Part == part)) table.ReportHere($"two tables hold part {part} of the same days");
                    parts.Add(new PricePart(part, months[month][hour].Money() ?? 0));
                }
        }
        return cells.Select(c => new ExportPrice { Month = c.Key.Month, Hour = c.Key.Hour, Day = c.Key.Day, Parts = c.Value });
    }

    private bool CoverEveryHour(List<ExportPrice> prices)
    {
        bool Rest(ExportPrice p) => p is { Month: null, Hour: null, Day: null, Season: null, Period: null };
        if (prices.Any(Rest)) return true;
        if (names.Seasons.All(s => names.Periods.All(p => !names.Occurs(s, p) || prices.Any(x => x.Period == p && (x.Season is null || x.Season == s))))) return true;
        HashSet<(int?, int?, DayType?)> cells = [.. prices.Select(p => (p.Month, p.Hour, p.Day))];
        for (int month = 1; month <= Months; month++)
            for (int hour = 0; hour < Hours; hour++)
                if (!cells.Contains((month, hour, null)) && !(cells.Contains((month, hour, DayType.Weekday)) && cells.Contains((month, hour, DayType.Weekend))))
                    return false;
        return true;
    }

    private static IEnumerable<string> Selectors(ExportPrice price)
    {
        if (price.Month is int month) yield return string.Create(CultureInfo.InvariantCulture, $"month {month}");
        if (price.Hour is int hour) yield return string.Create(CultureInfo.InvariantCulture, $"hour {hour}");
        if (price.Day is DayType day) yield return day.ToString().ToLowerInvariant();
        if (price.Season is string season) yield return season;
        if (price.Period is string period) yield return period;
    }
}
