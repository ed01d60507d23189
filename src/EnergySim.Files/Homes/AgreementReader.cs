using EnergySim.Strategies;
using EnergySim.Tariffs;

namespace EnergySim.Files;

/// <summary>Reads today's interconnection agreement.</summary>
internal static class AgreementReader
{
    public static Agreement? Read(YamlMap home, ProblemList problems)
    {
        if (home.Map("agreement", HomeSections.Agreement) is not YamlMap map) return null;
        Tariff? next = map.Text("newTariff") is YamlText named
            ? TariffFile.Read(Path.Combine(Path.GetDirectoryName(home.File) ?? "", named.Value), problems)
            : null;
        return new Agreement
        {
            AuthorisedKw = map.Number("authorisedKw", Bounds.AboveZero) ?? 1,
            GrowthFraction = map.Share("growth") ?? 0.1,
            GrowthKw = map.Number("growthKw", Bounds.NotNegative) ?? 1,
            GrowthRule = map.Text("growthRule")?.Choice(("lesser", GrowthRule.Lesser), ("greater", GrowthRule.Greater)) ?? GrowthRule.Lesser,
            CountsStorage = map.Flag("countsStorage", false),
            StorageRule = map.Text("storageRule")?.Choice(("solar-only", IntegrityRule.SolarOnly), ("never-exports", IntegrityRule.NeverExports)) ?? IntegrityRule.None,
            NewTariff = next,
        };
    }
}
