using System.Globalization;
using System.Text.Json;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Tests.Homes;

/// <summary>Reads the tariff of a case.json (a test format of the random homes, not the product's tariff file).</summary>
internal static class CaseTariff
{
    public static (Tariff Tariff, Account Account) Read(JsonElement definition)
    {
        JsonElement t = definition.GetProperty("tariff");
        var keys = t.EnumerateObject().ToDictionary(p => p.Name, p => p.Value);
        var versions = new List<TariffVersion> { Version(keys) };
        if (t.TryGetProperty("later", out JsonElement later))
            foreach (JsonElement change in later.EnumerateArray())
            {
                foreach (JsonProperty property in change.EnumerateObject()) keys[property.Name] = property.Value;
                TariffVersion next = Version(keys);
                versions.Add(change.TryGetProperty("export", out _) ? next : next with { Export = versions[^1].Export });
            }
        var tariff = new Tariff
        {
            Name = "random",
            Zone = DateTimeZoneProviders.Tzdb[t.GetProperty("zone").GetString()!],
            Versions = versions,
        };
        var account = new Account
        {
            ReadDates = t.TryGetProperty("reads", out JsonElement reads) ? [.. reads.EnumerateArray().Select(r => Date(r.GetString()!))] : [],
            Anniversary = t.GetProperty("export").TryGetProperty("anniversary", out JsonElement anniversary) ? Date(anniversary.GetString()!) : null,
        };
        return (tariff, account);
    }

    private static TariffVersion Version(Dictionary<string, JsonElement> t)
    {
        string[] periods = [.. t["periods"].EnumerateArray().Select(p => p.GetProperty("period").GetString()!).Distinct()];
        return new TariffVersion
        {
            Effective = Date(t["effective"].GetString()!),
            Seasons = t.TryGetValue("seasons", out JsonElement seasons)
                ? [.. seasons.EnumerateObject().Select(s => new Season(s.Name, Day(s.Value[0]), Day(s.Value[1])))]
                : [],
            Holidays = t.TryGetValue("holidays", out JsonElement holidays) ? [.. holidays.EnumerateArray().Select(Holiday)] : [],
            Periods = [.. t["periods"].EnumerateArray().Select(p => new PeriodRule(p.GetProperty("period").GetString()!)
            {
                Season = Text(p, "season"),
                Days = Days(p),
                Window = Window(p),
            })],
            EnergyPrices = [.. t["prices"].EnumerateObject().Select(p => new EnergyPrice
            {
                Season = p.Name == "*" ? null : p.Name.Split('/')[0],
                Period = p.Name == "*" ? null : p.Name.Split('/')[1],
                Parts = Parts(p.Value),
            })],
            NeverOffsetPart = t.TryGetValue("never_offset", out JsonElement never) ? never.GetString() : null,
            FixedPerDay = t.TryGetValue("fixed_day", out JsonElement day) ? Money(day) : 0,
            FixedPerMonth = t.TryGetValue("fixed_month", out JsonElement month) ? Money(month) : 0,
            FixedPerMonthByDays = t.TryGetValue("fixed_month_by", out JsonElement by) && by.ValueKind == JsonValueKind.String,
            Tiers = t.TryGetValue("tiers", out JsonElement tiers) ? TiersOf(tiers) : null,
            Minimum = t.TryGetValue("minimum", out JsonElement m)
                ? new MinimumBill(m.TryGetProperty("per_bill", out JsonElement b) ? Money(b) : 0, m.TryGetProperty("per_day", out JsonElement d) ? Money(d) : 0, Names(m, "counts"))
                : null,
            Percentages = t.TryGetValue("percent", out JsonElement percent)
                ? [.. percent.EnumerateArray().Select(p => new Percentage(p.GetProperty("name").GetString()!, Money(p.GetProperty("rate")), Names(p, "of")))]
                : [],
            Demand = t.TryGetValue("demand", out JsonElement demand) ? [.. demand.EnumerateArray().Select(Demand)] : [],
            Events = t.TryGetValue("events", out JsonElement events)
                ? new EventCharge([.. events.GetProperty("dates").EnumerateArray().Select(e => Date(e.GetString()!))], Money(events.GetProperty("adder")), Window(events))
                : null,
            Export = Export(t["export"]),
            MeterMinutes = t.TryGetValue("meter_minutes", out JsonElement meter) && meter.ValueKind == JsonValueKind.Number ? meter.GetInt32() : null,
            NetsInsideMeterInterval = t.TryGetValue("netted", out JsonElement netted) && netted.ValueKind == JsonValueKind.True,
        };
    }

