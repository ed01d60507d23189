using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace EnergySim.Engine;

/// <summary>One case. A bare field, set without a constructor: each call more in an operator costs the whole step its place in the JIT's inlining budget.</summary>
internal struct Scalar : ILane<Scalar>
{
    /// <summary>The number.</summary>
    public double Value;

    /// <summary>Wraps a number.</summary>
    public Scalar(double value) => Value = value;

    /// <summary>The number, where there is but one case.</summary>
    public static implicit operator double(Scalar scalar) => scalar.Value;

    /// <summary>A number as one case.</summary>
    public static implicit operator Scalar(double value) => new(value);

    /// <inheritdoc/>
    public static int Count => 1;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Scalar All(double value)
    {
        Scalar result;
        result.Value = value;
        return result;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Last(Scalar value) => value.Value;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Scalar ILane<Scalar>.Min(Scalar left, in Scalar right)
    {
        if (Sse2.IsSupported) left.Value = Sse2.MinScalar(Vector128.CreateScalarUnsafe(left.Value), Vector128.CreateScalarUnsafe(right.Value)).ToScalar();
        else left.Value = double.MinNative(left.Value, right.Value);
        return left;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Scalar ILane<Scalar>.Max(Scalar left, in Scalar right)
    {
        if (Sse2.IsSupported) left.Value = Sse2.MaxScalar(Vector128.CreateScalarUnsafe(left.Value), Vector128.CreateScalarUnsafe(right.Value)).ToScalar();
        else left.Value = double.MaxNative(left.Value, right.Value);
        return left;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Scalar ILane<Scalar>.WhereAbove(Scalar left, Scalar right, Scalar then, Scalar otherwise) => left.Value > right.Value ? then : otherwise;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Scalar ILane<Scalar>.OnlyAbove(Scalar value, Scalar least)
    {
        value.Value = value.Value > least.Value ? value.Value : 0;
        return value;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Scalar ILane<Scalar>.Within(Scalar value, Scalar limit)
    {
        if (Sse2.IsSupported) value.Value = Sse2.MinScalar(Vector128.CreateScalarUnsafe(value.Value), Sse2.MaxScalar(default, Vector128.CreateScalarUnsafe(limit.Value))).ToScalar();
        else value.Value = double.MinNative(value.Value, double.MaxNative(0, limit.Value));
        return value;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static bool ILane<Scalar>.AnyAbove(Scalar left, Scalar right) => left.Value > right.Value;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Scalar ILane<Scalar>.operator +(Scalar left, in Scalar right)
    {
        left.Value += right.Value;
        return left;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Scalar ILane<Scalar>.operator -(Scalar left, in Scalar right)
    {
        left.Value -= right.Value;
        return left;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Scalar ILane<Scalar>.operator *(Scalar left, in Scalar right)
    {
        left.Value *= right.Value;
        return left;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Scalar ILane<Scalar>.operator /(Scalar left, in Scalar right)
    {
        left.Value /= right.Value;
        return left;
    }
}
