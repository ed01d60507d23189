using System.Net;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Http;

namespace EnergySim.Web;

/// <summary>
/// Who may ask what: the host must be this machine (a foreign page can point its own name here), other machines need the token, whatever is not a
/// reading needs the session's key, which foreign pages can not learn. Sets the headers that keep the browser to this server.
/// </summary>
internal sealed class Guard(ServeOptions options, string? token, string key)
{
    /// <summary>The header that carries the session's key on every request that is not a GET or HEAD.</summary>
    public const string KeyHeader = "X-Session-Key";

    private const string CookieName = "energysim";

    private const string Policy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; "
        + "manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

    /// <summary>The session's key.</summary>
    public string Key => key;

    public async Task Invoke(HttpContext context, RequestDelegate next)
    {
        Headers(context.Response.Headers);
        (int status, string why)? refused = !IsOurHost(context.Request.Host) ? (StatusCodes.Status421MisdirectedRequest, "the host named in the request is not this machine")
            : !IsLetIn(context) ? (StatusCodes.Status401Unauthorized, "the token is missing or wrong; open the address that the program printed")
            : !MayWrite(context.Request) ? (StatusCodes.Status403Forbidden, $"a request that is not a reading carries {KeyHeader}, which GET /api/v1/session gives, and comes from this page")
            : null;
        if (refused is (int code, string reason))
        {
            await Failures.Write(context, code, [reason]).ConfigureAwait(false);
            return;
        }
        await next(context).ConfigureAwait(false);
    }

    private static void Headers(IHeaderDictionary headers)
    {
        headers.ContentSecurityPolicy = Policy;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "camera=(), microphone=(), geolocation=()";
        headers.CacheControl = "no-store";
    }

    private bool IsOurHost(HostString host)
    {
        string name = host.Host.Trim('[', ']');
        if (name.Equals("localhost", StringComparison.OrdinalIgnoreCase)) return true;
        // A name can be pointed anywhere by whoever owns it; a number can not. Other machines come by the number.
        return IPAddress.TryParse(name, out IPAddress? address)
            && (IPAddress.IsLoopback(address) || address.Equals(options.Address) || options.Address.Equals(IPAddress.Any) || options.Address.Equals(IPAddress.IPv6Any));
    }

    private bool IsLetIn(HttpContext context)
    {
        if (token is null) return true;
        if (Same(context.Request.Cookies[CookieName], token) || Same(context.Request.Headers.Authorization.ToString(), $"Bearer {token}")) return true;
        if (!Same(context.Request.Query["token"], token)) return false;
        context.Response.Cookies.Append(CookieName, token, new CookieOptions { HttpOnly = true, SameSite = SameSiteMode.Strict, Path = "/" });
        return true;
    }

    private bool MayWrite(HttpRequest request)
    {
        if (HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method)) return true;
        string origin = request.Headers.Origin.ToString();
        if (origin.Length > 0 && !(Uri.TryCreate(origin, UriKind.Absolute, out Uri? from) && from.Authority.Equals(request.Host.Value, StringComparison.OrdinalIgnoreCase))) return false;
        return Same(request.Headers[KeyHeader], key);
    }

    private static bool Same(string? given, string wanted) => given is not null && CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(given), Encoding.UTF8.GetBytes(wanted));
}
