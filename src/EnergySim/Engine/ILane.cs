namespace EnergySim.Engine;

/// <summary>
/// The numbers a step computes with: one case (<see cref="Scalar"/>) or several side by side. The physics is written once over this type.
/// Every operation is one IEEE operation per case, in the order written, so a case gives the same bits alone and among others.
/// </summary>
/// <remarks>
/// What stands on the right is taken by reference: a number in memory is then an operand of the instruction that uses it, not a copy made before.
/// The types implement this explicitly, since the compiler would put a call between by-reference operators of an interface and public ones.
/// </remarks>
/// <typeparam name="T">The implementing type.</typeparam>
internal interface ILane<T> where T : struct, ILane<T>
{
    /// <summary>How many cases lie side by side. A value is just so many doubles, one after another.</summary>
    static abstract int Count { get; }

    /// <summary>The same number in every case.</summary>
    static abstract T All(double value);

    /// <summary>The last case.</summary>
    static abstract double Last(T value);

    /// <summary>The lesser; no NaN may come in.</summary>
    static abstract T Min(T left, in T right);

    /// <summary>The greater; no NaN may come in.</summary>
    static abstract T Max(T left, in T right);

    /// <summary>Case by case: <paramref name="then"/> where left &gt; right, else <paramref name="otherwise"/>.</summary>
    static abstract T WhereAbove(T left, T right, T then, T otherwise);

    /// <summary>
    /// Case by case: the value where it is &gt; a number, else 0. The step asks this and the next so often that one call each, not three, keeps it
    /// whole in the JIT's eyes.
    /// </summary>
    static abstract T OnlyAbove(T value, T least);

    /// <summary>The lesser of a value and a limit, below which nothing is let through; no NaN may come in.</summary>
    static abstract T Within(T value, T limit);

    /// <summary>True when left &gt; right in any case: lets a step skip what concerns none.</summary>
    static abstract bool AnyAbove(T left, T right);

    /// <summary>Sum.</summary>
    static abstract T operator +(T left, in T right);

    /// <summary>Difference.</summary>
    static abstract T operator -(T left, in T right);

    /// <summary>Product.</summary>
    static abstract T operator *(T left, in T right);

    /// <summary>Quotient. Not for the step: it takes as long as ten of the others.</summary>
    static abstract T operator /(T left, in T right);
}
