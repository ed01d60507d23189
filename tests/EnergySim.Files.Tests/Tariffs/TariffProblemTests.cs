namespace EnergySim.Files.Tests.Tariffs;

/// <summary>One bad file a rule: a sound file with one line changed, and the whole message.</summary>
public sealed class TariffProblemTests : IDisposable
{
    private const string Sound = """
        name: Plain
        zone: America/New_York
        effective: 2025-01-01
        seasons:
          summer: 06-01 to 09-30
          winter: 10-01 to 05-31
        periods:
          - { period: peak, days: [weekday], from: 16:00, to: 21:00 }
          - { period: base, days: [weekday], from: 21:00, to: 16:00 }
          - { period: base, days: [weekend] }
        energy:
          - { period: peak, price: 0.3 }
          - { price: 0.1 }
        fixed: { perDay: 0.5 }

        """;

    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Read_SoundFile_HasNoProblem() => Assert.NotNull(TariffFile.Read(_folder.Write("t.yaml", Sound)));

    [Theory]
    [InlineData("name: Plain", "nam: Plain", "line 1 column 1: \"nam\" is not a key here; the nearest is name.\nt.yaml line 1 column 1: name is missing")]
    [InlineData("name: Plain", "name:", "line 1 column 1, name: has no value; leave the key out or state one")]
    [InlineData("name: Plain", "name: ''", "line 1 column 7, name: \"\" is empty")]
    [InlineData("name: Plain", "name: Plain\nname: Other", "line 2 column 1: a key stands twice in this mapping")]
    [InlineData("name: Plain", "name: Plain\ncurrency: dollar", "line 2 column 11, currency: \"dollar\" is no ISO 4217 code such as USD")]
    [InlineData("America/New_York", "Eastern", "line 2 column 7, zone: \"Eastern\" is no time zone of the IANA list, such as America/New_York")]
    [InlineData("2025-01-01", "1 Jan 2025", "line 3 column 12, effective: \"1 Jan 2025\" is no date; write 2025-01-31")]
    [InlineData("06-01 to 09-30", "June to September", "line 5 column 11, seasons.summer: \"June to September\" is no season; write MM-DD to MM-DD")]
    [InlineData("06-01 to 09-30", "06-02 to 09-30", "line 4 column 1, seasons: 06-01 is in no season")]
    [InlineData("06-01 to 09-30", "05-31 to 09-30", "line 4 column 1, seasons: 05-31 is in two seasons, summer and winter")]
    [InlineData("from: 16:00, to: 21:00 }", "from: 16:00, to: 20:00 }", "line 7 column 1, periods: on a weekday in season summer the minute 20:00 is in no period.\nt.yaml line 7 column 1, periods: on a weekday in season winter the minute 20:00 is in no period")]
    [InlineData("from: 16:00, to: 21:00 }", "from: 15:30, to: 21:00, season: summer }\n  - { period: peak, season: winter, days: [weekday], from: 16:00, to: 21:00 }", "line 7 column 1, periods: on a weekday in season summer the minute 15:30 is in two periods, peak and base")]
    [InlineData("days: [weekend] }", "days: [weekend, holiday], season: summer }\n  - { period: base, days: [weekend], season: winter }", "line 7 column 1, periods: on a holiday in season winter the minute 00:00 is in no period")]
    [InlineData("from: 16:00, to: 21:00 }", "from: 4 pm, to: 21:00 }", "line 8 column 44, periods[1].from: \"4 pm\" is no time of the day; write HH:MM")]
    [InlineData("from: 16:00, to: 21:00 }", "from: 16:00 }", "line 8 column 5, periods[1]: from and to come together")]
    [InlineData("from: 16:00, to: 21:00 }", "from: 16:00, to: 16:00 }", "line 8 column 5, periods[1]: from and to are the same; leave both out for the whole day")]
    [InlineData("from: 16:00, to: 21:00 }", "from: 24:00, to: 21:00 }", "line 8 column 44, periods[1].from: \"24:00\" is no start of a window; write 00:00")]
    [InlineData("days: [weekend]", "days: [weekends]", "line 10 column 28, periods[3].days[1]: \"weekends\" is not one of weekday, weekend, holiday, event")]
    [InlineData("days: [weekend]", "days: [weekend, weekend]", "line 10 column 37, periods[3].days[2]: \"weekend\" stands twice")]
    [InlineData("days: [weekend]", "days: [weekend], season: sumer", "line 10 column 46, periods[3].season: \"sumer\" is no season of this tariff; the nearest is summer")]
    [InlineData("{ price: 0.1 }", "{ period: bases, price: 0.1 }", "line 13 column 15, energy[2].period: \"bases\" is no period of this tariff; the nearest is base")]
    [InlineData("{ price: 0.1 }", "{ period: base, season: summer, price: 0.1 }", "line 11 column 1, energy: period base has no price in season winter")]
    [InlineData("{ price: 0.1 }", "{ price: 0.1 }\n  - { price: 0.2 }", "line 11 column 1, energy: any season and any period have two prices")]
    [InlineData("{ price: 0.1 }", "{ price: ten cents }", "line 13 column 14, energy[2].price: \"ten cents\" is not an amount of money")]
    [InlineData("{ price: 0.1 }", "{ price: {} }", "line 13 column 7, energy[2].price: names no part")]
    [InlineData("{ price: 0.1 }", "{ prise: 0.1 }", "line 13 column 7, energy[2]: \"prise\" is not a key here; the nearest is price.\nt.yaml line 13 column 5, energy[2]: price is missing")]
    [InlineData("fixed: { perDay: 0.5 }", "fixed: 0.5", "line 14 column 8, fixed: \"0.5\" is not a mapping of keys to values")]
    public void Read_OneThingWrong_SaysIt(string sound, string bad, string sentence) => Expect(Sound.Replace(sound, bad, StringComparison.Ordinal), sentence);

