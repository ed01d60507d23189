namespace EnergySim.Time;

/// <summary>When a highest demand is measured: what a controller at the meter needs to know of the rate sheet. One value an interval.</summary>
/// <param name="Counts">Whether some demand charge counts the interval.</param>
/// <param name="Begins">Whether a new mean begins with it; where means differ in length, of all of them.</param>
/// <param name="BillOf">Index of its bill.</param>
public sealed record DemandWatch(IReadOnlyList<bool> Counts, IReadOnlyList<bool> Begins, IReadOnlyList<int> BillOf);
