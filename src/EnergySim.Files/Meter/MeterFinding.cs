namespace EnergySim.Files;

/// <summary>One thing that was understood of a file: what, how, on what ground and how surely.</summary>
/// <param name="Subject">What was asked: zone, stamps, unit, …</param>
/// <param name="Answer">What was understood, in words.</param>
/// <param name="Ground">Why.</param>
/// <param name="Confidence">0–1; 1 = the file says so, or the person who asked did.</param>
public sealed record MeterFinding(string Subject, string Answer, string Ground, double Confidence);
