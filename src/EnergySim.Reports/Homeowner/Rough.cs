using System.Globalization;
using EnergySim.Reports.Drawing;

namespace EnergySim.Reports.Homeowner;

/// <summary>Figures as one says them across a table: rounded, with "about".</summary>
internal sealed class Rough(string currency)
{
    private const double HoursInADay = 24, ShownAsDays = 96;

    public Money Money { get; } = new(currency);

    /// <summary>An amount with "about": to tens from a thousand on, to fives from a hundred on, else to the unit.</summary>
    public string About(decimal amount) => Rounded(amount) is 0 ? "about nothing" : "about " + Bare(amount);

    /// <summary>The same without "about", where the line says it.</summary>
    public string Bare(decimal amount) => Money.Whole(Rounded(amount));

    /// <summary>Rounded as it is said.</summary>
    public static decimal Rounded(decimal amount)
    {
        decimal size = Math.Abs(amount), step = size >= 10000 ? 100 : size >= 1000 ? 10 : size >= 100 ? 5 : 1;
        return Math.Round(amount / step, 0, MidpointRounding.AwayFromZero) * step;
    }

    /// <summary>Hours: to the half below ten, to the whole above, in days from four days on.</summary>
    public static string Hours(double hours)
    {
        if (hours < 0.75) return "under an hour";
        if (hours >= ShownAsDays)
        {
            double days = Math.Round(hours / HoursInADay * 2) / 2;
            return "about " + Halves(days) + " days";
        }
        double shown = hours < 10 ? Math.Round(hours * 2, MidpointRounding.AwayFromZero) / 2 : Math.Round(hours, MidpointRounding.AwayFromZero);
        return $"about {Halves(shown)} {(shown == 1 ? "hour" : "hours")}";
    }

    /// <summary>Hours that may be cut off at a horizon: "more than" where they reach it.</summary>
    public static string Hours(double hours, double horizonHours) =>
        hours >= horizonHours - 1e-9 ? string.Create(CultureInfo.InvariantCulture, $"{(horizonHours >= ShownAsDays ? $"{horizonHours / HoursInADay:0.#} days" : $"{horizonHours:0.#} hours")} or more") : Hours(hours);

    /// <summary>Years to the whole year; null = not within the horizon.</summary>
    public static string Years(double? years, int horizonYears) => years is double some
        ? string.Create(CultureInfo.InvariantCulture, $"about {Math.Max(1, Math.Round(some, MidpointRounding.AwayFromZero)):0} years")
        : string.Create(CultureInfo.InvariantCulture, $"not within {horizonYears} years");

    private static string Halves(double value)
    {
        double whole = Math.Floor(value);
        string half = value - whole >= 0.25 ? "½" : "";
        return whole == 0 && half.Length > 0 ? half : whole.ToString("0", CultureInfo.InvariantCulture) + half;
    }
}
