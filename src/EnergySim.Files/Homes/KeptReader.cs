using EnergySim.Profiles;
using EnergySim.Studies.Outages;

namespace EnergySim.Files;

/// <summary>Reads what of the house is kept running in an outage.</summary>
/// <param name="house">The house's load; null when it could not be read.</param>
/// <param name="profile">Reads a profile section; null with problems.</param>
internal sealed class KeptReader(Profile? house, Func<YamlMap, Profile?> profile)
{
    public KeptLoad Read(YamlMap map)
    {
        if (((string[])["kept", "keptProfile", "keptAppliances"]).Count(map.Has) > 1) map.ReportHere("kept, keptProfile and keptAppliances exclude each other");
        LoadSource source = map.Has("keptProfile") ? OfProfile(map, "keptProfile")
            : map.Has("keptAppliances") ? OfAppliances(map, "keptAppliances")
            : LoadSource.Share(map.Share("kept") ?? 1);
        return new KeptLoad { Base = source, Parts = [.. map.Maps("parts", OutageSections.Part).Select(Part)] };
    }

    private LoadPart Part(YamlMap map)
    {
        if (((string[])["share", "profile", "appliances"]).Count(map.Has) != 1) map.ReportHere("one of share, profile and appliances says how much it uses");
        double? off = map.Share("offBelow"), on = map.Share("onAbove");
        if (map.Has("onAbove") && !map.Has("offBelow")) map.ReportWhole("onAbove", "it comes on again only where offBelow says when it goes off");
        else if (on < off) map.Report("onAbove", "is below offBelow");
        return new LoadPart
        {
            Name = map.Name("part"),
            Source = map.Has("profile") ? OfProfile(map, "profile") : map.Has("appliances") ? OfAppliances(map, "appliances") : LoadSource.Share(map.Share("share") ?? 0),
            KeptFraction = map.Share("kept") ?? 1,
            OffBelowFraction = off,
            OnAboveFraction = on,
        };
    }

    private LoadSource OfProfile(YamlMap map, string key)
    {
        if (map.Map(key, HomeSections.Load) is not YamlMap section || profile(section) is not Profile own) return LoadSource.Share(0);
        if (house is not null && !own.Axis.IsSameAs(house.Axis))
            section.ReportHere($"it has {ProfileFile.Text(own.Axis)}, the load has {ProfileFile.Text(house.Axis)}; they must be the same");
        return new LoadSource { Profile = own };
    }

    private static LoadSource OfAppliances(YamlMap map, string key)
    {
        Appliance[] list = [.. map.Maps(key, OutageSections.Appliance).Select(a => new Appliance
        {
            Name = a.Name("appliance"),
            Watts = a.Number("watts", Bounds.NotNegative) ?? 0,
            Window = a.Window(),
            Days = a.Text("days")?.Choice(("every", ApplianceDays.Every), ("weekdays", ApplianceDays.Weekdays), ("weekends", ApplianceDays.Weekends)) ?? ApplianceDays.Every,
        })];
        if (list.Length == 0) map.ReportWhole(key, "there is no appliance");
        return new LoadSource { Appliances = list };
    }
}
