using System.Net;
using System.Text;
using System.Text.Json;

namespace EnergySim.Web.Tests;

/// <summary>A server of its own for a test, with an empty library and the demo.</summary>
internal sealed class Served : IAsyncDisposable
{
    public const string Demo = "demo/profiles/demo-home.yaml";

    private Served(PageServer server, string folder, HttpClient client) => (Server, Folder, Client) = (server, folder, client);

    public PageServer Server { get; }

    public string Folder { get; }

    public HttpClient Client { get; }

    public static async Task<Served> Start(Func<ServeOptions, ServeOptions>? change = null)
    {
        string folder = Directory.CreateTempSubdirectory("energysim-test-").FullName;
        var options = new ServeOptions { Folder = folder, DemoFolder = Path.Combine(AppContext.BaseDirectory, "demo"), Port = 0 };
        PageServer server = await PageServer.Start(change?.Invoke(options) ?? options);
        var client = new HttpClient { BaseAddress = new Uri(server.Uri.GetLeftPart(UriPartial.Authority)) };
        if (server.Token is null)
        {
            using JsonDocument session = JsonDocument.Parse(await client.GetStringAsync("/api/v1/session"));
            client.DefaultRequestHeaders.Add("X-Session-Key", session.RootElement.GetProperty("key").GetString());
        }
        return new Served(server, folder, client);
    }

    public Task<HttpResponseMessage> Post(string path, string json) => Send(HttpMethod.Post, path, json);

    public async Task<HttpResponseMessage> Send(HttpMethod method, string path, string json)
    {
        using var request = new HttpRequestMessage(method, "/api/v1/" + path) { Content = new StringContent(json, Encoding.UTF8, "application/json") };
        return await Client.SendAsync(request);
    }

    public async Task<string> Answer(string path, string json)
    {
        using HttpResponseMessage response = await Post(path, json);
        string text = await response.Content.ReadAsStringAsync();
        Assert.True(response.StatusCode == HttpStatusCode.OK, $"{path} {(int)response.StatusCode}: {text}");
        return text;
    }

    public async Task<string> Problem(string path, string json)
    {
        using HttpResponseMessage response = await Post(path, json);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, response.StatusCode);
        return await response.Content.ReadAsStringAsync();
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await Server.DisposeAsync();
        Directory.Delete(Folder, recursive: true);
    }
}
