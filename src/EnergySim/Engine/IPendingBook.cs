namespace EnergySim.Engine;

/// <summary>Holds one interval off the grid until it is known whether it stands, and tells what of the house was left unserved.</summary>
internal interface IPendingBook : IBook<Scalar>
{
    /// <summary>Forgets all.</summary>
    void Clear();

    /// <summary>True when the cells had less than the house wanted of them.</summary>
    bool WantsEnergy { get; }

    /// <summary>What a generator gave in the interval that was passed on last, kW.</summary>
    double GeneratorKw { get; }

    /// <summary>What left so much of the house unserved, kW.</summary>
    UnservedByCause Causes(Scalar unservedKw);

    /// <summary>Hands everything to the book that keeps it, and closes the interval there.</summary>
    void PassOn<TBook>(ref TBook book) where TBook : struct, IBook<Scalar>;
}
