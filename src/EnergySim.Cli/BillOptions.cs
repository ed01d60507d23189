using System.CommandLine;
using System.Globalization;
using EnergySim.Profiles.Shapes;

namespace EnergySim.Cli;

/// <summary>The options that lay bills out over a year.</summary>
internal sealed class BillOptions
{
    private readonly Option<string> _climate = new("--climate") { DefaultValueFactory = _ => "mixed", Description = $"The climate that shapes the year: {string.Join(", ", Climate.All.Select(c => c.Name))}." };
    private readonly Option<string> _presence = new("--presence") { DefaultValueFactory = _ => "out-by-day", Description = "When people are at home: out-by-day, home-by-day or late-evenings." };
    private readonly Option<bool> _hotWater = new("--electric-water") { Description = "Water is heated with electricity." };
    private readonly Option<bool> _hasPool = new("--has-pool") { Description = "A pool pump is in the bills." };
    private readonly Option<bool> _noCooling = new("--no-cooling") { Description = "The house has no cooling." };
    private readonly Option<bool> _noHeating = new("--no-electric-heating") { Description = "The house is not heated with electricity." };
    private readonly Option<int> _seed = new("--seed") { DefaultValueFactory = _ => 1, Description = "The seed of weather and habits." };
    private readonly Option<string?> _vehicle = new("--add-vehicle") { Description = "A vehicle to come: kWh a week, window, charger kW, such as 60,21:00-06:00,7.2." };
    private readonly Option<double?> _heatPump = new("--add-heat-pump") { Description = "A heat pump to come, kWh over the bills' days." };
    private readonly Option<double?> _induction = new("--add-induction") { Description = "Induction cooking to come, kWh over the bills' days." };
    private readonly Option<double?> _pool = new("--add-pool") { Description = "A pool pump to come, kWh over the bills' days." };
    private readonly Option<string?> _home = new("--home") { Description = "A home file: its offers' savings with each shape that fits the bills, as a band." };

    public Option<string?> File { get; } = new("--bills") { Description = "Bills in place of meter data: CSV with month,kwh (or from,to,kwh) and perhaps peak_kw, or ESPI XML of months." };

    public void AddTo(Command command)
    {
        _climate.AcceptOnlyFromAmong([.. Climate.All.Select(c => c.Name)]);
        _presence.AcceptOnlyFromAmong("out-by-day", "home-by-day", "late-evenings");
        foreach (Option option in (Option[])[File, _climate, _presence, _hotWater, _hasPool, _noCooling, _noHeating, _seed, _vehicle, _heatPump, _induction, _pool, _home]) command.Add(option);
    }

    public BillTerms TermsOf(ParseResult parsed) => new()
    {
        House = new HouseShape
        {
            Climate = Climate.All.First(c => c.Name == parsed.GetValue(_climate)),
            Presence = parsed.GetValue(_presence) switch { "home-by-day" => Presence.HomeByDay, "late-evenings" => Presence.LateEvenings, _ => Presence.OutByDay },
            HeatsWater = parsed.GetValue(_hotWater),
            HasPool = parsed.GetValue(_hasPool),
            Cools = !parsed.GetValue(_noCooling),
            HeatsWithElectricity = !parsed.GetValue(_noHeating),
            Seed = (ulong)Math.Max(0, parsed.GetValue(_seed)),
        },
        Vehicle = parsed.GetValue(_vehicle) is string text ? VehicleOf(text) : null,
        HeatPumpKwh = parsed.GetValue(_heatPump),
        InductionKwh = parsed.GetValue(_induction),
        PoolKwh = parsed.GetValue(_pool),
        Home = parsed.GetValue(_home),
    };

    private static VehicleCharging VehicleOf(string text)
    {
        string[] parts = text.Split(',', '-');
        if (parts.Length == 4 && double.TryParse(parts[0], NumberStyles.Float, CultureInfo.InvariantCulture, out double kwh) && kwh >= 0
            && MinuteOf(parts[1]) is int from && MinuteOf(parts[2]) is int to && double.TryParse(parts[3], NumberStyles.Float, CultureInfo.InvariantCulture, out double kw) && kw > 0)
            return new VehicleCharging(kwh, from, to, kw);
        throw new ArgumentException($"--add-vehicle: \"{text}\" is not kWh a week, window and charger kW, such as 60,21:00-06:00,7.2.");
    }

    private static int? MinuteOf(string text)
    {
        string[] parts = text.Split(':');
        return parts.Length == 2 && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out int hour) && hour <= 24
            && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out int minute) && minute < 60 ? ((hour * 60) + minute) % 1440 : null;
    }
}

/// <summary>What was said of a house of which only bills are known.</summary>
internal sealed record BillTerms
{
    public required HouseShape House { get; init; }

    public VehicleCharging? Vehicle { get; init; }

    public double? HeatPumpKwh { get; init; }

    public double? InductionKwh { get; init; }

    public double? PoolKwh { get; init; }

    public string? Home { get; init; }
}
