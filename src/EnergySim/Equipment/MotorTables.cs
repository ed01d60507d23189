namespace EnergySim.Equipment;

/// <summary>
/// Currents of single-phase motors, as the US National Electrical Code tabulates them, and of central cooling units. Facts only; the edition
/// that is adopted locally and the nameplate come first.
/// </summary>
public static class MotorTables
{
    /// <summary>The voltages of the tables.</summary>
    public static ReadOnlySpan<double> Volts => [115, 208, 230];

    /// <summary>Full-load amps by horsepower at 115, 208 and 230 V: Table 430.248 (Table 430-148 of 1999 agrees).</summary>
    public static IReadOnlyList<(double Horsepower, double[] Amps)> FullLoad { get; } =
    [
        (1.0 / 6, [4.4, 2.4, 2.2]), (0.25, [5.8, 3.2, 2.9]), (1.0 / 3, [7.2, 4.0, 3.6]), (0.5, [9.8, 5.4, 4.9]), (0.75, [13.8, 7.6, 6.9]), (1, [16, 8.8, 8]),
        (1.5, [20, 11, 10]), (2, [24, 13.2, 12]), (3, [34, 18.7, 17]), (5, [56, 30.8, 28]), (7.5, [80, 44, 40]), (10, [100, 55, 50]),
    ];

    /// <summary>Locked-rotor amps by horsepower at 115, 208 and 230 V: Table 430.251(A), 2008 edition.</summary>
    public static IReadOnlyList<(double Horsepower, double[] Amps)> LockedRotor { get; } =
    [
        (0.5, [58.8, 32.5, 29.4]), (0.75, [82.8, 45.8, 41.4]), (1, [96, 53, 48]), (1.5, [120, 66, 60]), (2, [144, 80, 72]), (3, [204, 113, 102]),
        (5, [336, 186, 168]), (7.5, [480, 265, 240]), (10, [600, 332, 300]),
    ];

    /// <summary>Highest kVA per horsepower with the rotor locked, by code letter: Table 430.7(B). V has no upper end.</summary>
    public static IReadOnlyDictionary<char, double> CodeLetters { get; } = new Dictionary<char, double>
    {
        ['A'] = 3.14,
        ['B'] = 3.54,
        ['C'] = 3.99,
        ['D'] = 4.49,
        ['E'] = 4.99,
        ['F'] = 5.59,
        ['G'] = 6.29,
        ['H'] = 7.09,
        ['J'] = 7.99,
        ['K'] = 8.99,
        ['L'] = 9.99,
        ['M'] = 11.19,
        ['N'] = 12.49,
        ['P'] = 13.99,
        ['R'] = 15.99,
        ['S'] = 17.99,
        ['T'] = 19.99,
        ['U'] = 22.39,
    };

    /// <summary>
    /// Rated-load and locked-rotor amps of central cooling units by nominal tons, 208/230 V: one installer's manual of 13 SEER units. Others of
    /// the same size differ by a tenth or two.
    /// </summary>
    public static IReadOnlyList<(double Tons, double RatedAmps, double LockedRotorAmps)> Cooling { get; } =
        [(1.5, 10, 48), (2, 14.3, 58.3), (2.5, 14.3, 64), (3, 18.6, 79), (3.5, 20, 112), (4, 24.3, 117), (5, 29.4, 134)];

    /// <summary>The row of a horsepower, or of the next larger.</summary>
    internal static double? Amps(IReadOnlyList<(double Horsepower, double[] Amps)> table, double horsepower, double volts)
    {
        int column = volts < 160 ? 0 : volts < 219 ? 1 : 2;
        foreach ((double hp, double[] amps) in table)
            if (horsepower <= hp * (1 + 1e-9)) return amps[column];
        return null;
    }
}
