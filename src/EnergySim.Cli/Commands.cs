using System.CommandLine;
using EnergySim.Files;

namespace EnergySim.Cli;

/// <summary>The program: its verbs, and what every verb's failure looks like.</summary>
public static class Commands
{
    /// <summary>All was done.</summary>
    public const int Done = 0;

    /// <summary>All was done, and something was found that the user asked to be told of.</summary>
    public const int Finding = 1;

    /// <summary>The input, or the call, does not fit; the message says where.</summary>
    public const int BadInput = 2;

    /// <summary>A fault of the program itself.</summary>
    public const int InternalFault = 3;

    /// <summary>Runs one command line.</summary>
    /// <param name="args">The words of the command line.</param>
    /// <param name="output">Takes results.</param>
    /// <param name="errors">Takes messages.</param>
    /// <returns>0 done, 1 a finding, 2 bad input, 3 internal fault.</returns>
    public static int Invoke(string[] args, TextWriter output, TextWriter errors)
    {
        ArgumentNullException.ThrowIfNull(args);
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(errors);
        var root = new RootCommand("What a home battery saves, and what a second one adds. With no arguments: the comparison of the bundled demo home.")
        {
            CompareVerb.Command(output),
            ChartVerb.Command(output),
            BillVerb.Command(output),
            CheckVerb.Command(output),
            OutageVerb.Command(output),
            StrategiesVerb.Command(output),
            LifetimeVerb.Command(output),
            SolarVerb.Command(output),
            WiringVerb.Command(output),
            ImportVerb.Command(output),
            ReportVerb.Command(output),
            RecomputeVerb.Command(output),
            SweepVerb.Command(output, errors),
            ServeVerb.Command(output, errors),
        };
        root.SetAction(_ => CompareVerb.Demo(output));
        ParseResult parsed = root.Parse(args);
        if (parsed.Errors.Count > 0)
        {
            foreach (System.CommandLine.Parsing.ParseError error in parsed.Errors) errors.WriteLine(error.Message);
            errors.WriteLine("energysim --help lists what can be said.");
            return BadInput;
        }
        try
        {
            return parsed.Invoke(new InvocationConfiguration { Output = output, Error = errors, EnableDefaultExceptionHandler = false });
        }
        catch (ProblemsException problems)
        {
            errors.WriteLine(problems.Message);
            return BadInput;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException || fault.GetType() == typeof(ArgumentException) || IsFileTooLong(fault))
        {
            errors.WriteLine(Sentence(fault.Message));
            return BadInput;
        }
#pragma warning disable CA1031 // The last net under the program: anything else is a fault of ours, and says so.
        catch (Exception fault)
#pragma warning restore CA1031
        {
            errors.WriteLine("This is a fault of the program, not of your files. Please report it with the following text.");
            errors.WriteLine(fault);
            return InternalFault;
        }
    }

    /// <summary>A refusal of the library without the name of the parameter, which the runtime appends.</summary>
    private static string Sentence(string message) => message.Split(" (Parameter '")[0];

    /// <summary>The runtime's way to say that the system lets a file grow no further.</summary>
    private static bool IsFileTooLong(Exception fault) => fault is ArgumentOutOfRangeException && fault.TargetSite?.DeclaringType == typeof(RandomAccess);

    /// <summary>Path of the bundled demo home.</summary>
    internal static string DemoHome => Path.Combine(AppContext.BaseDirectory, "demo", "profiles", "demo-home.yaml");

    /// <summary>Path of the bundled demo home that gives roof planes and weather in place of a solar profile.</summary>
    internal static string DemoRoofHome => Path.Combine(AppContext.BaseDirectory, "demo", "profiles", "demo-roof-home.yaml");
}