    private static ExportTerms Export(JsonElement e) => e.GetProperty("regime").GetString() switch
    {
        "none" => new ExportTerms.Nothing(),
        "retail-1" or "retail-2" => new ExportTerms.RetailNetting(
            e.GetProperty("regime").GetString() == "retail-2",
            Text(e, "settlement") == "carry" ? Settlement.Carry : Settlement.Year,
            e.TryGetProperty("surplus_rate", out JsonElement surplus) ? Money(surplus) : 0),
        "net-billing" => new ExportTerms.NetBilling
        {
            Prices = [.. e.GetProperty("table").EnumerateObject().Select(TableEntry)],
            Pays = e.TryGetProperty("pays", out JsonElement pays)
                ? [.. pays.EnumerateObject().Select(p => new CreditUse(p.Name, [.. p.Value.EnumerateArray().Select(k => k.GetString()!)]))]
                : [],
            CashOutFraction = e.TryGetProperty("cash_out", out JsonElement cash) ? Money(cash) : null,
            YearEnd = Text(e, "year_end") == "roll" ? LeftOver.RollsOver : LeftOver.Lapses,
        },
        "monthly" => new ExportTerms.MonthlyNetting(
            Text(e, "surplus") == "roll" ? null : e.TryGetProperty("price", out JsonElement price) ? Money(price) : 0,
            e.TryGetProperty("across", out JsonElement across) && across.GetBoolean(),
            e.TryGetProperty("cash_out", out JsonElement paid) ? Money(paid) : 0),
        "two-way" => new ExportTerms.TwoWay
        {
            ChargeWindow = Window(e.GetProperty("charge")),
            ChargePerKwh = Money(e.GetProperty("charge").GetProperty("price")),
            FreeKwhPerBill = e.GetProperty("charge").TryGetProperty("free_per_bill", out JsonElement bill) ? bill.GetDouble() : 0,
            FreeKwhPerDay = e.GetProperty("charge").TryGetProperty("free_per_day", out JsonElement day) ? day.GetDouble() : 0,
            RewardWindow = Window(e.GetProperty("reward")),
            RewardPerKwh = Money(e.GetProperty("reward").GetProperty("price")),
            AnyTimePerKwh = e.TryGetProperty("rate", out JsonElement rate) ? Money(rate) : null,
        },
        "sell-all" => new ExportTerms.SellAll(Money(e.GetProperty("price"))),
        var other => throw new FormatException(other),
    };

    private static ExportPrice TableEntry(JsonProperty entry)
    {
        if (entry.Name == "*") return new ExportPrice { Parts = Parts(entry.Value) };
        string[] key = entry.Name.Split('/');
        return new ExportPrice
        {
            Month = int.Parse(key[0], CultureInfo.InvariantCulture),
            Hour = int.Parse(key[1], CultureInfo.InvariantCulture),
            Day = key[2] == "*" ? null : DayOf(key[2]),
            Parts = Parts(entry.Value),
        };
    }

    private static Tiers TiersOf(JsonElement t) => new()
    {
        AllowanceKwhPerBill = t.TryGetProperty("per_bill", out JsonElement bill) ? bill.GetDouble() : null,
        AllowanceKwhPerDay = t.TryGetProperty("per_day", out JsonElement day) ? day.EnumerateObject().ToDictionary(d => d.Name, d => d.Value.GetDouble()) : null,
        Steps = t.TryGetProperty("steps", out JsonElement steps)
            ? [.. steps.EnumerateArray().Select(s => s[1].ValueKind == JsonValueKind.Object
                ? new TierStep(s[0].GetDouble(), null, s[1].EnumerateObject().ToDictionary(p => p.Name, p => Money(p.Value)))
                : new TierStep(s[0].GetDouble(), Money(s[1])))]
            : [],
        CreditPerKwh = t.TryGetProperty("credit", out JsonElement credit) ? Money(credit) : null,
    };

