using System.Globalization;
using EnergySim.Tariffs;
using NodaTime;
using YamlDotNet.RepresentationModel;

namespace EnergySim.Files;

/// <summary>Reads tariff files (YAML): a rate sheet as data, checked whole.</summary>
public static class TariffFile
{
    /// <summary>Reads a tariff.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="ProblemsException">The file can not be read, or breaks a rule.</exception>
    public static Tariff Read(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var problems = new ProblemList();
        Tariff? tariff = Read(path, problems);
        problems.ThrowIfAny();
        return tariff!;
    }

    /// <summary>Reads a tariff; null, with problems added, when it does not fit.</summary>
    internal static Tariff? Read(string path, ProblemList problems, Action<YamlMappingNode>? lay = null)
    {
        int before = problems.Count;
        if (YamlMap.Open(path, TariffSections.Tariff, problems, lay) is not YamlMap map) return null;
        string currency = map.Word("currency", "USD");
        if (currency.Length != 3 || !currency.All(char.IsAsciiLetterUpper)) map.Report("currency", "is no ISO 4217 code such as USD");
        DateTimeZone? zone = map.Text("zone")?.Zone();
        var versions = new List<TariffVersion>();
        YamlMap merged = map;
        foreach (YamlMap? change in map.Maps("later", TariffSections.Later).Prepend(null))
        {
            if (change is not null) merged = merged.OverriddenBy(change);
            TariffVersion version = VersionReader.Read(merged);
            if (change is not null && !change.Has("export")) version = version with { Export = versions[^1].Export };
            if (versions.Count > 0 && version.Effective <= versions[^1].Effective)
                merged.Report("effective", string.Create(CultureInfo.InvariantCulture, $"is not after {versions[^1].Effective:uuuu-MM-dd}, when the version before takes effect"));
            versions.Add(version);
        }
        var name = map.Name("name");
        if (problems.Count > before) return null;
        return new Tariff { Name = name, Publisher = map.Word("publisher"), Currency = currency, Zone = zone!, Versions = versions };
    }
}
