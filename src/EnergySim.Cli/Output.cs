using System.Text;
using Spectre.Console;

namespace EnergySim.Cli;

/// <summary>What all verbs share in printing.</summary>
internal static class Output
{
    /// <summary>Width of tables where the output is no terminal.</summary>
    private const int PlainWidth = 120;

    /// <summary>Prints a JSON document.</summary>
    public static void WriteJson(TextWriter output, Action<Stream> write)
    {
        using var stream = new MemoryStream();
        write(stream);
        output.WriteLine(Encoding.UTF8.GetString(stream.ToArray()));
    }

    /// <summary>Prints a table.</summary>
    public static void WriteTable(TextWriter output, Table table)
    {
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(output) });
        if (Console.IsOutputRedirected || output != Console.Out) console.Profile.Width = PlainWidth;
        console.Write(table);
    }

    /// <summary>An empty table of the house's look.</summary>
    public static Table NewTable() => new() { Border = TableBorder.Simple, ShowRowSeparators = false };

    /// <summary>Adds a column of figures.</summary>
    public static void AddFigures(this Table table, string header) => table.AddColumn(new TableColumn(Markup.Escape(header)).RightAligned());

    /// <summary>Adds a row of plain text.</summary>
    public static void AddTexts(this Table table, params IEnumerable<string> cells) => table.AddRow(cells.Select(c => new Text(c)));

    /// <summary>Prints the sentences that belong under the figures.</summary>
    public static void WriteNotes(TextWriter output, IEnumerable<string> notes)
    {
        foreach (string note in notes) output.WriteLine($"– {note}");
    }
}