    private static DemandCharge Demand(JsonElement d)
    {
        JsonElement price = d.GetProperty("price");
        return new DemandCharge
        {
            Name = d.GetProperty("name").GetString()!,
            Minutes = d.GetProperty("minutes").GetInt32(),
            PricePerKw = price.ValueKind == JsonValueKind.Object ? null : Money(price),
            PriceBySeason = price.ValueKind == JsonValueKind.Object ? price.EnumerateObject().ToDictionary(p => p.Name, p => Money(p.Value)) : null,
            Season = Text(d, "season"),
            Days = Days(d),
            Window = Window(d),
            RatchetFraction = d.TryGetProperty("ratchet", out JsonElement ratchet) ? ratchet[0].GetDouble() : 0,
            RatchetBills = d.TryGetProperty("ratchet", out ratchet) ? ratchet[1].GetInt32() : 0,
            CapKw = d.TryGetProperty("cap", out JsonElement cap) ? cap.GetDouble() : null,
            EarlierMeasuredKw = d.TryGetProperty("measured", out JsonElement measured) ? [.. measured.EnumerateArray().Select(m => m.GetDouble())] : [],
            EarlierBilledKw = d.TryGetProperty("billed", out JsonElement billed) ? [.. billed.EnumerateArray().Select(m => m.GetDouble())] : [],
        };
    }

    private static HolidayRule Holiday(JsonElement h)
    {
        if (h.ValueKind == JsonValueKind.String) return new HolidayRule.OnDate(Date(h.GetString()!));
        if (h.TryGetProperty("nth", out JsonElement nth))
            return new HolidayRule.Nth(nth[0].GetInt32(), nth[1].GetInt32(), (IsoDayOfWeek)(nth[2].GetInt32() + 1));
        return new HolidayRule.Fixed(Day(h.GetProperty("on")), Text(h, "move") switch
        {
            "nearest" => HolidayMove.Nearest,
            "monday" => HolidayMove.Monday,
            _ => HolidayMove.None,
        });
    }

    private static IReadOnlyList<PricePart> Parts(JsonElement parts) => [.. parts.EnumerateObject().Select(p => new PricePart(p.Name, Money(p.Value)))];

    private static IReadOnlyList<string> Names(JsonElement at, string name) =>
        at.TryGetProperty(name, out JsonElement names) ? [.. names.EnumerateArray().Select(n => n.GetString()!)] : [];

    private static IReadOnlyList<DayType> Days(JsonElement at) =>
        at.TryGetProperty("days", out JsonElement days) ? [.. days.EnumerateArray().Select(d => DayOf(d.GetString()!))] : [];

    private static DayType DayOf(string name) => Enum.Parse<DayType>(name, ignoreCase: true);

    private static ClockWindow Window(JsonElement at) => at.TryGetProperty("from", out JsonElement from)
        ? new ClockWindow(Minute(from.GetString()!), Minute(at.GetProperty("to").GetString()!))
        : ClockWindow.WholeDay;

    private static int Minute(string text) => ClockWindow.TryParseMinute(text, out int minute) ? minute : throw new FormatException(text);

    private static MonthDay Day(JsonElement text) => MonthDay.TryParse(text.GetString(), out MonthDay day) ? day : throw new FormatException(text.GetString());

    private static LocalDate Date(string text) => LocalDatePattern.Iso.Parse(text).Value;

    private static string? Text(JsonElement at, string name) => at.TryGetProperty(name, out JsonElement value) ? value.GetString() : null;

    private static decimal Money(JsonElement value) => value.ValueKind == JsonValueKind.String
        ? decimal.Parse(value.GetString()!, CultureInfo.InvariantCulture)
        : value.GetDecimal();
}
