using NodaTime;

namespace EnergySim.Solar;

/// <summary>Days in a row.</summary>
/// <param name="First">First day.</param>
/// <param name="Days">How many.</param>
/// <param name="MeanClearness">Mean of their clearness.</param>
/// <param name="MeanKwhPerM2">Mean of their sun on the flat, kWh/m² a day.</param>
public readonly record struct DarkWindow(LocalDate First, int Days, double MeanClearness, double MeanKwhPerM2)
{
    /// <summary>Last day.</summary>
    public LocalDate Last => First.PlusDays(Days - 1);
}
