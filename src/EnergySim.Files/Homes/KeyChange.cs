using System.Globalization;
using EnergySim.Studies.Sweeps;
using YamlDotNet.RepresentationModel;

namespace EnergySim.Files;

/// <summary>A value laid over a home file, or over its tariff where the path begins with <c>tariff.</c></summary>
/// <param name="Path">The keys.</param>
/// <param name="Multiplies">True when it multiplies what stands there.</param>
/// <param name="Value">The value.</param>
internal sealed record KeyChange(IReadOnlyList<string> Path, bool Multiplies, SweepValue Value)
{
    /// <summary>True when it changes the tariff's file.</summary>
    public bool IsOfTariff => Path.Count > 1 && Path[0] == "tariff";

    /// <summary>The keys within its file.</summary>
    public IReadOnlyList<string> Within => IsOfTariff ? [.. Path.Skip(1)] : Path;

    /// <summary>Changes in words that differ where they do.</summary>
    public static string TextOf(IEnumerable<KeyChange> changes) =>
        string.Join('\n', changes.Select(c => $"{string.Join('.', c.Path)}{(c.Multiplies ? "*" : "=")}{c.Value.Text}"));

    /// <summary>Lays it over its file's mapping.</summary>
    /// <exception cref="ProblemsException">The path leads nowhere, or what stands there is no number to multiply.</exception>
    public void LayOver(YamlMappingNode root)
    {
        IReadOnlyList<YamlPlace> places = YamlPath.Find(root, Within, out string? fault);
        if (fault is not null) throw Fault(fault);
        foreach (YamlPlace place in places) place.Put(Multiplies ? Product(place) : Value.Text);
    }

    private string Product(YamlPlace place)
    {
        if (place.Value?.Value is not string own || SweepValue.Written(own).Number is not double number) throw Fault("has no number there to multiply");
        string factor = Value.Number is double times ? SweepValue.Of(number * times).Text : throw Fault(string.Create(CultureInfo.InvariantCulture, $"can not be multiplied by {Value.Text}"));
        return factor;
    }

    private ProblemsException Fault(string rule) => new([new Problem { File = "", Field = string.Join('.', Path), Rule = rule }]);
}
