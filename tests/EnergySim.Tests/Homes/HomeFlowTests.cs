using System.Globalization;
using System.Text.Json;
using EnergySim.Engine;

namespace EnergySim.Tests.Homes;

/// <summary>
/// The flows of all 84 random homes against an independent implementation of ENGINE.md (shared/data/homes): every interval within 1e-6,
/// hours by cause exactly, on the grid and off it.
/// </summary>
public class HomeFlowTests
{
    private const double Tolerance = 1e-6;

    public static TheoryData<int> Numbers => [.. Enumerable.Range(1, HomeCase.Count)];

    [Theory]
    [MemberData(nameof(Numbers))]
    public void Ledger_EveryInterval_EqualsTheIndependentAnswer(int number)
    {
        HomeCase home = HomeCase.Read(number);
        Ledger ledger = home.Run.Ledger();
        string[] lines = File.ReadAllLines(Path.Combine(home.Folder, "ledger.csv"));
        string[] header = lines[0].Split(',');
        Assert.Equal(home.Axis.Count, lines.Length - 1);
        var faults = new List<string>();
        for (int i = 0; i < home.Axis.Count && faults.Count < 12; i++)
        {
            string[] row = lines[i + 1].Split(',');
            foreach (LedgerColumn column in Enum.GetValues<LedgerColumn>())
            {
                double expected = HomeCase.ParseNumber(row[Array.IndexOf(header, Ledger.NameOf(column))]);
                double actual = ledger[column][i];
                if (!(Math.Abs(expected - actual) <= Tolerance))
                    faults.Add(string.Create(CultureInfo.InvariantCulture, $"interval {i} {row[0]} {Ledger.NameOf(column)}: {actual} for {expected} [{ledger.LimitsOf(i)}] for [{row[^1]}]"));
            }
            if (ledger.LimitsOf(i) != row[^1]) faults.Add($"interval {i} {row[0]} limits: {ledger.LimitsOf(i)} for {row[^1]}");
        }
        Assert.True(faults.Count == 0, $"Home {number}:\n" + string.Join('\n', faults));
    }

    [Theory]
    [MemberData(nameof(Numbers))]
    public void Sums_OfTheRun_EqualTheIndependentAnswer(int number)
    {
        HomeCase home = HomeCase.Read(number);
        RunSums sums = home.Run.Sums();
        var faults = new List<string>();
        void Check(string what, double actual, double expected)
        {
            if (!(Math.Abs(expected - actual) <= Tolerance * Math.Max(1, Math.Abs(expected))))
                faults.Add(string.Create(CultureInfo.InvariantCulture, $"{what}: {actual} for {expected}"));
        }
        Check("start", sums.StartKwh, home.Expected.GetProperty("start_kwh").GetDouble());
        Check("end", sums.EndKwh, home.Expected.GetProperty("end_kwh").GetDouble());
        Check("dark", sums.DarkIntervals, home.Expected.GetProperty("dark_intervals").GetInt32());
        foreach (LedgerColumn column in Enum.GetValues<LedgerColumn>().Where(c => c is not (LedgerColumn.StoredKwh or LedgerColumn.Dark)))
            Check(Ledger.NameOf(column), sums.Kwh(column), home.Expected.GetProperty("sums_kwh").GetProperty(Ledger.NameOf(column)[..^3]).GetDouble());
        var hours = home.Expected.GetProperty("bound_hours").EnumerateObject().ToDictionary(p => p.Name, p => p.Value.GetDouble());
        foreach (Limit limit in Enum.GetValues<Limit>())
            if (sums.BoundHours(limit) != hours.GetValueOrDefault(Limits.NameOf(limit)))
                faults.Add($"{Limits.NameOf(limit)}: {sums.BoundHours(limit)} h for {hours.GetValueOrDefault(Limits.NameOf(limit))}");
        var withheld = new Dictionary<string, double>();
        var cut = home.Expected.GetProperty("cut_kwh").EnumerateObject().ToDictionary(p => p.Name, p => p.Value.GetDouble());
        foreach (LimitSite site in Enum.GetValues<LimitSite>())
        {
            string name = $"{Limits.RuleOf(site)}:{Limits.NameOf(Limits.LimitOf(site))}";
            withheld[name] = withheld.GetValueOrDefault(name) + sums.WithheldKwh(site);
        }
        foreach ((string name, double kwh) in withheld) Check(name, kwh, cut.GetValueOrDefault(name));
        Assert.Empty(cut.Keys.Except(withheld.Keys));
        if (!home.IsOnGrid)
        {
            JsonElement outage = home.Expected.GetProperty("outage");
            var causes = outage.GetProperty("by_cause").EnumerateObject().ToDictionary(p => p.Name, p => p.Value.GetDouble());
            Check("energy", sums.UnservedKwh.Energy, causes.GetValueOrDefault("energy") + causes.GetValueOrDefault("floor"));
            Check("Pd", sums.UnservedKwh.DischargeRate, causes.GetValueOrDefault("Pd"));
            Check("Pinv", sums.UnservedKwh.Inverter, causes.GetValueOrDefault("Pinv"));
            Check("OUT", sums.UnservedKwh.InverterBreaker, causes.GetValueOrDefault("OUT"));
            Check("BUS", sums.UnservedKwh.Busbar, causes.GetValueOrDefault("BUS"));
            Check("trip", sums.UnservedKwh.Trip, causes.GetValueOrDefault("trip"));
        }
        Assert.True(faults.Count == 0, $"Home {number}:\n" + string.Join('\n', faults));
    }
}
