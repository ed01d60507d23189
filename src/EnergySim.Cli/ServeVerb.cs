using System.CommandLine;
using System.Net;
using EnergySim.Web;

namespace EnergySim.Cli;

/// <summary><c>energysim serve</c>: the kitchen-table page, served by this program to this machine.</summary>
internal static class ServeVerb
{
    public static Command Command(TextWriter output, TextWriter errors)
    {
        var folder = new Argument<string?>("FOLDER") { Arity = ArgumentArity.ZeroOrOne, Description = "The folder with the homes; left out: the one you are in." };
        var port = new Option<int>("--port") { DefaultValueFactory = _ => 7417, Description = "The port; 0 takes any that is free." };
        var address = new Option<string>("--address") { DefaultValueFactory = _ => "127.0.0.1", Description = "The address to listen on. Others than this machine's own let other machines in, who then need the token that is printed." };
        var seconds = new Option<double?>("--seconds") { Description = "Stop after so many seconds; left out: when told to (Ctrl+C)." };
        var command = new Command(
            "serve",
            "The page for the kitchen table: pick a home, move a slider, and the columns, the outage and the verdicts follow. Needs no connection.\n\n"
            + "Example: energysim serve my-homes --port 7417")
        {
            folder, port, address, seconds,
        };
        command.SetAction((parsed, cancel) =>
        {
            if (!IPAddress.TryParse(parsed.GetValue(address), out IPAddress? listen)) throw new ArgumentException($"--address: \"{parsed.GetValue(address)}\" is no address such as 127.0.0.1.");
            if (parsed.GetValue(port) is < 0 or > 65535) throw new ArgumentException("--port: it lies between 0 and 65535.");
            var options = new ServeOptions
            {
                Folder = parsed.GetValue(folder) ?? Directory.GetCurrentDirectory(),
                DemoFolder = Path.Combine(AppContext.BaseDirectory, "demo"),
                Port = parsed.GetValue(port),
                Address = listen,
            };
            return Run(options, parsed.GetValue(seconds), output, errors, cancel);
        });
        return command;
    }

    private static async Task<int> Run(ServeOptions options, double? seconds, TextWriter output, TextWriter errors, CancellationToken cancel)
    {
        if (!options.IsLoopback)
            await errors.WriteLineAsync("Warning: other machines on this network can reach the page. Give the address with its token only to those whom you would give the homes' files; it travels unencrypted.").ConfigureAwait(false);
        using var end = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        await using PageServer server = await PageServer.Start(options, cancel).ConfigureAwait(false);
        await output.WriteLineAsync($"The page: {server.Uri}").ConfigureAwait(false);
        await output.WriteLineAsync($"Homes in {options.Folder}; the demo beside them. Ctrl+C ends it.").ConfigureAwait(false);
        if (seconds is double most) end.CancelAfter(TimeSpan.FromSeconds(most));
        await server.WaitForEnd(end.Token).ConfigureAwait(false);
        return Commands.Done;
    }
}
