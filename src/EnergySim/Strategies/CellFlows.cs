using EnergySim.Equipment;

namespace EnergySim.Strategies;

/// <summary>What an hour can move between the cells and the meter's side of a plant.</summary>
internal readonly struct CellFlows(Plant plant)
{
    /// <summary>kW drawn on the AC side for each kW that stays in the cells.</summary>
    public double InKwPerKw { get; } = 1 / (plant.ChargeEfficiency * plant.RectifierEfficiency);

    /// <summary>kW given on the AC side for each kW that leaves the cells.</summary>
    public double OutKwPerKw { get; } = plant.DischargeEfficiency * plant.InverterEfficiency;

    /// <summary>Most that an hour adds, kWh.</summary>
    public double MostInKwh { get; } = Math.Min(plant.ChargeLimitKw, plant.InverterKw * plant.RectifierEfficiency) * plant.ChargeEfficiency;

    /// <summary>Most that an hour takes, kWh.</summary>
    public double MostOutKwh { get; } = Math.Min(plant.DischargeLimitKw, plant.InverterKw / plant.InverterEfficiency) / plant.DischargeEfficiency;
}