    [Theory]
    [InlineData("holidays: [{ every: 13-01 }]", "line 15 column 21, holidays[1].every: \"13-01\" is no holiday; write MM-DD, or such as last monday of may")]
    [InlineData("holidays: [{ every: last monday of may, move: nearest }]", "line 15 column 41, holidays[1].move: only a holiday of a fixed month and day moves")]
    [InlineData("holidays: [{ every: 07-04, date: 2025-07-04 }]", "line 15 column 12, holidays[1]: every and date exclude each other")]
    [InlineData("holidays: [{ move: nearest }]", "line 15 column 12, holidays[1]: every or date is missing")]
    [InlineData("holidays: [{ every: 07-04, move: friday }]", "line 15 column 34, holidays[1].move: \"friday\" is not one of none, nearest, monday")]
    [InlineData("neverOffsetPart: public", "line 15 column 18, neverOffsetPart: \"public\" is no price part of this tariff; there are energy")]
    [InlineData("tiers: { steps: [{ from: 0, price: 1 }] }", "line 15 column 8, tiers: allowanceKwhPerBill or allowanceKwhPerDay is missing")]
    [InlineData("tiers: { allowanceKwhPerBill: 0, creditPerKwh: 1 }", "line 15 column 31, tiers.allowanceKwhPerBill: \"0\" is not above 0; an allowance of nothing has no steps")]
    [InlineData("tiers: { allowanceKwhPerBill: 9 }", "line 15 column 8, tiers: tiers need steps or a creditPerKwh")]
    [InlineData("tiers: { allowanceKwhPerBill: 9, steps: [{ from: 1, price: 1 }] }", "line 15 column 34, tiers.steps: the first step begins at 0")]
    [InlineData("tiers: { allowanceKwhPerBill: 9, steps: [{ from: 0, price: 1 }, { from: 0, price: 2 }] }", "line 15 column 34, tiers.steps: the steps do not rise")]
    [InlineData("tiers: { allowanceKwhPerDay: { summer: 9 }, creditPerKwh: 1 }", "line 15 column 10, tiers.allowanceKwhPerDay: season winter is missing")]
    [InlineData("tiers: { allowanceKwhPerBill: 9, steps: [{ from: 0, price: { peak: 1, bass: 2, base: 3 } }] }", "line 15 column 71, tiers.steps[1].price.bass: bass is no period of this tariff; the nearest is base")]
    [InlineData("minimum: { counts: [fixed] }", "line 15 column 10, minimum: perBill or perDay is missing")]
    [InlineData("minimum: { perBill: -5 }", "line 15 column 21, minimum.perBill: \"-5\" is below 0")]
    [InlineData("minimum: { perBill: 5, counts: [fixd] }", "line 15 column 33, minimum.counts[1]: \"fixd\" is no kind of line that comes before; the nearest is fixed")]
    [InlineData("percentages: [{ name: tax, rate: 5 percent }]", "line 15 column 34, percentages[1].rate: \"5 percent\" is no rate; write 0.05 or \"5 %\"")]
    [InlineData("percentages: [{ name: energy, rate: 0.05 }]", "line 15 column 23, percentages[1].name: \"energy\" is also the name of another kind of line")]
    [InlineData("demand: [{ name: d }]", "line 15 column 10, demand[1]: price is missing")]
    [InlineData("demand: [{ name: d, price: 5, minutes: 20 }]", "line 15 column 40, demand[1].minutes: \"20\" is no length of an interval; they are 1, 5, 15, 30 or 60 minutes long")]
    [InlineData("demand: [{ name: d, price: -5 }]", "line 15 column 28, demand[1].price: \"-5\" is below 0")]
    [InlineData("demand: [{ name: d, price: 5 }, { name: d, price: 5 }]", "line 15 column 41, demand[2].name: \"d\" names two demand charges")]
    [InlineData("demand: [{ name: d, price: { summer: 5, winter: 4 }, season: summer }]", "line 15 column 10, demand[1]: a price by season and a season exclude each other")]
    [InlineData("demand: [{ name: d, price: 5, ratchet: { share: 120 %, bills: 0 } }]", "line 15 column 49, demand[1].ratchet.share: \"120 %\" is above 100 %; a share lies between 0 and 1, or 0 % and 100 %.\nt.yaml line 15 column 63, demand[1].ratchet.bills: \"0\" is below 1")]
    [InlineData("events: { dates: [2025-07-01, 2025-07-01], adder: 1 }", "line 15 column 31, events.dates[2]: \"2025-07-01\" stands twice")]
    [InlineData("events: { adder: 1 }", "line 15 column 9, events: dates or highestLoadDays is missing")]
    [InlineData("events: { highestLoadDays: 0, season: sumer, adder: 1 }", "line 15 column 28, events.highestLoadDays: \"0\" is below 1.\nt.yaml line 15 column 39, events.season: \"sumer\" is no season of this tariff; the nearest is summer")]
    [InlineData("events: { dates: [2025-07-01], season: summer, adder: 1 }", "line 15 column 40, events.season: \"summer\" holds for highestLoadDays only; dates say their season")]
    [InlineData("meterMinutes: 45", "line 15 column 15, meterMinutes: \"45\" is no length of an interval; they are 1, 5, 15, 30 or 60 minutes long")]
    [InlineData("netsInsideMeterInterval: yes", "line 15 column 26, netsInsideMeterInterval: \"yes\" is neither true nor false")]
    [InlineData("later: [{ effective: 2024-12-31, fixed: { perDay: 1 } }]", "line 15 column 22, later[1].effective: \"2024-12-31\" is not after 2025-01-01, when the version before takes effect")]
    [InlineData("later: [{ effective: 2025-07-01, tier: {} }]", "line 15 column 34, later[1]: \"tier\" is not a key here; the nearest is tiers")]
    [InlineData("fixed2: 1", "line 15 column 1: \"fixed2\" is not a key here; the nearest is fixed")]
    [InlineData("minimum: { perBill: 5, x: 1 }", "line 15 column 24, minimum: \"x\" is not a key here; the keys are perBill, perDay, counts")]
    [InlineData("export: { terms: netbilling }", "line 15 column 18, export.terms: \"netbilling\" is not one of nothing, retail-netting, net-billing, monthly-netting, two-way, sell-all")]
    [InlineData("export: { price: 0.1 }", "line 15 column 9, export: terms is missing")]
    [InlineData("export: { terms: sell-all, prices: 0.1 }", "line 15 column 28, export: \"prices\" is not a key here; the nearest is price.\nt.yaml line 15 column 9, export: price is missing")]
    [InlineData("export: { terms: retail-netting, neverOffsetOnImport: true }", "line 15 column 34, export.neverOffsetOnImport: the tariff names no neverOffsetPart")]
    [InlineData("export: { terms: monthly-netting, surplusPrice: 0.1, cashOutPrice: 0.1 }", "line 15 column 9, export: surplusPrice pays each bill's surplus, so cashOutPrice has nothing left to pay")]
    [InlineData("export: { terms: monthly-netting, surplusPrice: 0.1, creditLastsBills: 2 }", "line 15 column 9, export: surplusPrice pays each bill's surplus, so creditLastsBills has nothing left to keep")]
    [InlineData("export: { terms: retail-netting, creditLastsBills: 2 }", "line 15 column 34, export.creditLastsBills: with settlement year a credit is not kept by bills")]
    [InlineData("export: { terms: monthly-netting, creditLastsBills: -1 }", "line 15 column 53, export.creditLastsBills: \"-1\" is below 0")]
    [InlineData("export: { terms: net-billing, prices: [{ price: 0.1 }], pays: [{ part: energy, kinds: [fixed, minimum] }] }", "line 15 column 95, export.pays[1].kinds[2]: \"minimum\" is no kind of line that comes before; there are energy, tier, event, fixed, demand")]
    [InlineData("minimum: { perBill: 5, counts: [tax] }\npercentages: [{ name: tax, rate: 0.1 }]", "line 15 column 33, minimum.counts[1]: \"tax\" is no kind of line that comes before; there are energy, tier, event, fixed, demand, export, export charge, credit")]
    [InlineData("rounding: { of: bill, to: 0 }", "line 15 column 27, rounding.to: \"0\" is not above 0.\nt.yaml line 15 column 17, rounding.of: \"bill\" is not one of line, total")]
    [InlineData("export: { terms: net-billing }", "line 15 column 9, export: prices, tables or hours is missing")]
    [InlineData("export: { terms: net-billing, prices: [{ month: 1, hour: 3, price: 0.1 }] }", "line 15 column 9, export: the prices do not cover every hour; add one without selectors for the rest")]
    [InlineData("export: { terms: net-billing, prices: [{ price: 0.1 }, { price: 0.2 }] }", "line 15 column 9, export: two prices hold for the rest")]
    [InlineData("export: { terms: net-billing, prices: [{ price: 0.1 }, { hour: 3, price: 0.2 }] }", "line 15 column 56, export.prices[2]: a price is for month and hour (and day), for season and period, for a period, or for the rest")]
    [InlineData("export: { terms: net-billing, prices: [{ price: 0.1 }, { month: 13, hour: 24, price: 0.2 }] }", "line 15 column 65, export.prices[2].month: \"13\" is above 12.\nt.yaml line 15 column 75, export.prices[2].hour: \"24\" is above 23")]
    [InlineData("export: { terms: net-billing, prices: [{ price: 0.1 }], tables: [{ months: [[1]] }] }", "line 15 column 68, export.tables[1].months: a table has 12 lists, January first, of 24 prices, midnight first")]
    [InlineData("export: { terms: net-billing, prices: [{ price: 0.1 }], pays: [{ part: enery, kinds: [fixed] }] }", "line 15 column 72, export.pays[1].part: \"enery\" is no part of these prices; the nearest is energy")]
    public void Read_OneMoreLineThatIsWrong_SaysIt(string line, string sentence) => Expect(Sound + line + "\n", sentence);

    [Fact]
    public void Read_TextThatIsNoYaml_SaysWhere()
    {
        string message = _folder.ProblemsOf(() => TariffFile.Read(_folder.Write("t.yaml", "name: 'open\nzone: x")));
        Assert.StartsWith("t.yaml line 1 column 7: the text is not YAML (", message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_ListThatIsNotClosed_SaysSo() => Expect("name: [open\nzone: x", "the text is not YAML; a bracket or quote may be open");

    [Fact]
    public void Read_TextThatIsNoMapping_SaysSo() => Expect("just words", "line 1: the file must be one mapping of keys to values");

    private void Expect(string text, string sentence) =>
        Assert.Equal(sentence.StartsWith("the ", StringComparison.Ordinal) ? $"t.yaml: {sentence}." : $"t.yaml {sentence}.", _folder.ProblemsOf(() => TariffFile.Read(_folder.Write("t.yaml", text))));
}
