using EnergySim.Tariffs;

namespace EnergySim.Files.Tests.Tariffs;

public sealed class UnusedTermsTests : IDisposable
{
    private const string Plan = """
        name: Plan
        zone: America/Denver
        effective: 2025-01-01
        periods:
          - {period: day, from: "06:00", to: "22:00"}
          - {period: night, from: "22:00", to: "06:00"}
        energy: [{price: 0.20}]

        """;

    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private IReadOnlyList<string> Findings(string more, string plan = Plan) => UnusedTerms.Of(TariffFile.Read(_folder.Write("plan.yaml", plan + more)));

    [Fact]
    public void Of_PlanWithoutVanity_FindsNothing() => Assert.Empty(Findings(""));

    [Theory]
    [InlineData("tiers: {allowanceKwhPerDay: 10, steps: [{from: 0, price: 0}, {from: 130, price: 0.1}]}\n", "step 2 of the tiers is out of reach: it begins at 1,300 kWh a day, a 200 A service carries 1,152")]
    [InlineData("tiers: {allowanceKwhPerBill: 300, steps: [{from: 0, price: 0.1}, {from: 1, price: 0.1}]}\n", "step 2 of the tiers has the price of the step before it")]
    [InlineData("demand: [{name: top, price: 3, days: [holiday]}]\n", "demand charge top on holidays: the plan has no such day")]
    [InlineData("events: {dates: [2024-12-31], adder: 0.5, from: \"16:00\", to: \"20:00\"}\n", "the event of 2024-12-31 lies outside the days on which its prices hold")]
    public void Of_TermInVain_SaysWhich(string more, string finding) => Assert.Equal([finding], Findings(more));

    [Fact]
    public void Of_PeriodOnHolidaysThatThePlanLacks_IsFound() => Assert.Equal(
        [
            "period quiet on holidays: the plan has no such day",
            "the energy price for any season, quiet is never used",
        ],
        Findings("", """
            name: Plan
            zone: America/Denver
            effective: 2025-01-01
            periods: [{period: day, days: [weekday, weekend]}, {period: quiet, days: [holiday]}]
            energy: [{period: day, price: 0.20}, {period: quiet, price: 0.10}]
            """));

    [Fact]
    public void Of_SeasonOfLeapDaysAlone_IsFound() => Assert.Equal(
        ["season leap has no day in most years: it is 29 February alone"],
        Findings("seasons: {leap: 02-29 to 02-29, rest: 03-01 to 02-28}\n"));

    [Fact]
    public void Of_SeasonThatNoPricesSee_IsFoundAndOneThatSomeSeeIsNot()
    {
        const string Until = """
            name: Plan
            zone: America/Denver
            effective: 2025-01-01
            seasons: {cold: 01-01 to 06-30, warm: 07-01 to 12-31}
            periods: [{period: day}]
            energy: [{price: 0.20}]
            later:

            """;
        Assert.Equal(["season warm has no day: other prices hold on all of its days"], Findings("  - {effective: 2025-06-01, seasons: {all-year: 01-01 to 12-31}}\n", Until));
        Assert.Empty(Findings("  - {effective: 2025-06-01, energy: [{price: 0.30}]}\n", Until));
    }

    [Fact]
    public void Of_ExportPriceOfAPeriodElsewhere_IsFound() => Assert.Equal(
        ["the export price for cold, day is never used"],
        Findings("", """
            name: Plan
            zone: America/Denver
            effective: 2025-01-01
            seasons: {cold: 01-01 to 06-30, warm: 07-01 to 12-31}
            periods: [{period: day, season: warm}, {period: flat, season: cold}]
            energy: [{price: 0.20}]
            export: {terms: net-billing, prices: [{season: cold, period: day, price: 0.1}, {price: 0.05}]}
            """));
}
