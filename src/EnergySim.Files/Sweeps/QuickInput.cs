using System.Globalization;
using EnergySim.Equipment;
using EnergySim.Studies.Sweeps;

namespace EnergySim.Files;

/// <summary>
/// Inputs that change nothing that a home file reads but one number of an offer, a battery or the service: they are laid over the home
/// itself, which is some hundred times quicker than reading it anew and gives the same home. What is not known here is read.
/// </summary>
internal static class QuickInput
{
    private static readonly Dictionary<string, (Bounds Bounds, Func<Battery, double, Battery> Set)> s_battery = new()
    {
        ["capacityKwh"] = (Bounds.AboveZero, (b, v) => b with { CapacityKwh = v }),
        ["chargeLimitKw"] = (Bounds.AboveZero, (b, v) => b with { ChargeLimitKw = v }),
        ["dischargeLimitKw"] = (Bounds.AboveZero, (b, v) => b with { DischargeLimitKw = v }),
        ["inverterKw"] = (Bounds.AboveZero, (b, v) => b with { InverterKw = v }),
        ["standbyKw"] = (Bounds.NotNegative, (b, v) => b with { StandbyKw = v }),
        ["chargeEfficiency"] = (Bounds.Efficiency, (b, v) => b with { ChargeEfficiency = v }),
        ["dischargeEfficiency"] = (Bounds.Efficiency, (b, v) => b with { DischargeEfficiency = v }),
        ["inverterEfficiency"] = (Bounds.Efficiency, (b, v) => b with { InverterEfficiency = v }),
        ["rectifierEfficiency"] = (Bounds.Efficiency, (b, v) => b with { RectifierEfficiency = v }),
    };

    private static readonly Dictionary<string, Func<Service, double, Service>> s_service = new()
    {
        ["importLimitKw"] = (s, v) => s with { ImportLimitKw = v },
        ["exportLimitKw"] = (s, v) => s with { ExportLimitKw = v },
    };

    /// <summary>True when a path is one of those.</summary>
    public static bool Knows(IReadOnlyList<string> path) => path switch
    {
        ["offers", _, "units" or "price"] or ["offers", _, "strategy", "reserve"] => true,
        ["batteries", _, string key] => s_battery.ContainsKey(key),
        ["service", string key] => s_service.ContainsKey(key),
        _ => false,
    };

    /// <summary>The home with a value laid over it; null = it must be read.</summary>
    public static Home? Laid(Home home, IReadOnlyList<string> path, SweepValue value) => path[0] switch
    {
        "offers" => Offers(home, path, value),
        "batteries" => Batteries(home, path[1], path[2], value),
        _ => value.Number is double limit && !IsShare(value) && home.Wiring is null && home.Agreement is null && Bounds.NotNegative.FaultOf(limit) is null
            ? home with { Service = s_service[path[1]](home.Service, limit) } : null,
    };

    private static Home? Offers(Home home, IReadOnlyList<string> path, SweepValue value)
    {
        string segment = path[1], name = PathName.Of(segment);
        var offers = new Offer[home.Offers.Count];
        int laid = 0;
        bool isNumber = int.TryParse(segment, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number >= 1 && number <= offers.Length;
        for (int i = 0; i < offers.Length; i++)
        {
            Offer offer = offers[i] = home.Offers[i];
            if (segment != "*" && !(isNumber ? number == i + 1 : PathName.Of(offer.Name) == name)) continue;
            if (path[^1] switch { "reserve" => Reserve(offer, value), "price" => Price(offer, value), _ => Units(offer, value) } is not Offer changed) return null;
            offers[i] = changed;
            laid++;
        }
        return laid == 0 || (laid > 1 && segment != "*") ? null : home with { Offers = offers };
    }

    // A share is read as a decimal, so that 20 % and 0.2 are the same number.
    private static double? Share(SweepValue value) =>
        decimal.TryParse(value.Text, NumberStyles.Float, CultureInfo.InvariantCulture, out decimal share) ? (double)share : null;

    private static Offer? Reserve(Offer offer, SweepValue value) =>
        Share(value) is double share && Bounds.Share.FaultOf(share) is null ? offer with { Strategy = offer.Strategy with { ReserveFraction = share } } : null;

    private static Offer? Price(Offer offer, SweepValue value) =>
        decimal.TryParse(value.Text, NumberStyles.Float, CultureInfo.InvariantCulture, out decimal price) && price >= 0 && offer.PricesByUnits.Count == 0 ? offer with { Price = price } : null;

    // More units of a battery that takes the place of the roof's inverter may have too few inputs, or no price: that is the reader's to say.
    private static Offer? Units(Offer offer, SweepValue value) =>
        !offer.ReplacesSolarInverter && offer.PricesByUnits.Count == 0 && int.TryParse(value.Text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int units) && units is >= 1 and <= 50
            ? offer with { Units = units } : null;

    private static Home? Batteries(Home home, string segment, string key, SweepValue value)
    {
        (Bounds bounds, Func<Battery, double, Battery> set) = s_battery[key];
        double? number = ReferenceEquals(bounds, Bounds.Efficiency) ? Share(value) : IsShare(value) ? null : value.Number;
        if (number is not double at || bounds.FaultOf(at) is not null) return null;
        string name = PathName.Of(segment);
        var offers = new Offer[home.Offers.Count];
        string? known = null;
        for (int i = 0; i < offers.Length; i++)
        {
            Offer offer = offers[i] = home.Offers[i];
            if (segment != "*" && PathName.Of(offer.Battery.Name) != name) continue;
            if (segment != "*" && known is not null && known != offer.Battery.Name) return null;
            if (key == "capacityKwh" && at <= offer.Battery.LowestKwh) return null;
            known = offer.Battery.Name;
            offers[i] = offer with { Battery = set(offer.Battery, at) };
        }
        return known is null ? null : home with { Offers = offers };
    }

    private static bool IsShare(SweepValue value) => value.Text.EndsWith('%');
}
