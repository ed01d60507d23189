using System.Globalization;
using System.Text.Json;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.TestData;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Tests.Homes;

/// <summary>
/// One of the random homes whose answers an independent implementation of ENGINE.md and TARIFF.md worked out
/// (shared/data/homes/README.md says what the files hold).
/// </summary>
internal sealed class HomeCase
{
    public const int Count = 84;

    private HomeCase(int number, JsonElement definition, JsonElement expected, string folder)
    {
        Number = number;
        Definition = definition;
        Expected = expected;
        Folder = folder;
        Zone = DateTimeZoneProviders.Tzdb[definition.GetProperty("zone").GetString()!];
        string[] lines = File.ReadAllLines(Path.Combine(folder, "series.csv"));
        string[] header = lines[0].Split(',');
        string[][] rows = [.. lines.Skip(1).Where(l => l.Length > 0).Select(l => l.Split(','))];
        var starts = rows.Select(r => InstantPattern.General.Parse(r[0]).Value).ToArray();
        int step = (int)(starts[1] - starts[0]).TotalMinutes;
        Axis = new TimeAxis(Zone, starts[0], step, rows.Length);
        Assert.Equal(starts[^1], Axis.StartOf(rows.Length - 1));
        Load = Column(header, rows, "load_kw");
        SolarDc = Column(header, rows, "solar_dc_kw");
        SolarAc = Column(header, rows, "solar_ac_kw");
        IsOnGrid = definition.GetProperty("grid").GetBoolean();
        Plant = ReadPlant(definition.GetProperty("plant"));
        Site = ReadSite(definition.GetProperty("wiring"));
        StartKwh = definition.TryGetProperty("e0", out JsonElement e0) && e0.ValueKind == JsonValueKind.Number ? e0.GetDouble() : null;
        if (header.Contains("floor"))
            SetPoints = SetPoints.Of([.. rows.Select(r => new SetPointRow(
                NumberIn(header, r, "floor"), NumberIn(header, r, "solarCeiling"), NumberIn(header, r, "gridCeiling"),
                NumberIn(header, r, "importTarget"), NumberIn(header, r, "sellDown")))]);
        else if (definition.TryGetProperty("strategy", out JsonElement strategy) && strategy.ValueKind == JsonValueKind.Object)
            SetPoints = ReadStrategy(strategy).Compile(Plant, Axis);
    }

    public int Number { get; }

    public JsonElement Definition { get; }

    public JsonElement Expected { get; }

    public string Folder { get; }

    public DateTimeZone Zone { get; }

    public TimeAxis Axis { get; }

    public Profile Load { get; }

    public Profile SolarDc { get; }

    public Profile SolarAc { get; }

    public Plant Plant { get; }

    public SiteLimits Site { get; }

    public bool IsOnGrid { get; }

    public double? StartKwh { get; }

    public SetPoints? SetPoints { get; }

    public Run Run => new(Load, SolarDc, SolarAc, Plant, Site, SetPoints, StartKwh, !IsOnGrid);

