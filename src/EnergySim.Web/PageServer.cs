using System.Net;
using System.Security.Cryptography;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.ResponseCompression;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace EnergySim.Web;

/// <summary>Serves the kitchen-table page and its API from this program, without any other machine.</summary>
public sealed class PageServer : IAsyncDisposable
{
    private readonly WebApplication _app;

    private PageServer(WebApplication app, ServeOptions options, string? token) => (_app, Options, Token) = (app, options, token);

    /// <summary>How it is served.</summary>
    public ServeOptions Options { get; }

    /// <summary>What a browser must know to be let in; null where only this machine reaches the page.</summary>
    public string? Token { get; }

    /// <summary>The address to open, with the token where there is one.</summary>
    public Uri Uri { get; private set; } = null!;

    /// <summary>Starts to serve.</summary>
    /// <param name="options">How.</param>
    /// <param name="cancel">Ends the starting.</param>
    /// <exception cref="DirectoryNotFoundException">The library's folder does not exist.</exception>
    /// <exception cref="IOException">The port is taken.</exception>
    public static async Task<PageServer> Start(ServeOptions options, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(options);
        if (!Directory.Exists(options.Folder)) throw new DirectoryNotFoundException($"There is no folder \"{options.Folder}\".");
        WebApplicationBuilder builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { ContentRootPath = options.Folder, EnvironmentName = "Production" });
        builder.Logging.ClearProviders();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = options.MostUploadBytes;
            kestrel.Limits.RequestHeadersTimeout = TimeSpan.FromSeconds(10);
            kestrel.Limits.MinRequestBodyDataRate = new MinDataRate(240, TimeSpan.FromSeconds(5));
            kestrel.Listen(options.Address, options.Port);
        });
        string? token = options.IsLoopback ? null : Secret();
        var guard = new Guard(options, token, Secret());
        var library = new Library(options);
        builder.Services.AddSingleton(guard);
        builder.Services.AddSingleton(library);
        builder.Services.AddSingleton(new OpenHomes(library));
        builder.Services.AddSingleton<Heavy>();
        builder.Services.AddSingleton<Plans>();
        builder.Services.AddSingleton(options);
        builder.Services.AddSingleton<Saving>();
        builder.Services.AddSingleton<Drops>();
        builder.Services.AddSingleton<Drafts>();
        builder.Services.AddSingleton<Jobs>();
        builder.Services.Configure<Microsoft.AspNetCore.Http.Features.FormOptions>(o => o.MultipartBodyLengthLimit = options.MostUploadBytes);
        builder.Services.AddResponseCompression(o =>
        {
            // Nothing secret is in an answer beside what a request brings, so that compression over TLS gives nothing away.
            o.MimeTypes = ResponseCompressionDefaults.MimeTypes.Append("image/svg+xml");
            o.Providers.Add<GzipCompressionProvider>();
        });
        builder.Services.Configure<GzipCompressionProviderOptions>(o => o.Level = System.IO.Compression.CompressionLevel.Fastest);
        builder.Services.Configure<RouteHandlerOptions>(o => o.ThrowOnBadRequest = true);
        builder.Services.ConfigureHttpJsonOptions(o => VisitRequest.Configure(o.SerializerOptions));
        builder.Services.AddOpenApi("v1", ApiDocument.Configure);
        WebApplication app = builder.Build();
        app.Use(guard.Invoke);
        app.UseResponseCompression();
        app.Use(Failures.Invoke);
        new PageFiles().Map(app);
        Api.Map(app);
        var server = new PageServer(app, options, token);
        await app.StartAsync(cancel).ConfigureAwait(false);
        string address = app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();
        server.Uri = Addressed(new Uri(address), token);
        // By the time that a browser has been opened, the home that it will show has been read and asked once.
        _ = Task.Run(() => app.Services.GetRequiredService<OpenHomes>().Warm(library), cancel);
        return server;
    }

    /// <summary>Waits until the program is told to stop.</summary>
    public Task WaitForEnd(CancellationToken cancel = default) => ((IHost)_app).WaitForShutdownAsync(cancel);

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _app.StopAsync().ConfigureAwait(false);
        await _app.DisposeAsync().ConfigureAwait(false);
    }

    private static Uri Addressed(Uri listening, string? token)
    {
        // What listens on all addresses is opened here by this machine's own name for itself.
        string host = IPAddress.TryParse(listening.Host.Trim('[', ']'), out IPAddress? ip) && (ip.Equals(IPAddress.Any) || ip.Equals(IPAddress.IPv6Any)) ? "127.0.0.1" : listening.Host;
        return new UriBuilder(listening) { Host = host, Path = "/", Query = token is null ? "" : $"token={token}" }.Uri;
    }

    private static string Secret() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));
}
