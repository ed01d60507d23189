using System.Runtime.InteropServices;

namespace EnergySim.Strategies;

/// <summary>What a rule that looks at the past, at prices or at the meter says of an hour, beside the windows.</summary>
/// <param name="KeptKwh">Energy above the reserve that is kept for dearer hours of the same peak.</param>
/// <param name="NightKwh">Level to which the grid may charge overnight.</param>
/// <param name="SellDownKwh">Level down to which the cells sell because this hour pays best; +∞ = they do not.</param>
/// <param name="ShaveToKw">Import that is held, kW.</param>
[StructLayout(LayoutKind.Auto)]
internal readonly record struct HourLevels(double KeptKwh, double NightKwh, double SellDownKwh, double ShaveToKw);
