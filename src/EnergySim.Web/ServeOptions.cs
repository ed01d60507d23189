using System.Net;

namespace EnergySim.Web;

/// <summary>How the page is served.</summary>
public sealed record ServeOptions
{
    /// <summary>The folder that is the library of homes; must exist.</summary>
    public required string Folder { get; init; }

    /// <summary>The folder of the bundled demo: <c>profiles</c> and <c>tariffs</c> below it. Read only.</summary>
    public required string DemoFolder { get; init; }

    /// <summary>Where to listen; other machines reach the page where it is not a loopback address.</summary>
    public IPAddress Address { get; init; } = IPAddress.Loopback;

    /// <summary>The port; 0 = any that is free.</summary>
    public int Port { get; init; } = 7417;

    /// <summary>Most bytes that one request may bring.</summary>
    public long MostUploadBytes { get; init; } = 64L << 20;

    /// <summary>Longest that reading dropped files may take.</summary>
    public TimeSpan MostReadingTime { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>True where only this machine reaches the page.</summary>
    public bool IsLoopback => IPAddress.IsLoopback(Address);
}
