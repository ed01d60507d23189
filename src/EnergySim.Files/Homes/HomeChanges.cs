using System.Collections.Concurrent;
using EnergySim.Profiles;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;
using YamlDotNet.RepresentationModel;

namespace EnergySim.Files;

/// <summary>
/// What a home file is read with beside itself: values laid over it and over its tariff, and a memory of series and plans that stay the same
/// from one reading to the next.
/// </summary>
internal sealed class HomeChanges
{
    private readonly IReadOnlyList<KeyChange> _changes;
    private readonly HomeMemory? _memory;

    /// <param name="changes">The changes, in order.</param>
    /// <param name="memory">What is remembered; null = all is read anew.</param>
    public HomeChanges(IReadOnlyList<KeyChange> changes, HomeMemory? memory) => (_changes, _memory) = (changes, memory);

    /// <summary>The file as it stands.</summary>
    public static HomeChanges None { get; } = new([], null);

    /// <summary>Lays the home's own changes over it.</summary>
    public void LayOverHome(YamlMappingNode root)
    {
        foreach (KeyChange change in _changes)
            if (!change.IsOfTariff) change.LayOver(root);
    }

    /// <summary>The home's tariff.</summary>
    public Tariff? Tariff(string file, ProblemList problems)
    {
        KeyChange[] own = [.. _changes.Where(c => c.IsOfTariff)];
        Tariff? Read() => TariffFile.Read(file, problems, own.Length == 0 ? null : root =>
        {
            foreach (KeyChange change in own) change.LayOver(root);
        });
        return _memory is null ? Read() : _memory.Tariffs.Get($"{file}\n{KeyChange.TextOf(own)}", Read);
    }

    /// <summary>A profile that the home names.</summary>
    public Profile? Profile(YamlMap map, DateTimeZone zone, int? step, ProblemList problems, List<string> repairs)
    {
        if (ColumnReader.Read(map) is not ProfileColumn column || map.Text("file") is not YamlText file) return null;
        double factor = map.Number("factor", Bounds.NotNegative) ?? 1;
        string path = HomeFile.Beside(map.File, file.Value);
        ProfileReading? Read()
        {
            ProfileReading? reading = ProfileFile.Read(path, column, zone, null, problems);
            if (reading is null || step is not int minutes) return reading;
            if (reading.Profile.Axis.Count * reading.Profile.Axis.StepMinutes % minutes == 0) return reading with { Profile = reading.Profile.Resampled(minutes) };
            map.ReportHere($"its span is not a whole number of intervals of {minutes} minutes");
            return null;
        }
        ProfileReading? read = _memory is null ? Read() : _memory.Profiles.Get(
            FormattableString.Invariant($"{path}\n{column with { StampColumns = [] }}\n{string.Join('\n', column.StampColumns)}\n{zone.Id}\n{step}"), Read);
        if (read is null) return null;
        repairs.AddRange(read.Repairs);
        return read.Profile.Scaled(factor);
    }

    /// <summary>The solar of a roof, whose making takes its time.</summary>
    public HomeSolar? Roof(TimeAxis? axis, Func<HomeSolar?> read) =>
        _memory is null || axis is null ? read() : _memory.Roofs.Get((axis, KeyChange.TextOf(_changes.Where(c => c.Path[0] is "roof" or "zone" or "stepMinutes"))), read);
}

/// <summary>Series and plans read before. May be asked on several threads.</summary>
internal sealed class HomeMemory
{
    public Recall<string, ProfileReading> Profiles { get; } = new(64);

    public Recall<string, Tariff> Tariffs { get; } = new(256);

    public Recall<(TimeAxis Axis, string Changes), HomeSolar> Roofs { get; } = new(16);
}

/// <summary>The last results of a slow reading; a reading that gives none is not kept.</summary>
/// <param name="most">How many are kept.</param>
internal sealed class Recall<TKey, TValue>(int most) where TKey : notnull where TValue : class
{
    private readonly ConcurrentDictionary<TKey, TValue> _known = new();

    public TValue? Get(TKey key, Func<TValue?> read)
    {
        if (_known.TryGetValue(key, out TValue? known)) return known;
        if (read() is not TValue made) return null;
        if (_known.Count >= most) _known.Clear();
        // Of two threads that read the same at once the first is kept, so that all share one object.
        return _known.GetOrAdd(key, made);
    }
}
