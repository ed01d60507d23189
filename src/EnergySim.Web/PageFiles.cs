using System.IO.Compression;
using System.Reflection;
using System.Security.Cryptography;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace EnergySim.Web;

/// <summary>The page's own files, out of this assembly: no folder is needed, none is read.</summary>
internal sealed class PageFiles
{
    private const string Prefix = "Page/";

    private static readonly Dictionary<string, string> s_types = new()
    {
        [".html"] = "text/html; charset=utf-8",
        [".css"] = "text/css; charset=utf-8",
        [".js"] = "text/javascript; charset=utf-8",
        [".svg"] = "image/svg+xml",
        [".woff2"] = "font/woff2",
        [".webmanifest"] = "application/manifest+json",
    };

    private readonly Dictionary<string, PageFile> _files = [];

    public PageFiles()
    {
        foreach (string name in typeof(PageFiles).Assembly.GetManifestResourceNames().Where(n => n.StartsWith(Prefix, StringComparison.Ordinal)))
            _files.Add("/" + name[Prefix.Length..].Replace('\\', '/'), PageFile.Of(typeof(PageFiles).Assembly, name, s_types[Path.GetExtension(name)]));
        _files["/"] = _files["/index.html"];
    }

    public void Map(IEndpointRouteBuilder routes)
    {
        foreach ((string path, PageFile file) in _files) routes.MapGet(path, file.Send).ExcludeFromDescription();
    }

    private sealed record PageFile(byte[] Plain, byte[] Packed, string Type, string Tag)
    {
        public static PageFile Of(Assembly assembly, string name, string type)
        {
            using Stream stream = assembly.GetManifestResourceStream(name)!;
            using var plain = new MemoryStream();
            stream.CopyTo(plain);
            using var packed = new MemoryStream();
            using (var gzip = new GZipStream(packed, CompressionLevel.SmallestSize, leaveOpen: true)) gzip.Write(plain.ToArray());
            return new PageFile(plain.ToArray(), packed.ToArray(), type, $"\"{Convert.ToHexStringLower(SHA256.HashData(plain.ToArray()))[..16]}\"");
        }

        public async Task Send(HttpContext context)
        {
            HttpResponse response = context.Response;
            response.Headers.CacheControl = "no-cache";
            response.Headers.ETag = Tag;
            if (context.Request.Headers.IfNoneMatch == Tag)
            {
                response.StatusCode = StatusCodes.Status304NotModified;
                return;
            }
            bool packs = context.Request.Headers.AcceptEncoding.ToString().Contains("gzip", StringComparison.Ordinal) && Type != "font/woff2";
            if (packs) response.Headers.ContentEncoding = "gzip";
            response.Headers.Vary = "Accept-Encoding";
            response.ContentType = Type;
            response.ContentLength = (packs ? Packed : Plain).Length;
            await response.Body.WriteAsync(packs ? Packed : Plain, context.RequestAborted).ConfigureAwait(false);
        }
    }
}
