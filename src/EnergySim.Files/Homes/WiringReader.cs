using System.Globalization;
using EnergySim.Wiring;

namespace EnergySim.Files;

/// <summary>Reads the wiring of a home file: panel, edition, loads and ways to connect.</summary>
internal static class WiringReader
{
    private const int UsualEdition = 2020;
    private const double UsualEquipmentVolts = 240;

    public static WiringPlan? Read(YamlMap home, Service service)
    {
        if (home.Map("wiring", HomeSections.Wiring) is not YamlMap map) return null;
        if (service.MainAmps is null) map.ReportHere("the wiring needs service.mainAmps, the rating of the main breaker");
        else if (!BreakerSizes.IsStandard(service.MainAmps.Value)) home.Map("service", null)!.Report("mainAmps", NotStandard(service.MainAmps.Value));
        Volts(map, service);
        ServicePanel panel = Panel(map, service);
        return new WiringPlan
        {
            Panel = panel,
            Edition = Edition(map),
            EditionIsStated = map.Has("edition"),
            Loads = map.Map("loads", HomeSections.Loads) is YamlMap loads ? DwellingLoadsReader.Read(loads) : null,
            KeptFraction = map.Share("kept") ?? 0.5,
            LargestLegKw = map.Number("largestLegKw", Bounds.NotNegative),
            Years = map.Text("years")?.Whole(1, 40) ?? 10,
            ReplaceWorkPrice = map.Money("replaceWorkPrice", negative: false),
            SplitWorkPrice = map.Money("splitWorkPrice", negative: false),
            Ways = Ways(map, panel),
        };
    }

    /// <summary>A breaker's rating; reported where it is not a standard size.</summary>
    public static double? Breaker(YamlMap map, string key)
    {
        if (map.Number(key, Bounds.AboveZero) is not double amps) return null;
        if (!BreakerSizes.IsStandard(amps)) map.Report(key, NotStandard(amps));
        return amps;
    }

    private static string NotStandard(double amps)
    {
        if (amps > BreakerSizes.All[^1]) return "is no standard breaker size (240.6(A)); the largest is 6000 A";
        double above = BreakerSizes.NextUp(amps);
        return string.Create(CultureInfo.InvariantCulture,
            $"is no standard breaker size (240.6(A)); {(BreakerSizes.LargestUpTo(amps) is double below ? string.Create(CultureInfo.InvariantCulture, $"the nearest are {below:0} and {above:0} A") : string.Create(CultureInfo.InvariantCulture, $"the nearest is {above:0} A"))}");
    }

    private static void Volts(YamlMap map, Service service)
    {
        double equipment = map.Number("equipmentVolts", Bounds.AboveZero) ?? UsualEquipmentVolts;
        // Range B of a 240 V service reaches down to 220 V (ANSI C84.1, from memory); 208 V is outside it.
        if (Math.Abs(equipment - service.Volts) > 0.1 * equipment)
            map.ReportHere(string.Create(CultureInfo.InvariantCulture, $"the service has {service.Volts:0.##} V and the equipment {equipment:0.##} V; state equipmentVolts as its data sheet allows"));
    }

    private static ServicePanel Panel(YamlMap map, Service service)
    {
        double main = service.MainAmps ?? 100, busbar = map.Number("busbarAmps", Bounds.AboveZero) ?? main;
        if (main > busbar)
            map.Report("busbarAmps", string.Create(CultureInfo.InvariantCulture, $"is below the main of {main:0.##} A, which then does not protect the busbar"));
        double? rated = map.Number("serviceAmps", Bounds.AboveZero);
        if (rated < main) map.Report("serviceAmps", string.Create(CultureInfo.InvariantCulture, $"is below the main of {main:0.##} A, which then does not protect the service"));
        return new ServicePanel
        {
            Volts = service.Volts,
            MainAmps = main,
            BusbarAmps = busbar,
            ServiceAmps = rated,
            SourceEnd = map.Text("sourceEnd")?.Choice(("opposite", SourceEnd.Opposite), ("anywhere", SourceEnd.Anywhere), ("centre-fed", SourceEnd.CentreFed)) ?? SourceEnd.Opposite,
            FreeSpaces = map.Text("freeSpaces")?.Whole(0, 200),
            LoadBreakersAmps = map.Number("loadBreakersAmps", Bounds.NotNegative),
            SolarBreakerAmps = Breaker(map, "solarBreakerAmps"),
            Feeders = [.. map.Maps("feeders", HomeSections.Feeder).Select(ReadFeeder)],
        };
    }

