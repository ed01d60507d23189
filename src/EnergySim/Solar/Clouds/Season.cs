using NodaTime;

namespace EnergySim.Solar;

/// <summary>Three months; named by months, since winter is in July elsewhere.</summary>
public enum Season
{
    /// <summary>December, January, February.</summary>
    DecemberToFebruary,

    /// <summary>March, April, May.</summary>
    MarchToMay,

    /// <summary>June, July, August.</summary>
    JuneToAugust,

    /// <summary>September, October, November.</summary>
    SeptemberToNovember,
}

/// <summary>Seasons of dates, and their words.</summary>
public static class Seasons
{
    /// <summary>The season of a date.</summary>
    public static Season Of(LocalDate date) => (Season)(date.Month % 12 / 3);

    /// <summary>A season as it is told.</summary>
    public static string Words(Season season) => season switch
    {
        Season.DecemberToFebruary => "December–February",
        Season.MarchToMay => "March–May",
        Season.JuneToAugust => "June–August",
        _ => "September–November",
    };
}
