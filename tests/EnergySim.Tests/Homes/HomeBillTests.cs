using System.Globalization;
using System.Text.Json;
using EnergySim.Billing;
using EnergySim.Tariffs;

namespace EnergySim.Tests.Homes;

/// <summary>The buckets, lines and bills of the random homes against an independent implementation of TARIFF.md (shared/data/homes).</summary>
public class HomeBillTests
{
    public static TheoryData<int> Numbers => [.. Enumerable.Range(1, HomeCase.Count)];

    [Theory]
    [MemberData(nameof(Numbers))]
    public void Bills_OfTheRun_EqualTheIndependentAnswerToTheCent(int number)
    {
        HomeCase home = HomeCase.Read(number);
        if (!home.Definition.TryGetProperty("tariff", out JsonElement given) || given.ValueKind != JsonValueKind.Object)
        {
            Assert.False(home.Expected.TryGetProperty("lines", out _));
            return;
        }
        (Tariff tariff, Account account) = CaseTariff.Read(home.Definition);
        var calendar = new TariffCalendar(tariff, home.Axis, account);
        var sums = MeterSums.Of(calendar, home.Run.Sums().Meter);
        BillSet bills = Biller.Bill(sums);
        var faults = new List<string>();

        foreach (JsonElement bucket in home.Expected.GetProperty("buckets").EnumerateArray())
        {
            var key = new Bucket(bucket.GetProperty("bill").GetInt32() - 1, bucket.GetProperty("version").GetInt32(), bucket.GetProperty("season").GetString()!, bucket.GetProperty("period").GetString()!);
            int at = calendar.Buckets.ToList().IndexOf(key);
            if (at < 0) faults.Add($"no bucket {key}");
            else if (Math.Abs(sums.ImportKwh[at] - bucket.GetProperty("import_kwh").GetDouble()) > 1e-6 || Math.Abs(sums.ExportKwh[at] - bucket.GetProperty("export_kwh").GetDouble()) > 1e-6)
                faults.Add(string.Create(CultureInfo.InvariantCulture, $"{key}: {sums.ImportKwh[at]}, {sums.ExportKwh[at]} for {bucket}"));
        }
        Assert.Equal(home.Expected.GetProperty("buckets").GetArrayLength(), calendar.Buckets.Count);

        // A line is the same when its bill, kind and amounts are; the wording is ours.
        static string Line(int bill, string kind, string unit, decimal amount, decimal unrounded) =>
            string.Create(CultureInfo.InvariantCulture, $"{bill} {kind} {(unit.Length == 3 && unit != "kWh" && unit != "day" ? "$" : unit)} {amount:0.00} {unrounded:0.0000}");
        var expected = home.Expected.GetProperty("lines").EnumerateArray().Select(l => Line(
            l[0].GetInt32(), l[1].GetString()!, l[4].GetString()!, decimal.Parse(l[6].GetString()!, CultureInfo.InvariantCulture), l[7].GetDecimal())).Order(StringComparer.Ordinal).ToList();
        var actual = bills.Bills.SelectMany((b, i) => b.Lines.Select(l => Line(i + 1, l.Kind, l.Unit, l.Amount, l.Unrounded))).Order(StringComparer.Ordinal).ToList();
        foreach (string line in expected) if (!actual.Remove(line)) faults.Add("missing " + line);
        foreach (string line in actual) faults.Add("beyond " + line);

        JsonElement[] totals = [.. home.Expected.GetProperty("bills").EnumerateArray()];
        Assert.Equal(totals.Length, bills.Bills.Count);
        for (int i = 0; i < totals.Length; i++)
            if (bills.Bills[i].Total != decimal.Parse(totals[i].GetProperty("total").GetString()!, CultureInfo.InvariantCulture))
                faults.Add($"bill {i + 1}: {bills.Bills[i].Total} for {totals[i].GetProperty("total")}");
        string[] notes = [.. home.Expected.GetProperty("notes").EnumerateArray().Select(n => n.GetString()!)];
        foreach (string note in notes.Except(bills.Notes)) faults.Add("no note: " + note);
        foreach (string note in bills.Notes.Except(notes)) faults.Add("note beyond: " + note);
        Assert.True(faults.Count == 0, $"Home {number}:\n" + string.Join('\n', faults.Take(30)));
        Assert.Equal(decimal.Parse(home.Expected.GetProperty("total").GetString()!, CultureInfo.InvariantCulture), bills.Total);
    }
}
