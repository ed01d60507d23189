using EnergySim.Equipment;
using EnergySim.Strategies;
using EnergySim.Tariffs;

namespace EnergySim.Files;

/// <summary>Reads an offer.</summary>
internal static class OfferReader
{
    /// <summary>The offer; null, with problems, when something of it does not fit.</summary>
    public static Offer? Read(YamlMap map, IReadOnlyDictionary<string, Battery> batteries, Tariff? tariff, HomeSolar? solar)
    {
        int before = map.Reported;
        string? battery = map.Text("battery")?.Name("battery of this home", [.. batteries.Keys]);
        bool replaces = map.Flag("replacesSolarInverter", false);
        if (replaces && solar is not { IsDc: true }) map.ReportWhole("replacesSolarInverter", "the battery's inverter can take the place of the solar inverter only where a dc solar profile or roof planes are given");
        double split = map.Share("splitFraction") ?? 0;
        if (split > 0 && (replaces || solar is not { IsDc: true })) map.ReportWhole("splitFraction", "part of the panels can go onto the battery's inputs only where a dc solar profile is given and today's inverter stays");
        int units = map.Text("units")?.Whole(1, 50) ?? 1;
        decimal[] byUnits = [.. map.Texts("pricesByUnits").Select(t => t.Money(negative: false) ?? 0)];
        if (byUnits.Length > 0 && map.Has("price")) map.ReportHere("price and pricesByUnits exclude each other");
        else if (byUnits.Length > 0 && units > byUnits.Length) map.Report("pricesByUnits", $"states prices of up to {byUnits.Length} units, of {units} it states none");
        var offer = new Offer
        {
            Name = map.Name("offer"),
            Battery = battery is null ? new Battery { Name = "", CapacityKwh = 1, ChargeLimitKw = 1, DischargeLimitKw = 1, InverterKw = 1 } : batteries[battery],
            Units = units,
            Price = map.Money("price", negative: false) ?? (units <= byUnits.Length ? byUnits[units - 1] : null),
            PricesByUnits = byUnits,
            BreakerAmps = map.Number("breakerAmps", Bounds.AboveZero),
            ReplacesSolarInverter = replaces,
            SplitFraction = split,
            Strategy = map.Map("strategy", HomeSections.Strategy) is YamlMap s ? StrategyReader.Read(s, tariff) : new Strategy { Base = Steering.SelfUse },
        };
        if (replaces && solar?.Modelled is { } roof && offer.Battery.SolarInputs * offer.Units is int inputs && roof.Roof.Planes.Sum(p => p.Strings) is int strings && strings > inputs)
            map.ReportWhole("replacesSolarInverter", $"the roof's planes make {strings} strings, the battery inverter has {inputs} solar {(inputs == 1 ? "input" : "inputs")}");
        return map.Reported == before ? offer : null;
    }
}
