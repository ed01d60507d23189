using System.Globalization;
using EnergySim.Solar;
using EnergySim.Studies.Solar;
using Spectre.Console;

namespace EnergySim.Cli;

/// <summary>Prints a solar yield: months by plane, losses by offer, dark spells, notes.</summary>
internal static class SolarText
{
    public static void Write(TextWriter output, SolarYield solar, IReadOnlyList<string> told)
    {
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{solar.Home} · sun on the roof · {solar.From:uuuu-MM-dd} to {solar.To:uuuu-MM-dd}"));
        output.WriteLine();
        Output.WriteTable(output, Yield(solar));
        Output.WriteTable(output, Lost(solar));
        if (solar.DarkSpells is DarkSpells spells) DarkSpellsText.Write(output, spells, solar.SpellOdds);
        output.WriteLine();
        foreach (string note in solar.Notes.Concat(told)) output.WriteLine($"– {note}");
    }

    private static Table Yield(SolarYield solar)
    {
        Table table = NewTable($"kWh {(solar.IsDc ? "DC" : "AC")}", [.. solar.Planes.Select(p => p.Name), "together"]);
        for (int m = 0; m < 12; m++)
            if (solar.KwByMonthAndHour[m] is not null)
                Row(table, CultureInfo.InvariantCulture.DateTimeFormat.MonthNames[m], [.. solar.Planes.Select(p => Whole(p.KwhByMonth[m])), Whole(solar.KwhByMonth[m])]);
        Row(table, "together", [.. solar.Planes.Select(p => Whole(p.Kwh)), Whole(solar.Kwh)]);
        if (solar.RatedKw is not double rated) return table;
        Row(table, "kWh a kW", [.. solar.Planes.Select(p => p.KwhPerKw is double each ? Whole(each) : ""), Whole(solar.Kwh / rated)]);
        Row(table, "sun on the plane, kWh/m²", [.. solar.Planes.Select(p => Whole(p.IncidentKwhPerM2ByMonth.Sum())), ""]);
        Row(table, "rated, kW", [.. solar.Planes.Select(p => p.Plane is RoofPlane plane ? Hundredths(plane.RatedKw) : ""), Hundredths(rated)]);
        Row(table, "tilt / azimuth from north, degrees", [.. solar.Planes.Select(p => p.Plane is RoofPlane plane ? $"{Hundredths(plane.TiltDegrees)} / {Hundredths(plane.AzimuthDegrees)}" : ""), ""]);
        return table;
    }

    private static Table Lost(SolarYield solar)
    {
        Table table = NewTable("lost, kWh", [.. solar.Uses.Select(u => u.Name)]);
        Row(table, $"clipped ({(solar.IsDc ? "DC" : "AC")})", [.. solar.Uses.Select(u => Whole(u.ClippedKwh))]);
        Row(table, "curtailed before an inverter (DC)", [.. solar.Uses.Select(u => Whole(u.CurtailedDcKwh))]);
        Row(table, "curtailed behind one (AC)", [.. solar.Uses.Select(u => Whole(u.CurtailedAcKwh))]);
        return table;
    }

    private static Table NewTable(string corner, IReadOnlyList<string> columns)
    {
        Table table = Output.NewTable();
        table.AddColumn(new TableColumn(Markup.Escape(corner)));
        foreach (string column in columns) table.AddColumn(new TableColumn(Markup.Escape(column)).RightAligned());
        return table;
    }

    private static void Row(Table table, string name, string[] cells) => table.AddRow([new Text(name), .. cells.Select(c => new Text(c))]);

    private static string Whole(double value) => value.ToString("#,0", CultureInfo.InvariantCulture);

    private static string Hundredths(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
