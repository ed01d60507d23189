using System.Globalization;
using System.Text;
using EnergySim.Files;

namespace EnergySim.Web;

/// <summary>Writes what the form asks as a home file.</summary>
internal static class DraftText
{
    private static readonly string[] s_numbers = ["One battery", "Two batteries", "Three batteries", "Four batteries"];

    public static string Of(DraftRequest draft, string plan)
    {
        var text = new StringBuilder();
        void Line(FormattableString line) => text.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');
        Line($"# Begun with the form of the kitchen-table page. `energysim compare` reads it as it stands.");
        Line($"home: {HomeText.Quoted(draft.Name)}");
        if (draft.Place.Length > 0) Line($"place: {HomeText.Quoted(draft.Place)}");
        Line($"zone: {draft.Zone}");
        string limits = string.Join(", ", new[] { Entry("volts", 240), Entry("mainAmps", draft.MainAmps), Entry("exportLimitKw", draft.ExportLimitKw) }.Where(e => e.Length > 0));
        Line($"service: {{{limits}}}");
        if (draft.BusbarAmps is double busbar) Line($"wiring: {{busbarAmps: {busbar}}}");
        Line($"load: {{file: load.csv, column: load_kw, unit: kW, stamp: start}}");
        if (draft.Roof is DraftRoof roof)
        {
            Line($"roof:");
            Line($"  weather: {{file: {HomeText.Quoted(Path.GetFileName(roof.Weather))}}}");
            Line($"  inverterKw: {roof.InverterKw}");
            Line($"  planes:");
            for (int i = 0; i < roof.Planes.Count; i++) Line($"    - {{plane: plane {i + 1}, tilt: {roof.Planes[i].Tilt}, azimuth: {roof.Planes[i].Azimuth}, kw: {roof.Planes[i].Kw}}}");
        }
        Line($"tariff: {HomeText.Quoted(plan)}");
        Line($"# Efficiencies are figures of our own: put those of the data sheet in their place.");
        Line($"batteries:");
        Line($"  unit: {{capacityKwh: {draft.Battery.CapacityKwh}, chargeLimitKw: {draft.Battery.ChargeLimitKw}, dischargeLimitKw: {draft.Battery.DischargeLimitKw}, inverterKw: {draft.Battery.InverterKw}, chargeEfficiency: 0.97, dischargeEfficiency: 0.97, inverterEfficiency: 0.96, rectifierEfficiency: 0.96}}");
        Line($"offers:");
        foreach (DraftOffer offer in draft.Offers)
        {
            string name = offer.Units is >= 1 and <= 4 ? s_numbers[offer.Units - 1] : string.Create(CultureInfo.InvariantCulture, $"{offer.Units} batteries");
            string price = offer.Price is decimal p ? string.Create(CultureInfo.InvariantCulture, $", price: {p}") : "";
            Line($"  - {{offer: {name}, battery: unit, units: {offer.Units}{price}, strategy: {{base: peak-window, reserve: {draft.ReserveFraction}}}}}");
        }
        return text.ToString();
    }

    private static string Entry(string key, double? value) => value is double number ? string.Create(CultureInfo.InvariantCulture, $"{key}: {number}") : "";
}
