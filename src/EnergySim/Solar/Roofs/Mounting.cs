namespace EnergySim.Solar;

/// <summary>
/// How well a module gets rid of its heat. Its temperature is air + irradiance / (a + b × wind): Faiman, Assessing the outdoor operating temperature of photovoltaic modules, Progress in
/// Photovoltaics 16 (2008); the form of IEC 61853-3.
/// </summary>
/// <param name="HeatLossWPerM2K">a, W/(m² K), &gt; 0.</param>
/// <param name="WindHeatLossWsPerM3K">b, W s/(m³ K), ≥ 0, for wind as weather files give it.</param>
public readonly record struct Mounting(double HeatLossWPerM2K, double WindHeatLossWsPerM3K)
{
    /// <summary>On a frame with air all around: the paper's values.</summary>
    public static Mounting Open { get; } = new(25.0, 6.84);

    /// <summary>
    /// Close above a roof: our fit (0 to 8 m/s at 10 m) to the close-mount curve of King, Boyson and Kratochvil, Photovoltaic Array Performance Model, SAND2004-3535 (2004), whose constants −2.98, −0.0471 and 1 K are from memory.
    /// </summary>
    public static Mounting CloseToRoof { get; } = new(19.2, 1.07);

    /// <summary>Wind taken where a file has none, m/s: an assumption of ours, a light air that errs on the warm side.</summary>
    public const double WindWhereUnknownMPerS = 1;

    /// <summary>Temperature of the cells, °C.</summary>
    public double CellCelsius(double airCelsius, double irradianceWPerM2, double windMPerS) =>
        airCelsius + (irradianceWPerM2 / (HeatLossWPerM2K + (WindHeatLossWsPerM3K * windMPerS)));

    /// <summary>
    /// The mounting whose modules reach a stated nominal operating temperature (800 W/m², 20 °C, 1 m/s: IEC 61215), with wind as in <see cref="Open"/>'s proportion; then in still air the temperature is
    /// about that of air + (nominal − 20) × irradiance / 800.
    /// </summary>
    public static Mounting OfNominalTemperature(double nominalCelsius)
    {
        double loss = 800 / (nominalCelsius - 20);
        double share = Open.WindHeatLossWsPerM3K / (Open.HeatLossWPerM2K + Open.WindHeatLossWsPerM3K);
        return new Mounting(loss * (1 - share), loss * share);
    }
}
