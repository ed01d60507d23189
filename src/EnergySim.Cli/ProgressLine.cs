using System.Globalization;
using EnergySim.Files;

namespace EnergySim.Cli;

/// <summary>One line on the terminal that says how far a sweep is; silent where there is no terminal.</summary>
internal sealed class ProgressLine(TextWriter errors) : IDisposable
{
    private readonly bool _shows = errors == Console.Error && !Console.IsErrorRedirected;
    private long _shownAt;
    private bool _hasLine;

    /// <summary>Shows how far it is, at most some times a second.</summary>
    public void Show(SweepProgress progress)
    {
        if (!_shows || (Environment.TickCount64 - _shownAt < 200 && progress.Done < progress.Of)) return;
        _shownAt = Environment.TickCount64;
        _hasLine = true;
        errors.Write(string.Create(CultureInfo.InvariantCulture, $"\r{Words(progress),-78}"));
    }

    /// <summary>Takes the line away.</summary>
    public void Dispose()
    {
        if (_hasLine) errors.Write($"\r{new string(' ', 78)}\r");
    }

    private static string Words(SweepProgress progress) => string.Create(CultureInfo.InvariantCulture,
        $"{progress.Done:N0} of {progress.Of:N0} variants · {progress.PerSecond:N0} a second · {TimeSpan.FromSeconds(Math.Min(progress.SecondsLeft, 1e8)):d\\.hh\\:mm\\:ss} left").Replace(" 0.", " ", StringComparison.Ordinal);
}
