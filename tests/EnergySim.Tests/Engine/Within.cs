namespace EnergySim.Tests.Engine;

/// <summary>Numbers that differ by no more than a tolerance are equal.</summary>
internal sealed class Within(double tolerance) : IEqualityComparer<double>
{
    public bool Equals(double x, double y) => Math.Abs(x - y) <= tolerance;

    public int GetHashCode(double obj) => 0;
}
