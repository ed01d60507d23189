using System.Text.Json;
using Microsoft.AspNetCore.Http;

namespace EnergySim.Web;

/// <summary>
/// Work that takes longer than a slider may: one at a time, so that what must move at once is not held up; who no longer waits leaves the queue.
/// </summary>
internal sealed class Heavy(OpenHomes homes) : IDisposable
{
    private readonly SemaphoreSlim _turn = new(1, 1);
    private readonly Kept<byte[]> _documents = new(48);

    /// <summary>A document, worked out in turn and kept.</summary>
    /// <param name="kind">What is asked.</param>
    /// <param name="request">Of which home.</param>
    /// <param name="write">Works it out.</param>
    /// <param name="cancel">Leaves the queue.</param>
    public async Task<IResult> Document(string kind, VisitRequest request, Action<Stream> write, CancellationToken cancel)
    {
        string key = $"{kind}\n{homes.Of(request.Home, request.Plan).Stamp}\n{JsonSerializer.Serialize(request.Choices)}";
        await _turn.WaitAsync(cancel).ConfigureAwait(false);
        try
        {
            return Results.Bytes(_documents.Of(key, () =>
            {
                using var stream = new MemoryStream();
                write(stream);
                return stream.ToArray();
            }), "application/json");
        }
        finally
        {
            _turn.Release();
        }
    }

    public void Dispose() => _turn.Dispose();
}
