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
    public static Scalar Min(Scalar left, Scalar right)
    {
        Scalar result;
        if (Sse2.IsSupported) result.Value = Sse2.MinScalar(Vector128.CreateScalarUnsafe(left.Value), Vector128.CreateScalarUnsafe(right.Value)).ToScalar();
        else result.Value = double.MinNative(left.Value, right.Value);
        return result;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Scalar Max(Scalar left, Scalar right)
    {
        Scalar result;
        if (Sse2.IsSupported) result.Value = Sse2.MaxScalar(Vector128.CreateScalarUnsafe(left.Value), Vector128.CreateScalarUnsafe(right.Value)).ToScalar();
        else result.Value = double.MaxNative(left.Value, right.Value);
        return result;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Scalar WhereAbove(Scalar left, Scalar right, Scalar then, Scalar otherwise) => left.Value > right.Value ? then : otherwise;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Scalar OnlyAbove(Scalar value, double least)
    {
        if (!(value.Value > least)) value.Value = 0;
        return value;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Scalar Within(Scalar value, Scalar limit)
    {
        Scalar result;
        if (Sse2.IsSupported) result.Value = Sse2.MinScalar(Vector128.CreateScalarUnsafe(value.Value), Sse2.MaxScalar(default, Vector128.CreateScalarUnsafe(limit.Value))).ToScalar();
        else result.Value = double.MinNative(value.Value, double.MaxNative(0, limit.Value));
        return result;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AnyAbove(Scalar left, Scalar right) => left.Value > right.Value;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Scalar operator +(Scalar left, Scalar right)
    {
        left.Value += right.Value;
        return left;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Scalar operator -(Scalar left, Scalar right)
    {
        left.Value -= right.Value;
        return left;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Scalar operator *(Scalar left, Scalar right)
    {
        left.Value *= right.Value;
        return left;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Scalar operator /(Scalar left, Scalar right)
    {
        left.Value /= right.Value;
        return left;
    }
}
