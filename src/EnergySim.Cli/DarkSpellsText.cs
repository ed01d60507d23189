using System.Globalization;
using EnergySim.Solar;
using NodaTime;

namespace EnergySim.Cli;

/// <summary>Prints the darkest days of weather: a part of what <c>energysim solar</c> says.</summary>
internal static class DarkSpellsText
{
    public static void Write(TextWriter output, DarkSpells spells, SpellOdds? odds)
    {
        output.WriteLine("The darkest days (clearness: sun on the flat over sun above the air)");
        output.WriteLine();
        string header = $"{"in a row",8}  {"least clear",-24}{"clearness",9}  {"least sun",-24}{"kWh/m² a day",12}";
        output.WriteLine(odds is null ? header : $"{header}  {"one made-up year in ten",23}");
        for (int i = 0; i < spells.LeastClear.Count; i++)
        {
            DarkWindow clear = spells.LeastClear[i], sun = spells.LeastSun[i];
            string row = string.Create(CultureInfo.InvariantCulture,
                $"{clear.Days,8}  {Dates(clear),-24}{clear.MeanClearness,9:0.00}  {Dates(sun),-24}{sun.MeanKwhPerM2,12:0.00}");
            output.WriteLine(odds is null ? row : string.Create(CultureInfo.InvariantCulture, $"{row}  {odds.LeastClear[i].OneInTenClearness,23:0.00}"));
        }
        output.WriteLine();
        string longest = spells.LongestRun is DarkWindow run
            ? string.Create(CultureInfo.InvariantCulture, $"; the longest run of them {run.Days} ({Dates(run)})")
            : "";
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Dark days (clearness below {DarkSpells.DarkClearness}): {spells.DarkDays} of {spells.Days:N0}{longest}."));
        if (odds is not null)
            output.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"Over {odds.Years:N0} made-up years of this place (seed {odds.Seed}) the longest run of dark days is {odds.OrdinaryRunDays:0.#} in the middle year and {odds.OneInTenRunDays:0.#} or more in one year in ten."));
        if (spells.Notice is string notice) output.WriteLine(notice);
    }

    private static string Dates(DarkWindow window)
    {
        string Text(LocalDate date) => date.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture);
        return window.Days == 1 ? Text(window.First) : $"{Text(window.First)} – {Text(window.Last)}";
    }
}
