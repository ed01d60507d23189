using EnergySim.Equipment;

namespace EnergySim.Files;

/// <summary>Reads the battery units of a home file.</summary>
internal static class BatteryReader
{
    public static IReadOnlyDictionary<string, Battery> ReadAll(YamlMap map)
    {
        var batteries = new Dictionary<string, Battery>(StringComparer.Ordinal);
        if (map.Map("batteries", null) is not YamlMap units) return batteries;
        foreach (string name in units.Keys)
            if (units.Map(name, HomeSections.Battery) is YamlMap unit) batteries.Add(name, Read(name, unit));
        return batteries;
    }

    private static Battery Read(string name, YamlMap map)
    {
        double Above(string key) => map.Number(key, Bounds.AboveZero) ?? 1;
        double Efficiency(string key) => map.Text(key)?.Share(Bounds.Efficiency) ?? 1;
        double capacity = Above("capacityKwh"), lowest = map.Number("lowestKwh", Bounds.NotNegative) ?? 0;
        if (lowest > 0 && lowest >= capacity) map.Report("lowestKwh", "is not below capacityKwh");
        int? inputs = map.Text("solarInputs")?.Whole(1, 50);
        double each = map.Number("solarInputEachKw", Bounds.AboveZero) ?? double.PositiveInfinity;
        return new Battery
        {
            Name = name,
            CapacityKwh = capacity,
            LowestKwh = lowest,
            ChargeLimitKw = Above("chargeLimitKw"),
            DischargeLimitKw = Above("dischargeLimitKw"),
            ChargeEfficiency = Efficiency("chargeEfficiency"),
            DischargeEfficiency = Efficiency("dischargeEfficiency"),
            InverterKw = Above("inverterKw"),
            SurgeAmps = map.Number("surgeAmps", Bounds.AboveZero),
            InverterEfficiency = Efficiency("inverterEfficiency"),
            RectifierEfficiency = Efficiency("rectifierEfficiency"),
            SolarInputKw = map.Number("solarInputKw", Bounds.NotNegative) ?? (inputs ?? double.PositiveInfinity) * each,
            SolarInputs = inputs,
            SolarInputEachKw = each,
            StandbyKw = map.Number("standbyKw", Bounds.NotNegative) ?? 0,
            RestartFraction = map.Share("restart") ?? 0.1,
            WakesBySolar = map.Flag("wakesBySolar", true),
            ChargeTaper = ReadTaper(map, "chargeTaper"),
            DischargeTaper = ReadTaper(map, "dischargeTaper"),
        };
    }

    private static Taper ReadTaper(YamlMap map, string key)
    {
        var points = new List<(double, double)>();
        foreach (IReadOnlyList<YamlText> row in map.Rows(key))
        {
            if (row.Count != 2)
            {
                map.ReportWhole(key, "a taper is a list of pairs, [share of energy, share of the limit]");
                return Taper.None;
            }
            if (row[0].Share(Bounds.Share) is double energy && row[1].Share(Bounds.Share) is double limit) points.Add((energy, limit));
        }
        try
        {
            return new Taper(points);
        }
        catch (ArgumentException)
        {
            map.ReportWhole(key, "its shares of energy do not rise");
            return Taper.None;
        }
    }
}
