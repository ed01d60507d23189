namespace EnergySim.Engine;

/// <summary>House load that was not served, by what withheld it: kW in one interval, kWh over a run.</summary>
public record struct UnservedByCause
{
    /// <summary>No energy above the floor, or dark for want of it.</summary>
    public double Energy { get; set; }

    /// <summary>The most power out of the cells (Pd).</summary>
    public double DischargeRate { get; set; }

    /// <summary>The inverter's rating (Pinv).</summary>
    public double Inverter { get; set; }

    /// <summary>The inverter's breaker (OUT).</summary>
    public double InverterBreaker { get; set; }

    /// <summary>The guarded busbar (BUS).</summary>
    public double Busbar { get; set; }

    /// <summary>The inverter had tripped.</summary>
    public double Trip { get; set; }

    /// <summary>What lack of power, not of energy, withheld.</summary>
    public readonly double Power => DischargeRate + Inverter + InverterBreaker + Busbar;

    internal void Add(in UnservedByCause other, double weight)
    {
        Energy += other.Energy * weight;
        DischargeRate += other.DischargeRate * weight;
        Inverter += other.Inverter * weight;
        InverterBreaker += other.InverterBreaker * weight;
        Busbar += other.Busbar * weight;
        Trip += other.Trip * weight;
    }
}
