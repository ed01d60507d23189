using EnergySim.Profiles;

namespace EnergySim.Solar;

/// <summary>A solar inverter as its data sheet gives it.</summary>
public sealed class SolarInverter
{
    private readonly (double LoadFraction, double Efficiency)[] _curve;

    /// <param name="ratedKw">AC rating, kW, &gt; 0; +∞ = no limit (needs a flat curve).</param>
    /// <param name="curve">Efficiency by DC power as a share of the rating, shares rising; linear between, flat outside. One point = the same at any power.</param>
    /// <exception cref="ArgumentException">A number is out of range, or the shares do not rise.</exception>
    public SolarInverter(double ratedKw, IReadOnlyList<(double LoadFraction, double Efficiency)> curve)
    {
        ArgumentNullException.ThrowIfNull(curve);
        if (!(ratedKw > 0)) throw new ArgumentException("An inverter's rating is above 0.", nameof(ratedKw));
        if (curve.Count == 0 || (double.IsInfinity(ratedKw) && curve.Count > 1)) throw new ArgumentException("An inverter's curve has a point, and a rating where it has more.", nameof(curve));
        for (int i = 0; i < curve.Count; i++)
        {
            if (curve[i] is not { LoadFraction: >= 0, Efficiency: > 0 and <= 1 }) throw new ArgumentException("An inverter's efficiencies lie above 0 and at most at 1, its shares of load at least at 0.", nameof(curve));
            if (i > 0 && !(curve[i].LoadFraction > curve[i - 1].LoadFraction)) throw new ArgumentException("The shares of load of an inverter's curve must rise.", nameof(curve));
        }
        (RatedKw, _curve) = (ratedKw, [.. curve]);
    }

    /// <summary>An inverter with the same efficiency at any power.</summary>
    public SolarInverter(double ratedKw, double efficiency) : this(ratedKw, [(1, efficiency)])
    {
    }

    /// <summary>AC rating, kW.</summary>
    public double RatedKw { get; }

    /// <summary>The curve.</summary>
    public IReadOnlyList<(double LoadFraction, double Efficiency)> Curve => _curve;

    /// <summary>Efficiency at a DC power, kW.</summary>
    public double EfficiencyAt(double dcKw)
    {
        if (_curve.Length == 1) return _curve[0].Efficiency;
        double load = dcKw / RatedKw;
        if (load <= _curve[0].LoadFraction) return _curve[0].Efficiency;
        for (int i = 1; i < _curve.Length; i++)
            if (load <= _curve[i].LoadFraction)
            {
                (double x0, double y0) = _curve[i - 1];
                (double x1, double y1) = _curve[i];
                return y0 + ((y1 - y0) * (load - x0) / (x1 - x0));
            }
        return _curve[^1].Efficiency;
    }

    /// <summary>AC power of a DC profile: what the efficiency leaves, up to the rating.</summary>
    /// <param name="dc">DC power at the inputs.</param>
    /// <param name="clippedAcKwh">What the rating cuts off, kWh AC.</param>
    /// <param name="clippedDcKwh">The same before the inverter, kWh DC.</param>
    public Profile Convert(Profile dc, out double clippedAcKwh, out double clippedDcKwh)
    {
        ArgumentNullException.ThrowIfNull(dc);
        var kw = new double[dc.Axis.Count];
        double cutAc = 0, cutDc = 0;
        for (int i = 0; i < kw.Length; i++)
        {
            double efficiency = EfficiencyAt(dc.Kw[i]), ac = dc.Kw[i] * efficiency;
            kw[i] = Math.Min(ac, RatedKw);
            if (ac <= RatedKw) continue;
            cutAc += ac - RatedKw;
            cutDc += (ac - RatedKw) / efficiency;
        }
        clippedAcKwh = cutAc * dc.Axis.StepHours;
        clippedDcKwh = cutDc * dc.Axis.StepHours;
        return new Profile(dc.Axis, kw);
    }
}
