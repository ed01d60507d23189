using EnergySim.Wiring;

namespace EnergySim.Files;

/// <summary>Reads a dwelling's loads for its load calculation.</summary>
internal static class DwellingLoadsReader
{
    public static DwellingLoads Read(YamlMap map) => new()
    {
        AreaSquareFeet = map.Number("areaSquareFeet", Bounds.AboveZero) ?? 1,
        SmallApplianceCircuits = map.Text("smallApplianceCircuits")?.Whole(2, 20) ?? 2,
        LaundryCircuits = map.Text("laundryCircuits")?.Whole(0, 5) ?? 1,
        Appliances = [.. map.Maps("appliances", HomeSections.Appliance).Select(a => new Appliance(
            a.Name("appliance"),
            a.Number("va", Bounds.AboveZero) ?? 1,
            a.Text("kind")?.Choice(("fixed", ApplianceKind.Fixed), ("range", ApplianceKind.Range), ("dryer", ApplianceKind.Dryer)) ?? ApplianceKind.Fixed))],
        Climate = [.. map.Maps("climate", HomeSections.Climate).Select(c => new ClimateLoad(
            c.Text("kind")?.Choice(
                ("cooling", ClimateKind.Cooling), ("central-heat", ClimateKind.CentralHeat), ("few-heaters", ClimateKind.FewHeaters), ("many-heaters", ClimateKind.ManyHeaters)) ?? ClimateKind.Cooling,
            c.Number("va", Bounds.AboveZero) ?? 1))],
        AddedVa = map.Number("addedVa", Bounds.NotNegative) ?? 0,
        Measured = map.Map("measured", HomeSections.Measured) is YamlMap m
            ? new MeasuredDemand(m.Number("maxKw", Bounds.NotNegative) ?? 0, m.Text("record")?.Choice(("year", true), ("30-days", false)) ?? false)
            : null,
    };
}
