using System.Text;
using System.Text.Json;
using EnergySim.Files;
using Microsoft.AspNetCore.Http;

namespace EnergySim.Web;

/// <summary>What a request that can not be answered gets: the same sentences as on the command line, as JSON.</summary>
internal static class Failures
{
    public static async Task Invoke(HttpContext context, RequestDelegate next)
    {
        try
        {
            await next(context).ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (context.RequestAborted.IsCancellationRequested)
        {
            // Nobody waits for the answer any more.
        }
        catch (ProblemsException problems)
        {
            Library library = (Library)context.RequestServices.GetService(typeof(Library))!;
            await Write(context, StatusCodes.Status422UnprocessableEntity, library.Told(problems)).ConfigureAwait(false);
        }
        catch (BadHttpRequestException bad)
        {
            string why = bad.InnerException is JsonException json ? $"the request's JSON does not fit: {json.Message}"
                : bad.StatusCode == StatusCodes.Status413PayloadTooLarge ? "the files are larger than may be dropped at once" : bad.Message;
            await Write(context, bad.StatusCode, [why]).ConfigureAwait(false);
        }
        catch (FileNotFoundException missing)
        {
            await Write(context, StatusCodes.Status404NotFound, [missing.Message]).ConfigureAwait(false);
        }
        catch (MeterQuestionsException questions)
        {
            await Write(context, StatusCodes.Status422UnprocessableEntity, [.. questions.Questions.Select(q => q.ToString())], questions.Questions).ConfigureAwait(false);
        }
        catch (Exception fault) when (fault is ArgumentException or IOException or UnauthorizedAccessException or NotSupportedException)
        {
            await Write(context, StatusCodes.Status422UnprocessableEntity, [fault.Message]).ConfigureAwait(false);
        }
#pragma warning disable CA1031 // The last net: a fault of ours is told as one, and the page stays alive.
        catch (Exception fault)
#pragma warning restore CA1031
        {
            await Write(context, StatusCodes.Status500InternalServerError, [$"this is a fault of the program, not of your files: {fault.GetType().Name}: {fault.Message}"]).ConfigureAwait(false);
        }
    }

    /// <summary>Writes <c>{"problems": [sentence, …]}</c>, and the questions that the files leave open.</summary>
    public static async Task Write(HttpContext context, int status, IReadOnlyList<string> problems, IReadOnlyList<MeterQuestion>? questions = null)
    {
        if (context.Response.HasStarted) return;
        context.Response.StatusCode = status;
        context.Response.ContentType = "application/json; charset=utf-8";
        var body = new Dictionary<string, object> { ["problems"] = problems };
        if (questions is not null) body["questions"] = questions.Select(q => new { option = q.Option.TrimStart('-'), text = q.Text, choices = q.Choices });
        await context.Response.Body.WriteAsync(Encoding.UTF8.GetBytes(JsonSerializer.Serialize(body)), context.RequestAborted).ConfigureAwait(false);
    }
}