    public static HomeCase Read(int number)
    {
        string folder = SharedData.DataPath("homes", number.ToString("0000", CultureInfo.InvariantCulture));
        JsonElement Json(string file) => JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, file))).RootElement;
        return new HomeCase(number, Json("case.json"), Json("expected.json"), folder);
    }

    public static double ParseNumber(string text) =>
        text == "inf" ? double.PositiveInfinity : double.Parse(text, CultureInfo.InvariantCulture);

    private Profile Column(string[] header, string[][] rows, string name) =>
        new(Axis, rows.Select(r => NumberIn(header, r, name)).ToArray());

    private static double NumberIn(string[] header, string[] row, string name) => ParseNumber(row[Array.IndexOf(header, name)]);

    private static double Value(JsonElement at, string name, double otherwise) =>
        at.TryGetProperty(name, out JsonElement value) && value.ValueKind == JsonValueKind.Number ? value.GetDouble() : otherwise;

    private static bool Flag(JsonElement at, string name, bool otherwise) =>
        at.TryGetProperty(name, out JsonElement value) && value.ValueKind is JsonValueKind.True or JsonValueKind.False ? value.GetBoolean() : otherwise;

    private static Taper TaperOf(JsonElement at, string name) =>
        at.TryGetProperty(name, out JsonElement value) && value.ValueKind == JsonValueKind.Array
            ? new Taper([.. value.EnumerateArray().Select(p => (p[0].GetDouble(), p[1].GetDouble()))])
            : Taper.None;

    private static Plant ReadPlant(JsonElement p) => new()
    {
        HighestKwh = Value(p, "Emax", 0),
        LowestKwh = Value(p, "Emin", 0),
        ChargeLimitKw = Value(p, "Pc", double.PositiveInfinity),
        DischargeLimitKw = Value(p, "Pd", double.PositiveInfinity),
        ChargeEfficiency = Value(p, "eta_c", 1),
        DischargeEfficiency = Value(p, "eta_d", 1),
        InverterKw = Value(p, "Pinv", double.PositiveInfinity),
        InverterEfficiency = Value(p, "eta_inv", 1),
        RectifierEfficiency = Value(p, "eta_rec", 1),
        SolarInputKw = Value(p, "Psol", double.PositiveInfinity),
        StandbyKw = Value(p, "standby", 0),
        RestartKwh = p.TryGetProperty("restart", out JsonElement restart) && restart.ValueKind == JsonValueKind.Number ? restart.GetDouble() : null,
        WakesBySolar = Flag(p, "wake", true),
        ChargeTaper = TaperOf(p, "taper_c"),
        DischargeTaper = TaperOf(p, "taper_d"),
        SeparateSolar = new SeparateSolarInverter(
            p.TryGetProperty("ac_rating", out JsonElement rating) && rating.ValueKind == JsonValueKind.Number ? rating.GetDouble() : null,
            Flag(p, "ac_follows", true)),
    };

    private static SiteLimits ReadSite(JsonElement w) => new()
    {
        InverterBreakerKw = Value(w, "OUT", double.PositiveInfinity),
        ImportKw = Value(w, "IMPORT", double.PositiveInfinity),
        ExportKw = Value(w, "EXPORT", double.PositiveInfinity),
        BusbarKw = Value(w, "BUS", double.PositiveInfinity),
        RelievesImport = Flag(w, "relieve", true),
        AcSolarOnBusbar = Flag(w, "ac_on_bus", true),
        ManagesLoad = Flag(w, "managed", true),
    };

    private static Strategy ReadStrategy(JsonElement s)
    {
        ClockWindow Window(JsonElement at) => new(Minute(at[0].GetString()!), Minute(at[1].GetString()!));
        static int Minute(string text) => ClockWindow.TryParseMinute(text, out int minute) ? minute : throw new FormatException(text);
        static Instant At(string text) => OffsetDateTimePattern.ExtendedIso.Parse(text).Value.ToInstant();
        return new Strategy
        {
            Base = s.GetProperty("base").GetString() switch
            {
                "hold" => Steering.Hold,
                "self_use" => Steering.SelfUse,
                "peak" => Steering.PeakWindow,
                "shave" => Steering.DemandShaving,
                var other => throw new FormatException(other),
            },
            ReserveFraction = Value(s, "reserve", 0),
            PeakWindows = s.TryGetProperty("peak", out JsonElement peak) ? [Window(peak)] : [],
            ShaveToKw = Value(s, "shave_kw", 0),
            RefillFraction = Value(s, "refill", 0),
            Overnight = s.TryGetProperty("night", out JsonElement night) ? new OvernightCharge(Window(night), night[2].GetDouble()) : null,
            Sale = s.TryGetProperty("sell", out JsonElement sell) ? new BatterySale(Window(sell), sell[2].GetDouble()) : null,
            Storm = s.TryGetProperty("storm", out JsonElement storm)
                ? new StormPreparation(At(storm[0].GetString()!), At(storm[1].GetString()!), storm[2].GetDouble())
                : null,
            Integrity = !s.TryGetProperty("rule", out JsonElement rule) ? IntegrityRule.None
                : rule.GetString() == "solar-only" ? IntegrityRule.SolarOnly : IntegrityRule.NeverExports,
        };
    }
}
