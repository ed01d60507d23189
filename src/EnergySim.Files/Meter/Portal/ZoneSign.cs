namespace EnergySim.Files;

/// <summary>The letters by which stamps name an offset from UTC.</summary>
internal static class ZoneSign
{
    /// <summary>The offset that the letters stand for, minutes; null = none that is known.</summary>
    public static int? OffsetMinutesOf(ReadOnlySpan<char> letters) => letters switch
    {
        "Z" or "z" or "UTC" or "GMT" or "WET" => 0,
        "AST" or "EDT" => -240,
        "ADT" => -180,
        "EST" or "CDT" => -300,
        "CST" or "MDT" => -360,
        "MST" or "PDT" => -420,
        "PST" or "AKDT" => -480,
        "AKST" => -540,
        "HST" => -600,
        "BST" or "CET" or "WEST" or "MEZ" => 60,
        "CEST" or "EET" or "MESZ" => 120,
        "EEST" => 180,
        "AWST" => 480,
        "AEST" => 600,
        "AEDT" => 660,
        "NZST" => 720,
        "NZDT" => 780,
        _ => null,
    };
}
