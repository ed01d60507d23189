using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace EnergySim.Engine;

/// <summary>Four cases side by side. A bare field, as in <see cref="Scalar"/>, and the same instruction for each case.</summary>
internal struct Lanes4 : ILane<Lanes4>
{
    /// <summary>The numbers.</summary>
    public Vector256<double> Value;

    /// <inheritdoc/>
    public static int Count => 4;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 All(double value)
    {
        Lanes4 result;
        result.Value = Vector256.Create(value);
        return result;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Last(Lanes4 value) => value.Value[3];

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes4 ILane<Lanes4>.Min(Lanes4 left, in Lanes4 right)
    {
        if (Avx.IsSupported) left.Value = Avx.Min(left.Value, right.Value);
        else left.Value = Vector256.MinNative(left.Value, right.Value);
        return left;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes4 ILane<Lanes4>.Max(Lanes4 left, in Lanes4 right)
    {
        if (Avx.IsSupported) left.Value = Avx.Max(left.Value, right.Value);
        else left.Value = Vector256.MaxNative(left.Value, right.Value);
        return left;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes4 ILane<Lanes4>.WhereAbove(Lanes4 left, Lanes4 right, Lanes4 then, Lanes4 otherwise)
    {
        Lanes4 result;
        result.Value = Vector256.ConditionalSelect(Vector256.GreaterThan(left.Value, right.Value), then.Value, otherwise.Value);
        return result;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes4 ILane<Lanes4>.OnlyAbove(Lanes4 value, Lanes4 least)
    {
        value.Value = Vector256.ConditionalSelect(Vector256.GreaterThan(value.Value, least.Value), value.Value, Vector256<double>.Zero);
        return value;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes4 ILane<Lanes4>.Within(Lanes4 value, Lanes4 limit)
    {
        if (Avx.IsSupported) value.Value = Avx.Min(value.Value, Avx.Max(Vector256<double>.Zero, limit.Value));
        else value.Value = Vector256.MinNative(value.Value, Vector256.MaxNative(Vector256<double>.Zero, limit.Value));
        return value;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static bool ILane<Lanes4>.AnyAbove(Lanes4 left, Lanes4 right) => Vector256.GreaterThanAny(left.Value, right.Value);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes4 ILane<Lanes4>.operator +(Lanes4 left, in Lanes4 right)
    {
        left.Value += right.Value;
        return left;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes4 ILane<Lanes4>.operator -(Lanes4 left, in Lanes4 right)
    {
        left.Value -= right.Value;
        return left;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes4 ILane<Lanes4>.operator *(Lanes4 left, in Lanes4 right)
    {
        left.Value *= right.Value;
        return left;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes4 ILane<Lanes4>.operator /(Lanes4 left, in Lanes4 right)
    {
        left.Value /= right.Value;
        return left;
    }
}
