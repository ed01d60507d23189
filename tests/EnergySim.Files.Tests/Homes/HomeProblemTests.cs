namespace EnergySim.Files.Tests.Homes;

/// <summary>One bad file a rule: a sound home with one line changed, and the whole message.</summary>
public sealed class HomeProblemTests : IDisposable
{
    private const string Load = "{ file: two-days.csv, column: load_kw, unit: kW, stamp: start }";
    private const string Sound = $$"""
        home: Plain
        zone: America/New_York
        load: {{Load}}
        solar: { file: two-days.csv, column: solar_dc_kw, unit: kW, stamp: start, kind: dc, inverterKw: 5 }
        tariff: evening-peak.yaml
        batteries:
          ten: { capacityKwh: 10, chargeLimitKw: 5, dischargeLimitKw: 5, inverterKw: 5 }
        offers:
          - offer: One
            battery: ten
            units: 1
            strategy: { base: self-use }

        """;

    private const string Strategy = "strategy: { base: self-use }";
    private readonly TempFolder _folder = new();

    public HomeProblemTests()
    {
        foreach (string file in (string[])["two-days.csv", "foreign.csv", "evening-peak.yaml"]) _folder.Write(file, Sample.Text(file));
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Read_SoundFile_HasNoProblem() => Assert.NotNull(HomeFile.Read(_folder.Write("h.yaml", Sound)));

    [Theory]
    [InlineData("home: Plain", "house: Plain", "line 1 column 1: \"house\" is not a key here; the nearest is home.\nh.yaml line 1 column 1: home is missing")]
    [InlineData("zone: America/New_York", "zone: America/Chicago", "line 5 column 9, tariff: \"evening-peak.yaml\" is read on the clock of America/New_York, the home is in America/Chicago")]
    [InlineData("unit: kW, stamp: start }\nsolar", "stamp: start }\nsolar", "line 3 column 7, load: unit is missing; state kW (mean power) or kWh (energy of the interval)")]
    [InlineData("stamp: start }\nsolar", "}\nsolar", "line 3 column 7, load: stamp is missing; state start or end, whichever end of its interval a stamp names")]
    [InlineData("unit: kW, stamp: start }\nsolar", "unit: W, stamp: start }\nsolar", "line 3 column 52, load.unit: \"W\" is not one of kW, kWh")]
    [InlineData("stamp: start }\nsolar", "stamp: middle }\nsolar", "line 3 column 63, load.stamp: \"middle\" is not one of start, end")]
    [InlineData("stamp: start }\nsolar", "stamp: start, clock: summer }\nsolar", "line 3 column 77, load.clock: \"summer\" is no clock; write local, standard, utc, in-stamp or an offset such as \"+10:00\"")]
    [InlineData("kind: dc", "kind: roof", "line 4 column 81, solar.kind: \"roof\" is not one of dc, ac")]
    [InlineData(", inverterKw: 5 }\ntariff", " }\ntariff", "line 4 column 8, solar: a dc profile needs inverterKw, the rating of today's inverter")]
    [InlineData("kind: dc, inverterKw: 5", "kind: ac, inverterEfficiency: 0.96", "line 4 column 85, solar.inverterEfficiency: an ac profile is metered behind the inverter; leave it out")]
    [InlineData("capacityKwh: 10,", "capacityKwh: 0,", "line 7 column 23, batteries.ten.capacityKwh: \"0\" is not above 0")]
    [InlineData("dischargeLimitKw: 5", "dischargeLimitKw: 0", "line 7 column 63, batteries.ten.dischargeLimitKw: \"0\" is not above 0")]
    [InlineData(" chargeLimitKw: 5,", "", "line 7 column 8, batteries.ten: chargeLimitKw is missing")]
    [InlineData("inverterKw: 5 }\noffers", "}\noffers", "line 7 column 8, batteries.ten: inverterKw is missing")]
    [InlineData("inverterKw: 5 }\noffers", "inverterKw: 5, lowestKwh: 10 }\noffers", "line 7 column 92, batteries.ten.lowestKwh: \"10\" is not below capacityKwh")]
    [InlineData("inverterKw: 5 }\noffers", "inverterKw: 5, chargeEfficiency: 97 }\noffers", "line 7 column 99, batteries.ten.chargeEfficiency: \"97\" is above 1; an efficiency is a share, such as 0.96 or \"96 %\"")]
    [InlineData("inverterKw: 5 }\noffers", "inverterKw: 5, chargeTaper: [[0.9, 1], [0.9, 0.5]] }\noffers", "line 7 column 81, batteries.ten.chargeTaper: its shares of energy do not rise")]
    [InlineData("inverterKw: 5 }\noffers", "inverterKw: 5, chargeTaper: [[0.9]] }\noffers", "line 7 column 81, batteries.ten.chargeTaper: a taper is a list of pairs, [share of energy, share of the limit]")]
    [InlineData("battery: ten", "battery: tin", "line 10 column 14, offers[1].battery: \"tin\" is no battery of this home; the nearest is ten")]
    [InlineData("units: 1", "units: 0", "line 11 column 12, offers[1].units: \"0\" is below 1")]
    [InlineData("units: 1", "units: 1.5", "line 11 column 12, offers[1].units: \"1.5\" is not a whole number")]
    [InlineData("units: 1", "units: 1\n    price: -1", "line 12 column 12, offers[1].price: \"-1\" is below 0")]
    [InlineData("units: 1", "units: 1\n    price: 1\n    pricesByUnits: [1]", "line 9 column 5, offers[1]: price and pricesByUnits exclude each other")]
    [InlineData("units: 1", "units: 3\n    pricesByUnits: [1, 2]", "line 12 column 20, offers[1].pricesByUnits: states prices of up to 2 units, of 3 it states none")]
    [InlineData("  - offer: One\n    battery: ten\n    units: 1\n    strategy: { base: self-use }", "  []", "line 8 column 1, offers: there is no offer")]
    [InlineData("  - offer: One\n", "  - { offer: One, battery: ten, units: 2, strategy: { base: hold } }\n  - offer: One\n", "line 8 column 1, offers: two offers are called One")]
    [InlineData("tariff: evening-peak.yaml", "tariff: absent.yaml", "absent.yaml: there is no such file")]
    [InlineData("load: { file: two-days.csv", "load: { file: absent.csv", "absent.csv: there is no such file")]
    [InlineData(Load, "{ file: foreign.csv, column: House kWh, unit: kWh, stampColumns: [Day, Hour], stamp: end, clock: local, pattern: M/D H:mm, year: 2024 }", "line 4 column 1, solar: it has 48 intervals of 60 minutes from 2025-07-01 00:00 -04 (America/New_York), the load has 48 intervals of 60 minutes from 2024-07-01 00:00 -04 (America/New_York); they must be the same (stepMinutes brings both to one step)")]
    public void Read_OneThingWrong_SaysIt(string sound, string bad, string sentence)
    {
        Assert.Contains(sound, Sound, StringComparison.Ordinal);
        Expect(Sound.Replace(sound, bad, StringComparison.Ordinal), sentence);
    }

    [Theory]
    [InlineData("base: peak", "line 12 column 23, offers[1].strategy.base: \"peak\" is not one of hold, self-use, peak-window, demand-shaving, planned")]
    [InlineData("base: self-use, reserve: 120 %", "line 12 column 42, offers[1].strategy.reserve: \"120 %\" is above 100 %; a share lies between 0 and 1, or 0 % and 100 %")]
    [InlineData("base: self-use, reserve: 20", "line 12 column 42, offers[1].strategy.reserve: \"20\" is above 1; a share lies between 0 and 1, or 0 % and 100 %")]
    [InlineData("base: self-use, reserve: some", "line 12 column 42, offers[1].strategy.reserve: \"some\" is no share; write 0.2 or \"20 %\"")]
    [InlineData("base: self-use, peak: [16:00-21:00]", "line 12 column 33, offers[1].strategy.peak: only peak-window has a peak")]
    [InlineData("base: peak-window, peak: [16-21]", "line 12 column 43, offers[1].strategy.peak[1]: \"16-21\" is no window of the day; write 16:00-21:00")]
    [InlineData("base: peak-window, peakPeriods: [peek]", "line 12 column 50, offers[1].strategy.peakPeriods[1]: \"peek\" is no period of the tariff; the nearest is peak")]
    [InlineData("base: peak-window, peakPeriods: [peak], peak: [16:00-21:00]", "line 12 column 15, offers[1].strategy: peak and peakPeriods exclude each other")]
    [InlineData("base: demand-shaving", "line 12 column 15, offers[1].strategy: demand-shaving needs shaveToKw")]
    [InlineData("base: hold, shaveToKw: 2", "line 12 column 29, offers[1].strategy.shaveToKw: only demand-shaving holds import at a level")]
    [InlineData("base: hold, refill: 0.5", "line 12 column 29, offers[1].strategy.refill: only demand-shaving refills")]
    [InlineData("base: self-use, rule: exports", "line 12 column 39, offers[1].strategy.rule: \"exports\" is not one of solar-only, never-exports")]
    [InlineData("base: self-use, overnight: { from: 22:00, to: 06:00, upTo: 80 % }, sell: { from: 05:00, to: 07:00, downTo: 30 % }", "line 12 column 15, offers[1].strategy: it would buy and sell the same energy: in some minute the grid may charge above the level that the battery sells down to")]
    [InlineData("base: demand-shaving, shaveToKw: 2, refill: 0.5, sell: { from: 17:00, to: 19:00, downTo: 0.3 }", "line 12 column 15, offers[1].strategy: it would buy and sell the same energy: in some minute the grid may charge above the level that the battery sells down to")]
    [InlineData("base: self-use, sell: { from: 17:00, to: 19:00 }", "line 12 column 39, offers[1].strategy.sell: downTo is missing")]
    [InlineData("base: self-use, storm: { from: \"2025-03-10T12:30:00-05:00\", to: \"2025-03-10T00:00:00-05:00\", upTo: 1 }", "line 12 column 81, offers[1].strategy.storm.to: \"2025-03-10T00:00:00-05:00\" is not after from")]
    [InlineData("base: self-use, storm: { from: soon, to: \"2025-03-10T00:00:00-05:00\", upTo: 1 }", "line 12 column 48, offers[1].strategy.storm.from: \"soon\" is no instant; write 2025-11-28T18:00:00-07:00")]
    [InlineData("base: self-use, keepsForDearest: true", "line 12 column 33, offers[1].strategy.keepsForDearest: only peak-window has a peak")]
    [InlineData("base: hold, ratchets: true", "line 12 column 29, offers[1].strategy.ratchets: only demand-shaving holds import at a level")]
    [InlineData("base: planned, sellsByPrice: true", "line 12 column 32, offers[1].strategy.sellsByPrice: a planned strategy plans it itself")]
    [InlineData("base: self-use, events: { leadHours: 4, upTo: 1 }", "line 12 column 33, offers[1].strategy.events: the rate plan calls no events")]
    [InlineData("base: self-use, storm: { upTo: 1 }", "line 12 column 40, offers[1].strategy.storm: no storm is named; state from and to, times, or darkDays")]
    [InlineData("base: self-use, storm: { upTo: 1, from: \"2025-03-10T00:00:00-05:00\" }", "line 12 column 40, offers[1].strategy.storm: from and to come together")]
    [InlineData("base: self-use, storm: { upTo: 1, darkDays: 20 }", "line 12 column 61, offers[1].strategy.storm.darkDays: \"20\" is above 14")]
    [InlineData("base: demand-shaving, shaveToKw: 2, ratchets: true, sellsByPrice: true", "line 12 column 53, offers[1].strategy.ratchets: a level that ratchets goes neither with likeDays nor with sellsByPrice")]
    public void Read_StrategyThatCanNotBe_SaysSo(string strategy, string sentence) =>
        Expect(Sound.Replace(Strategy, $"strategy: {{ {strategy} }}", StringComparison.Ordinal), sentence);

    [Theory]
    [InlineData("base: self-use, overnight: { from: 22:00, to: 05:00, upTo: 80 % }, sell: { from: 05:00, to: 07:00, downTo: 30 % }")]
    [InlineData("base: self-use, rule: never-exports, overnight: { from: 22:00, to: 06:00, upTo: 80 % }, sell: { from: 05:00, to: 07:00, downTo: 30 % }")]
    public void Read_SaleThatMeetsNoGridCharge_HasNoProblem(string strategy) =>
        Assert.NotNull(HomeFile.Read(_folder.Write("h.yaml", Sound.Replace(Strategy, $"strategy: {{ {strategy} }}", StringComparison.Ordinal))));

    [Theory]
    [InlineData("service: { mainAmps: -100 }", "line 13 column 22, service.mainAmps: \"-100\" is not above 0")]
    [InlineData("service: { mainAmp: 100 }", "line 13 column 12, service: \"mainAmp\" is not a key here; the nearest is mainAmps")]
    [InlineData("service: { exportLimitKw: -1 }", "line 13 column 27, service.exportLimitKw: \"-1\" is below 0")]
    [InlineData("service: { volts: high }", "line 13 column 19, service.volts: \"high\" is not a number")]
    [InlineData("account: { readDates: [2025-07-01] }", "line 13 column 12, account.readDates: one date bounds no bill")]
    [InlineData("account: { readDates: [2025-07-01, 2025-06-01] }", "line 13 column 12, account.readDates: 2025-06-01 does not come after 2025-07-01")]
    [InlineData("stepMinutes: 7", "line 13 column 14, stepMinutes: \"7\" is no length of an interval; they are 1, 5, 15, 30 or 60 minutes long")]
    public void Read_OneMoreLineThatIsWrong_SaysIt(string line, string sentence) => Expect(Sound + line + "\n", sentence);

    [Fact]
    public void Read_OfferThatTakesTheInverterOfMeteredSolar_SaysSo() => Expect(
        Sound.Replace("kind: dc, inverterKw: 5", "kind: ac", StringComparison.Ordinal)
            .Replace("battery: ten", "battery: ten\n    replacesSolarInverter: true", StringComparison.Ordinal),
        "line 11 column 5, offers[1].replacesSolarInverter: the battery's inverter can take the place of the solar inverter only where a dc solar profile or roof planes are given");

    [Fact]
    public void Read_FaultsInThreeFiles_TellsAllOfThem()
    {
        _folder.Write("evening-peak.yaml", Sample.Text("evening-peak.yaml").Replace("currency: USD", "currency: usd", StringComparison.Ordinal));
        _folder.Write("two-days.csv", Sample.Text("two-days.csv").Replace("T04:00:00Z,0.4,0", "T04:00:00Z,-0.4,0", StringComparison.Ordinal));
        string message = _folder.ProblemsOf(() => HomeFile.Read(_folder.Write("h.yaml", Sound + "service: { volts: 0 }\n")));
        Assert.Equal(
            """
            evening-peak.yaml line 4 column 11, currency: "usd" is no ISO 4217 code such as USD.
            two-days.csv line 2, load_kw: "-0.4" is below 0; a profile holds what is used or produced, never the net of both.
            two-days.csv line 26, load_kw: "-0.4" is below 0; a profile holds what is used or produced, never the net of both.
            h.yaml line 13 column 19, service.volts: "0" is not above 0.
            """,
            message);
    }

    private void Expect(string text, string sentence)
    {
        bool other = sentence.StartsWith("absent.", StringComparison.Ordinal);
        Assert.Equal($"{(other ? "" : "h.yaml ")}{sentence}.", _folder.ProblemsOf(() => HomeFile.Read(_folder.Write("h.yaml", text))));
    }
}
