using System.Globalization;
using System.Text.Json;
using EnergySim.Studies.Visit;
using NodaTime;

namespace EnergySim.Files;

/// <summary>Puts what was chosen at the table into the text of a home file; comments and everything else in it stay byte for byte.</summary>
public static class HomeEdit
{
    /// <summary>The text with the choices in it. A way to connect is nothing that a home file holds, and is left out.</summary>
    /// <param name="text">The home file's text.</param>
    /// <param name="choices">The choices.</param>
    /// <param name="tariff">Path of another tariff file, relative to the home file; null = the home's own.</param>
    /// <exception cref="ArgumentException">The text holds something that a choice can not be put into, such as a profile of what is kept; it says what.</exception>
    public static string With(string text, VisitChoices choices, string? tariff = null)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(choices);
        var changes = new List<(IReadOnlyList<string>, string)>();
        var values = YamlEdit.Values(text);
        string[] offers = [.. values.Where(v => v.Path.StartsWith(".offers[", StringComparison.Ordinal) && v.Path.EndsWith("].offer", StringComparison.Ordinal)).Select(v => v.Value)];
        if (choices.ReserveFraction is double reserve) changes.AddRange(offers.Select(o => ((IReadOnlyList<string>)["offers", "#" + o, "strategy", "reserve"], Number(reserve))));
        foreach ((string offer, int units) in choices.Units) changes.Add((["offers", "#" + offer, "units"], units.ToString(CultureInfo.InvariantCulture)));
        foreach (string offer in choices.Prices.Keys)
            if (values.FirstOrDefault(v => v.Value == offer && v.Path.EndsWith("].offer", StringComparison.Ordinal)).Path is string at
                && values.Any(v => v.Path.StartsWith(at[..^"offer".Length] + "pricesByUnits", StringComparison.Ordinal)))
                throw new ArgumentException($"{offer}: the file states its prices by number of units (pricesByUnits); one price can not be put beside them. Change it by hand.");
        foreach ((string offer, decimal price) in choices.Prices) changes.Add((["offers", "#" + offer, "price"], price.ToString(CultureInfo.InvariantCulture)));
        if (choices.SunFraction is double sun) changes.Add((["outage", "sun"], Number(sun)));
        if (choices.OutageHours is int hours) changes.Add((["outage", "hours"], hours.ToString(CultureInfo.InvariantCulture)));
        if (choices.OutageStart is LocalDateTime start) changes.Add((["outage", "start"], start.ToString("uuuu-MM-dd'T'HH:mm", CultureInfo.InvariantCulture)));
        if (choices.KeptFraction is double kept)
        {
            foreach (string key in (string[])["keptProfile", "keptAppliances"])
                if (values.Any(v => v.Path.StartsWith($".outage.{key}", StringComparison.Ordinal)))
                    throw new ArgumentException($"outage.{key}: the file says what is kept running by a list; a share can not be put beside it. Change it by hand.");
            changes.Add((["outage", "kept"], Number(kept)));
        }
        foreach ((string part, bool runs) in choices.Parts) changes.Add((["outage", "parts", "#" + part, "kept"], runs ? "1" : "0"));
        if (choices.Charge is { } charge) changes.Add((["outage", "charge"], JsonNamingPolicy.CamelCase.ConvertName(charge.ToString())));
        if (choices.EnergyGrowthFraction is double growth) changes.Add((["money", "growth", "energy"], Number(growth)));
        if (tariff is not null) changes.Add((["tariff"], YamlEdit.Quoted(tariff)));
        return YamlEdit.With(text, changes);
    }

    /// <summary>The text with the files that it names renamed.</summary>
    /// <param name="text">The home file's text.</param>
    /// <param name="rename">New name of a value that names a file; null = it stays.</param>
    public static string WithFiles(string text, Func<string, string?> rename)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(rename);
        return YamlEdit.Rewritten(text, rename);
    }

    // A share of 0.15000000000000002 is what a slider gives, not what a person writes.
    private static string Number(double value) => Math.Round(value, 6).ToString(CultureInfo.InvariantCulture);
}
