using System.Globalization;

namespace EnergySim.Files;

/// <summary>An input file, or one that it names, can not be used. All its problems are told at once.</summary>
public sealed class ProblemsException : Exception
{
    /// <summary>The most problems that are carried.</summary>
    public const int Most = 20;

    /// <param name="problems">The problems in the order in which they were found; those beyond <see cref="Most"/> are counted only.</param>
    /// <param name="more">How many more there were.</param>
    public ProblemsException(IEnumerable<Problem> problems, int more = 0)
    {
        ArgumentNullException.ThrowIfNull(problems);
        Problem[] all = [.. problems];
        Problems = all.Length > Most ? all[..Most] : all;
        More = more + all.Length - Problems.Count;
    }

    /// <summary>The problems, at most <see cref="Most"/>.</summary>
    public IReadOnlyList<Problem> Problems { get; }

    /// <summary>How many more there were.</summary>
    public int More { get; }

    /// <summary>One sentence a line, and how many more there were.</summary>
    public override string Message
    {
        get
        {
            string told = string.Join('\n', Problems);
            return More == 0 ? told : told + string.Create(CultureInfo.InvariantCulture, $"\nand {More} more.");
        }
    }
}
