using EnergySim.Economics;
using EnergySim.Profiles;
using EnergySim.Studies.Outages;
using EnergySim.Tariffs;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Files;

/// <summary>A home as it was read, and what was done and assumed on the way.</summary>
/// <param name="Home">The home.</param>
/// <param name="Repairs">What was dropped or split because the file asked for it, and what was assumed where it says nothing, a sentence each.</param>
public sealed record HomeReading(Home Home, IReadOnlyList<string> Repairs)
{
    /// <summary>What the file asks of outages.</summary>
    public OutageTerms Outage { get; init; } = new();

    /// <summary>The files that it was read from with a digest of each, the home file first.</summary>
    public IReadOnlyList<InputFile> Inputs { get; init; } = [];
}

/// <summary>Reads home files (YAML) with the tariff and the profiles they name, all checked whole. Paths in a home file are relative to it.</summary>
public static class HomeFile
{
    /// <summary>Reads a home.</summary>
    /// <param name="path">The home file.</param>
    /// <param name="tariffPath">A tariff file to use in place of the home's; null = the home's.</param>
    /// <param name="folders">The folders from which this and all files named in it may be read, links followed; null = any.</param>
    /// <exception cref="ProblemsException">A file can not be read, or breaks a rule.</exception>
    public static HomeReading Read(string path, string? tariffPath = null, IReadOnlyList<string>? folders = null)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var problems = new ProblemList { Folders = folders };
        HomeReading? reading = Read(path, tariffPath, problems, HomeChanges.None);
        problems.ThrowIfAny();
        return reading!;
    }

    /// <summary>Reads a home with changes laid over its files; null, with problems added, when something does not fit.</summary>
    internal static HomeReading? Read(string path, string? tariffPath, ProblemList problems, HomeChanges changes)
    {
        if (YamlMap.Open(path, HomeSections.Home, problems, changes.LayOverHome) is not YamlMap map) return null;
        DateTimeZone? zone = map.Text("zone")?.Zone();
        Tariff? tariff = map.Text("tariff") is YamlText named ? changes.Tariff(tariffPath ?? Beside(path, named.Value), problems) : null;
        if (tariff is not null && zone is not null && tariff.Zone.Id != zone.Id) map.Report("tariff", $"is read on the clock of {tariff.Zone.Id}, the home is in {zone.Id}");
        var repairs = new List<string>();
        int? step = map.Text("stepMinutes")?.StepMinutes();
        Profile? load = map.Map("load", HomeSections.Load) is YamlMap l && zone is not null ? changes.Profile(l, zone, step, problems, repairs) : null;
        bool netted = map.Map("load", HomeSections.Load)?.Flag("nettedInInterval", false) ?? false;
        HomeSolar? solar = map.Map("solar", HomeSections.Solar) is YamlMap s && zone is not null ? ReadSolar(s, m => changes.Profile(m, zone, step, problems, repairs)) : null;
        if (map.Has("solar") && map.Has("roof")) map.ReportHere("solar (a profile) and roof (planes) exclude each other");
        else if (map.Map("roof", HomeSections.Roof) is YamlMap r && zone is not null) solar = changes.Roof(load?.Axis, () => RoofReader.Read(r, zone, load?.Axis, problems, repairs));
        if (load is not null && solar is not null && !load.Axis.IsSameAs(solar.Profile.Axis))
            map.ReportWhole("solar", $"it has {ProfileFile.Text(solar.Profile.Axis)}, the load has {ProfileFile.Text(load.Axis)}; they must be the same (stepMinutes brings both to one step)");
        var batteries = BatteryReader.ReadAll(map);
        var offers = map.Maps("offers", HomeSections.Offer).Select(o => OfferReader.Read(o, batteries, tariff, solar)).ToList();
        foreach (string twice in offers.OfType<Offer>().GroupBy(o => o.Name).Where(g => g.Count() > 1).Select(g => g.Key))
            map.ReportWhole("offers", $"two offers are called {twice}");
        if (map.Has("offers") && offers.Count == 0) map.ReportWhole("offers", "there is no offer");
        Service service = ReadService(map);
        WiringPlan? wiring = WiringReader.Read(map, service);
        Agreement? agreement = AgreementReader.Read(map, problems);
        if (wiring is not null) foreach (YamlMap offer in map.Maps("offers", HomeSections.Offer)) WiringReader.Breaker(offer, "breakerAmps");
        Account account = ReadAccount(map);
        OutageTerms outage = new OutageReader(load, m => zone is null ? null : changes.Profile(m, zone, step, problems, repairs)).Read(map);
        MoneyTerms money = new MoneyReader(map, [.. map.Maps("offers", HomeSections.Offer).Select(o => o.Word("offer"))], tariff, file => TariffFile.Read(Beside(path, file), problems)).Read();
        string name = map.Name("home");
        if (problems.Count > 0) return null;
        var home = new Home
        {
            Name = name,
            Place = map.Word("place"),
            Note = map.Word("note"),
            Load = load!,
            LoadIsNetted = netted,
            Solar = solar,
            Tariff = tariff!,
            Account = account,
            Service = service,
            Wiring = wiring,
            Agreement = agreement,
            Offers = [.. offers.Select(o => o!)],
            Money = money,
        };
        return new HomeReading(home, repairs) { Outage = outage, Inputs = [.. problems.Inputs] };
    }

    private static HomeSolar? ReadSolar(YamlMap map, Func<YamlMap, Profile?> read)
    {
        bool? isDc = map.Text("kind")?.Choice(("dc", true), ("ac", false));
        double? inverterKw = map.Number("inverterKw", Bounds.AboveZero);
        double? efficiency = map.Text("inverterEfficiency")?.Share(Bounds.Efficiency);
        if (isDc == true && !map.Has("inverterKw")) map.ReportHere("a dc profile needs inverterKw, the rating of today's inverter");
        if (isDc == false && map.Has("inverterEfficiency")) map.ReportWhole("inverterEfficiency", "an ac profile is metered behind the inverter; leave it out");
        Profile? profile = read(map);
        if (profile is null || isDc is not bool dc) return null;
        var solar = new HomeSolar { Profile = profile, IsDc = dc, InverterKw = inverterKw };
        return efficiency is double share ? solar with { InverterEfficiency = share } : solar;
    }

    private static Service ReadService(YamlMap map)
    {
        if (map.Map("service", HomeSections.Service) is not YamlMap s) return new Service();
        return new Service
        {
            Volts = s.Number("volts", Bounds.AboveZero) ?? 240,
            MainAmps = s.Number("mainAmps", Bounds.AboveZero),
            ImportLimitKw = s.Number("importLimitKw", Bounds.NotNegative),
            ExportLimitKw = s.Number("exportLimitKw", Bounds.NotNegative),
            GuardedBusbarAmps = s.Number("guardedBusbarAmps", Bounds.AboveZero),
            BusbarLimitKw = s.Number("busbarLimitKw", Bounds.NotNegative),
            RelievesImport = s.Flag("relievesImport", true),
        };
    }

    private static Account ReadAccount(YamlMap map)
    {
        if (map.Map("account", HomeSections.Account) is not YamlMap a) return new Account();
        LocalDate[] reads = [.. a.Texts("readDates").Select(t => t.Date()).OfType<LocalDate>()];
        for (int i = 1; i < reads.Length; i++)
            if (reads[i] <= reads[i - 1]) a.ReportWhole("readDates", $"{reads[i]:uuuu-MM-dd} does not come after {reads[i - 1]:uuuu-MM-dd}");
        if (reads.Length == 1) a.ReportWhole("readDates", "one date bounds no bill");
        return new Account { ReadDates = reads, Anniversary = a.Text("anniversary")?.Date() };
    }

    internal static string Beside(string path, string other) => Path.Combine(Path.GetDirectoryName(path) ?? "", other);
}
