using System.Collections.Concurrent;
using EnergySim.Studies.Sweeps;
using YamlDotNet.RepresentationModel;

namespace EnergySim.Files;

/// <summary>
/// The homes of a sweep's variants. A home is read once for every set of values that changes what it reads; inputs that only change an offer, a
/// battery or a limit are then laid over the home itself. May be asked on several threads.
/// </summary>
public sealed class SweepHomes
{
    private const int KeptHomes = 64;

    private readonly SweepPlan _plan;
    private readonly IReadOnlyList<string> _homes, _tariffs;
    private readonly string[][] _paths;
    private readonly bool[] _isQuick;
    private readonly HomeMemory _memory = new();
    private readonly Recall<string, SweptHome> _read = new(KeptHomes);
    private readonly Dictionary<(int Home, int Tariff), string> _currencies = [];
    private readonly ConcurrentDictionary<(int Home, int Tariff, int Input), string?> _own = new();

    private SweepHomes(SweepPlan plan, IReadOnlyList<string> homes, IReadOnlyList<string> tariffs, bool quickly)
    {
        (_plan, _homes, _tariffs) = (plan, homes, tariffs);
        _paths = [.. plan.Inputs.Select(i => i.Path.Split('.'))];
        _isQuick = [.. plan.Inputs.Select((input, i) => quickly && !input.Multiplies && QuickInput.Knows(_paths[i]))];
    }

    /// <summary>Names of all offers of the homes as their files have them, in order of appearance.</summary>
    public IReadOnlyList<string> Offers { get; private set; } = [];

    /// <summary>The home of a variant.</summary>
    public SweptHome Of(PlannedVariant variant)
    {
        ArgumentNullException.ThrowIfNull(variant);
        SweptHome home = Changed(variant, i => !_isQuick[i]);
        if (home.Error is not null) return home;
        Home changed = home.Home;
        for (int i = 0; i < _paths.Length; i++)
        {
            if (!_isQuick[i] || variant.Values[i] is not SweepValue value) continue;
            // What the quick way does not take (a word, a number out of range) is read, and told as reading tells it.
            if (QuickInput.Laid(changed, _paths[i], value) is not Home laid) return Changed(variant, _ => true);
            changed = laid;
        }
        return ReferenceEquals(changed, home.Home) ? home : SweptHome.Of(changed, home.Outage);
    }

    /// <summary>What a home file, or its tariff, has at an input's path; null = nothing, or several values.</summary>
    public string? OwnValue(PlannedVariant variant, int input)
    {
        ArgumentNullException.ThrowIfNull(variant);
        return _own.GetOrAdd((variant.Home, variant.Tariff, input), key => FindOwn(key.Home, key.Tariff, key.Input));
    }

    /// <summary>The money of a variant's plan, an ISO 4217 code.</summary>
    public string CurrencyOf(PlannedVariant variant)
    {
        ArgumentNullException.ThrowIfNull(variant);
        return _currencies[(variant.Home, variant.Tariff)];
    }

    /// <summary>Reads every home as it stands, and asks whether each input is one of it; null, with problems, when something does not fit.</summary>
    internal static SweepHomes? Read(SweepPlan plan, IReadOnlyList<string> homes, IReadOnlyList<string> tariffs, IReadOnlyList<YamlMap> inputs, ProblemList problems, bool quickly)
    {
        var read = new SweepHomes(plan, homes, tariffs, quickly);
        var offers = new List<string>();
        for (int h = 0; h < homes.Count; h++)
            for (int t = 0; t < Math.Max(1, tariffs.Count); t++)
            {
                if (HomeFile.Read(homes[h], read.TariffOf(t), problems, new HomeChanges([], read._memory)) is not HomeReading own) continue;
                read._currencies[(h, t)] = own.Home.Tariff.Currency;
                offers.AddRange(own.Home.Offers.Select(o => o.Name).Except(offers));
                for (int i = 0; i < inputs.Count; i++)
                    if (read.FaultOf(h, t, i) is string fault) inputs[i].Report("input", $"{fault} ({Path.GetFileName(homes[h])})");
            }
        read.Offers = offers;
        return problems.Count > 0 ? null : read;
    }

