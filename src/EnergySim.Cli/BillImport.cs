using System.Globalization;
using System.Text.Json;
using EnergySim.Files;
using EnergySim.Profiles;
using EnergySim.Profiles.Shapes;
using EnergySim.Studies;
using EnergySim.Time;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Cli;

/// <summary><c>energysim import --bills</c>: a year of intervals from bills, and what the unknown shape does to the answer.</summary>
internal static class BillImport
{
    private const int DefaultStepMinutes = 15;

    public static int Run(string file, string[] others, BillTerms terms, MeterOptions options, string? to, bool asJson, TextWriter output)
    {
        if (others.Length > 0) throw new ArgumentException("--bills: bills stand in place of meter data; name no other file.");
        DateTimeZone zone = options.Zone ?? throw new ArgumentException("--bills: say the house's zone, such as --zone America/Denver.");
        IReadOnlyList<MeteredBill> bills = file.EndsWith(".xml", StringComparison.OrdinalIgnoreCase) ? BillFile.Of(MeterFile.Read(file, options)) : BillFile.Read(file);
        int step = options.StepMinutes ?? DefaultStepMinutes;
        Profile load = LoadOf(zone, bills, terms, terms.House, step);
        List<ShapeOutcome> band = [.. Shapes(terms.House).Select(s => Outcome(s.Name, LoadOf(zone, bills, terms, s.House, step), terms))];
        if (to is not null) ProfileCsv.Write(to, ("load_kw", load));
        if (asJson) output.WriteLine(ImportVerb.JsonOf(stream => Json(stream, file, bills, load, band, to)));
        else Text(output, file, bills, load, terms, band, to);
        return Commands.Done;
    }

    private sealed record ShapeOutcome(string Name, double EveningFraction, double PeakKw, IReadOnlyList<(string Offer, decimal Saving)> Savings);

    private static Profile LoadOf(DateTimeZone zone, IReadOnlyList<MeteredBill> bills, BillTerms terms, HouseShape house, int step)
    {
        Profile load = BillYear.Of(zone, bills, house, step);
        var kw = load.Kw.ToArray();
        foreach ((_, Profile added) in Added(load.Axis, terms, house))
            for (int i = 0; i < kw.Length; i++) kw[i] += added.Kw[i];
        return new Profile(load.Axis, kw.AsSpan());
    }

    private static IEnumerable<(string Name, Profile Profile)> Added(TimeAxis axis, BillTerms terms, HouseShape house)
    {
        if (terms.Vehicle is VehicleCharging vehicle) yield return ("vehicle", AddedLoads.Vehicle(axis, vehicle));
        if (terms.HeatPumpKwh is double heat) yield return ("heat pump", AddedLoads.HeatPump(axis, heat, house));
        if (terms.InductionKwh is double cook) yield return ("induction", AddedLoads.Induction(axis, cook, house));
        if (terms.PoolKwh is double pool) yield return ("pool pump", AddedLoads.Pool(axis, pool));
    }

    // The same bills in other houses: people who keep other hours, and another year's weather.
    private static IEnumerable<(string Name, HouseShape House)> Shapes(HouseShape house)
    {
        foreach (Presence presence in Enum.GetValues<Presence>())
            for (ulong more = 0; more < 2; more++)
                yield return (string.Create(CultureInfo.InvariantCulture, $"{Words(presence)}, seed {house.Seed + more}"), house with { Presence = presence, Seed = house.Seed + more });
    }

    private static string Words(Presence presence) => presence switch { Presence.HomeByDay => "home by day", Presence.LateEvenings => "late evenings", _ => "out by day" };

