using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Sweeps;

namespace EnergySim.Reports.Sweeps;

/// <summary>What the pictures of a sweep say of an output.</summary>
internal static class SweepWords
{
    public static string Title(OutputMatters output, string rest) => Lettering.Clean($"{output.Column.Offer}: {rest}");

    public static string Figure(OutputMatters output) => output.Unit.Length == 0 ? output.Column.Measure.Words : $"{output.Column.Measure.Words}, {output.Unit}";

    public static IReadOnlyList<string> Foot(OutputMatters output, string how) => [Lettering.Clean($"{output.Place}. {how} A computation on these data, not a promise.")];

    public static string Number(double value) => value.ToString(Math.Abs(value) >= 100 ? "#,0" : Math.Abs(value) >= 1 ? "0.##" : "0.###", CultureInfo.InvariantCulture);
}