    private string? TariffOf(int tariff) => _tariffs.Count == 0 ? null : _tariffs[tariff];

    private SweptHome Changed(PlannedVariant variant, Func<int, bool> isLaid)
    {
        var changes = new List<KeyChange>();
        for (int i = 0; i < _paths.Length; i++)
            if (isLaid(i) && variant.Values[i] is SweepValue value) changes.Add(new KeyChange(_paths[i], _plan.Inputs[i].Multiplies, value));
        string key = FormattableString.Invariant($"{variant.Home} {variant.Tariff}\n{KeyChange.TextOf(changes)}");
        return _read.Get(key, () => Read(variant, changes))!;
    }

    private SweptHome Read(PlannedVariant variant, List<KeyChange> changes)
    {
        var problems = new ProblemList();
        string? error = null;
        HomeReading? reading = null;
        try
        {
            reading = HomeFile.Read(_homes[variant.Home], TariffOf(variant.Tariff), problems, new HomeChanges(changes, _memory));
            problems.ThrowIfAny();
        }
        catch (ProblemsException fault)
        {
            error = ErrorOf(fault.Problems[0], _homes[variant.Home]);
        }
        catch (ArgumentException fault)
        {
            error = fault.Message.Split('\n')[0].Trim();
        }
        return error is null ? SweptHome.Of(reading!.Home, reading.Outage) : SweptHome.Failed(error);
    }

    // Where the home file breaks the rule, the key says it; a line of the file would not hold what stands in the sweep.
    private static string ErrorOf(Problem problem, string home) =>
        (problem with { File = problem.File == home ? "" : problem.File, Line = problem.File == home ? null : problem.Line, Column = null }).ToString().TrimStart(' ', ':');

    private string? FaultOf(int home, int tariff, int input)
    {
        string[] path = _paths[input];
        var change = new KeyChange(path, _plan.Inputs[input].Multiplies, _plan.Inputs[input].Values.At(0.5));
        if (path is ["tariff"] && _tariffs.Count > 0) return "and the sweep's tariffs exclude each other";
        string file = change.IsOfTariff ? TariffFileOf(home, tariff) : _homes[home];
        if (YamlMap.RootOf(file, new ProblemList()) is not YamlMappingNode root) return null;
        IReadOnlyList<YamlPlace> places = YamlPath.Find(root, change.Within, out string? fault);
        if (fault is not null) return fault;
        if (change.Multiplies && places.Any(p => p.Value?.Value is not string own || SweepValue.Written(own).Number is null)) return "has no number there to multiply";
        if (places.All(p => p.Value is not null)) return null;
        // A key that is not there yet may be one that can be.
        var problems = new ProblemList();
        try
        {
            HomeFile.Read(_homes[home], TariffOf(tariff), problems, new HomeChanges([change], _memory));
            problems.ThrowIfAny();
        }
        catch (ProblemsException found)
        {
            return found.Problems.FirstOrDefault(p => p.Rule.StartsWith("is not a key here", StringComparison.Ordinal)) is Problem strange ? $"ends in {strange.Value}, which {strange.Rule}" : null;
        }
        return null;
    }

    private string? FindOwn(int home, int tariff, int input)
    {
        var change = new KeyChange(_paths[input], false, default);
        string file = change.IsOfTariff ? TariffFileOf(home, tariff) : _homes[home];
        if (_plan.Inputs[input].Multiplies) return "1";
        if (YamlMap.RootOf(file, new ProblemList()) is not YamlMappingNode root) return null;
        IReadOnlyList<YamlPlace> places = YamlPath.Find(root, change.Within, out _);
        string? own = places.Select(p => p.Value?.Value).Distinct().Count() == 1 ? places[0].Value?.Value : null;
        return own ?? (_paths[input] is ["load" or "solar", "factor"] ? "1" : null);
    }

    private string TariffFileOf(int home, int tariff)
    {
        if (TariffOf(tariff) is string given) return given;
        YamlMappingNode? root = YamlMap.RootOf(_homes[home], new ProblemList());
        return root?.Children.TryGetValue(new YamlScalarNode("tariff"), out YamlNode? named) == true ? HomeFile.Beside(_homes[home], (named as YamlScalarNode)?.Value ?? "") : "";
    }
}
