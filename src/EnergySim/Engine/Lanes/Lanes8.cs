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
    static Lanes8 ILane<Lanes8>.Min(in Lanes8 left, in Lanes8 right)
    {
        Lanes8 result;
        if (Avx512F.IsSupported) result.Value = Avx512F.Min(left.Value, right.Value);
        else result.Value = Vector512.MinNative(left.Value, right.Value);
        return result;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes8 ILane<Lanes8>.Max(in Lanes8 left, in Lanes8 right)
    {
        Lanes8 result;
        if (Avx512F.IsSupported) result.Value = Avx512F.Max(left.Value, right.Value);
        else result.Value = Vector512.MaxNative(left.Value, right.Value);
        return result;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes8 ILane<Lanes8>.WhereAbove(in Lanes8 left, in Lanes8 right, in Lanes8 then, in Lanes8 otherwise)
    {
        Lanes8 result;
        result.Value = Vector512.ConditionalSelect(Vector512.GreaterThan(left.Value, right.Value), then.Value, otherwise.Value);
        return result;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes8 ILane<Lanes8>.OnlyAbove(in Lanes8 value, in Lanes8 least)
    {
        Lanes8 result;
        result.Value = Vector512.ConditionalSelect(Vector512.GreaterThan(value.Value, least.Value), value.Value, Vector512<double>.Zero);
        return result;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes8 ILane<Lanes8>.Within(in Lanes8 value, in Lanes8 limit)
    {
        Lanes8 result;
        if (Avx512F.IsSupported) result.Value = Avx512F.Min(value.Value, Avx512F.Max(Vector512<double>.Zero, limit.Value));
        else result.Value = Vector512.MinNative(value.Value, Vector512.MaxNative(Vector512<double>.Zero, limit.Value));
        return result;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static bool ILane<Lanes8>.AnyAbove(in Lanes8 left, in Lanes8 right) => Vector512.GreaterThanAny(left.Value, right.Value);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes8 ILane<Lanes8>.operator +(in Lanes8 left, in Lanes8 right)
    {
        Lanes8 result;
        result.Value = left.Value + right.Value;
        return result;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes8 ILane<Lanes8>.operator -(in Lanes8 left, in Lanes8 right)
    {
        Lanes8 result;
        result.Value = left.Value - right.Value;
        return result;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes8 ILane<Lanes8>.operator *(in Lanes8 left, in Lanes8 right)
    {
        Lanes8 result;
        result.Value = left.Value * right.Value;
        return result;
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    static Lanes8 ILane<Lanes8>.operator /(in Lanes8 left, in Lanes8 right)
    {
        Lanes8 result;
        result.Value = left.Value / right.Value;
        return result;
    }
}