    private static ShapeOutcome Outcome(string name, Profile load, BillTerms terms)
    {
        double evening = 0, all = 0, peak = 0;
        for (int i = 0; i < load.Kw.Length; i++)
        {
            all += load.Kw[i];
            peak = Math.Max(peak, load.Kw[i]);
            if (load.Axis.LocalMinuteOf(i) is >= 960 and < 1260) evening += load.Kw[i];
        }
        var savings = new List<(string, decimal)>();
        if (terms.Home is not null)
        {
            Home home = HomeFile.Read(terms.Home).Home;
            if (!home.Load.Axis.IsSameAs(load.Axis))
                throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"--home: the bills cover {load.Axis.Count:N0} intervals of {load.Axis.StepMinutes} minutes from {load.Axis.LocalDateOf(0):uuuu-MM-dd}, the home's load {home.Load.Axis.Count:N0} of {home.Load.Axis.StepMinutes} from {home.Load.Axis.LocalDateOf(0):uuuu-MM-dd}; they must be the same (--step, --zone)."));
            Comparison comparison = ComparisonStudy.Of(home with { Load = load });
            savings.AddRange(comparison.Columns.Skip(1).Select(c => (c.Name, c.AnnualSaving)));
        }
        return new ShapeOutcome(name, all > 0 ? evening / all : 0, peak, savings);
    }

    private static void Text(TextWriter output, string file, IReadOnlyList<MeteredBill> bills, Profile load, BillTerms terms, List<ShapeOutcome> band, string? to)
    {
        output.WriteLine(file);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {bills.Count} bills, {bills[0].From:uuuu-MM-dd} to {bills[^1].To:uuuu-MM-dd}, {bills.Sum(b => b.Kwh):N1} kWh, laid out in {load.Axis.Count:N0} intervals of {load.Axis.StepMinutes} minutes; each bill's energy is kept"));
        foreach ((string name, Profile added) in Added(load.Axis, terms, terms.House)) output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  to come: {name}, {added.EnergyKwh:N1} kWh"));
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  load {load.EnergyKwh:N1} kWh"));
        output.WriteLine();
        output.WriteLine("The hours are not measured: they are those of a reference house of ours. What the unknown shape does:");
        foreach (ShapeOutcome shape in band)
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {shape.Name,-24} 16–21 h {shape.EveningFraction,4:P0} of the energy, peak {shape.PeakKw,5:0.0} kW{string.Concat(shape.Savings.Select(s => string.Create(CultureInfo.InvariantCulture, $", {s.Offer} saves {s.Saving:N0}")))}"));
        for (int o = 0; o < band[0].Savings.Count; o++)
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{band[0].Savings[o].Offer}: saves {band.Min(b => b.Savings[o].Saving):N0} to {band.Max(b => b.Savings[o].Saving):N0} a year, depending on the shape."));
        if (to is not null) ImportText.Written(output, to, isNetted: false);
    }

    private static void Json(Stream stream, string file, IReadOnlyList<MeteredBill> bills, Profile load, List<ShapeOutcome> band, string? to)
    {
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" });
        json.WriteStartObject();
        json.WriteString("file", file);
        json.WriteString("from", LocalDatePattern.Iso.Format(bills[0].From));
        json.WriteString("to", LocalDatePattern.Iso.Format(bills[^1].To));
        json.WriteNumber("billKwh", bills.Sum(b => b.Kwh));
        json.WriteNumber("loadKwh", Math.Round(load.EnergyKwh, 6));
        json.WriteNumber("stepMinutes", load.Axis.StepMinutes);
        json.WriteNumber("intervals", load.Axis.Count);
        json.WriteStartArray("shapes");
        foreach (ShapeOutcome shape in band)
        {
            json.WriteStartObject();
            json.WriteString("name", shape.Name);
            json.WriteNumber("eveningFraction", Math.Round(shape.EveningFraction, 6));
            json.WriteNumber("peakKw", Math.Round(shape.PeakKw, 6));
            json.WriteStartObject("annualSaving");
            foreach ((string offer, decimal saving) in shape.Savings) json.WriteNumber(offer, saving);
            json.WriteEndObject();
            json.WriteEndObject();
        }
        json.WriteEndArray();
        if (to is not null) json.WriteString("written", to);
        json.WriteEndObject();
    }
}