    private static Feeder ReadFeeder(YamlMap map) => new()
    {
        Name = map.Name("feeder"),
        BreakerAmps = Breaker(map, "breakerAmps") ?? 15,
        ConductorAmps = map.Number("conductorAmps", Bounds.AboveZero) ?? 15,
        DownstreamBreakerAmps = Breaker(map, "downstreamBreakerAmps"),
        TapAmps = map.Number("tapAmps", Bounds.AboveZero),
        TapFeet = map.Number("tapFeet", Bounds.AboveZero) ?? 10,
        LoadFraction = map.Text("load")?.Share(new Bounds(0, 1, "a share lies above 0 and at most at 1", true)) ?? 1,
    };

    private static CodeEdition Edition(YamlMap map)
    {
        CodeEdition usual = CodeEdition.Of(UsualEdition)!;
        if (map.Text("edition") is not YamlText text) return usual;
        if (text.Whole(1, 9999) is not int year) return usual;
        if (CodeEdition.Of(year) is CodeEdition edition) return edition;
        text.Report($"is no edition held here; they are {string.Join(", ", CodeEdition.All.Select(e => e.Year.ToString(CultureInfo.InvariantCulture)))}");
        return usual;
    }

    private static IReadOnlyList<WayToConnect> Ways(YamlMap map, ServicePanel panel)
    {
        if (!map.Has("ways")) return WayToConnect.Usual(panel);
        WayToConnect[] ways = [.. map.Maps("ways", HomeSections.Way).Select(w => Way(w, panel))];
        if (ways.Length == 0) map.ReportWhole("ways", "there is no way; leave the key out for the usual ones");
        foreach (string twice in ways.GroupBy(w => w.Name).Where(g => g.Count() > 1).Select(g => g.Key)) map.ReportWhole("ways", $"two ways are called {twice}");
        return ways;
    }

    private static WayToConnect Way(YamlMap map, ServicePanel panel)
    {
        ConnectionKind connects = map.Text("connects")?.Choice(
            ("breaker", ConnectionKind.Breaker), ("smaller-main", ConnectionKind.SmallerMain), ("guarded-busbar", ConnectionKind.GuardedBusbar),
            ("feeder", ConnectionKind.Feeder), ("guarded-feeder", ConnectionKind.GuardedFeeder), ("supply-side", ConnectionKind.SupplySide)) ?? ConnectionKind.Breaker;
        bool onFeeder = connects is ConnectionKind.Feeder or ConnectionKind.GuardedFeeder, guarded = connects is ConnectionKind.GuardedBusbar or ConnectionKind.GuardedFeeder;
        string? feeder = map.Text("feeder")?.Name("feeder of this panel", [.. panel.Feeders.Select(f => f.Name)]);
        if (onFeeder && !map.Has("feeder")) map.ReportHere("a connection in a sub-panel names its feeder");
        if (!onFeeder && map.Has("feeder")) map.ReportWhole("feeder", "only a connection in a sub-panel has a feeder");
        double? main = Breaker(map, "mainAmps");
        if (main is not null && connects != ConnectionKind.SmallerMain) map.ReportWhole("mainAmps", "only smaller-main changes the main");
        else if (main >= panel.MainAmps) map.Report("mainAmps", string.Create(CultureInfo.InvariantCulture, $"is not smaller than the main of {panel.MainAmps:0.##} A"));
        double? setting = map.Number("settingAmps", Bounds.AboveZero);
        double? rating = panel.Feeders.FirstOrDefault(f => f.Name == feeder) is Feeder f ? Math.Min(f.BreakerAmps, f.ConductorAmps) : panel.BusbarAmps;
        if (setting is not null && !guarded) map.ReportWhole("settingAmps", "only a guarded busbar or feeder has a setting");
        else if (setting > rating) map.Report("settingAmps", string.Create(CultureInfo.InvariantCulture, $"is above the rating of {rating:0.##} A that it is to guard"));
        return new WayToConnect
        {
            Name = map.Name("way"),
            Connects = connects,
            Keeps = map.Text("keeps")?.Choice(
                ("nothing", KeptRunning.Nothing), ("kept-circuits", KeptRunning.KeptCircuits), ("whole-home-at-meter", KeptRunning.WholeHomeAtMeter),
                ("whole-home-at-entrance", KeptRunning.WholeHomeAtEntrance)) ?? KeptRunning.Nothing,
            MainAmps = main,
            SettingAmps = setting,
            Feeder = feeder,
            Costs = [.. map.Maps("costs", HomeSections.Cost).Select(c => new CostItem(
                c.Name("item"), c.Money("labour", negative: false) ?? 0, c.Money("parts", negative: false) ?? 0, c.Number("days", Bounds.NotNegative) ?? 0))],
        };
    }
}
