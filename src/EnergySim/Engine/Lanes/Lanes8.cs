using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace EnergySim.Engine;

/// <summary>Eight cases side by side. A bare field, as in <see cref="Scalar"/>, and the same instruction for each case.</summary>
internal struct Lanes8 : ILane<Lanes8>
{
    /// <summary>The numbers.</summary>
    public Vector512<double> Value;

    /// <inheritdoc/>
    public static int Count => 8;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 All(double value)
    {
        Lanes8 result;
        result.Value = Vector512.Create(value);
        return result;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Last(Lanes8 value) => value.Value[7];

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes8 ILane<Lanes8>.Min(Lanes8 left, in Lanes8 right)
    {
        if (Avx512F.IsSupported) left.Value = Avx512F.Min(left.Value, right.Value);
        else left.Value = Vector512.MinNative(left.Value, right.Value);
        return left;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes8 ILane<Lanes8>.Max(Lanes8 left, in Lanes8 right)
    {
        if (Avx512F.IsSupported) left.Value = Avx512F.Max(left.Value, right.Value);
        else left.Value = Vector512.MaxNative(left.Value, right.Value);
        return left;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes8 ILane<Lanes8>.WhereAbove(Lanes8 left, Lanes8 right, Lanes8 then, Lanes8 otherwise)
    {
        Lanes8 result;
        result.Value = Vector512.ConditionalSelect(Vector512.GreaterThan(left.Value, right.Value), then.Value, otherwise.Value);
        return result;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes8 ILane<Lanes8>.OnlyAbove(Lanes8 value, Lanes8 least)
    {
        value.Value = Vector512.ConditionalSelect(Vector512.GreaterThan(value.Value, least.Value), value.Value, Vector512<double>.Zero);
        return value;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes8 ILane<Lanes8>.Within(Lanes8 value, Lanes8 limit)
    {
        if (Avx512F.IsSupported) value.Value = Avx512F.Min(value.Value, Avx512F.Max(Vector512<double>.Zero, limit.Value));
        else value.Value = Vector512.MinNative(value.Value, Vector512.MaxNative(Vector512<double>.Zero, limit.Value));
        return value;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static bool ILane<Lanes8>.AnyAbove(Lanes8 left, Lanes8 right) => Vector512.GreaterThanAny(left.Value, right.Value);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes8 ILane<Lanes8>.operator +(Lanes8 left, in Lanes8 right)
    {
        left.Value += right.Value;
        return left;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes8 ILane<Lanes8>.operator -(Lanes8 left, in Lanes8 right)
    {
        left.Value -= right.Value;
        return left;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes8 ILane<Lanes8>.operator *(Lanes8 left, in Lanes8 right)
    {
        left.Value *= right.Value;
        return left;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes8 ILane<Lanes8>.operator /(Lanes8 left, in Lanes8 right)
    {
        left.Value /= right.Value;
        return left;
    }
}
