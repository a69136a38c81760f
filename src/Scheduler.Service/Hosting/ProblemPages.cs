using Microsoft.AspNetCore.Diagnostics;

namespace Scheduler.Service.Hosting;

/// <summary>Turns answers without a body (unknown address, wrong method) and bugs into problem documents.</summary>
public static class ProblemPages
{
    public static void UseProblems(this WebApplication app)
    {
        app.UseExceptionHandler(new ExceptionHandlerOptions
        {
            AllowStatusCode404Response = true,
            StatusCodeSelector = StatusOf,
            // A client's mistake is no fault of the service: it is answered, not logged as one.
            SuppressDiagnosticsCallback = context => context.Exception is BadHttpRequestException,
            ExceptionHandler = context => AnswerAsync(
                context, StatusOf(context.Features.Get<IExceptionHandlerFeature>()!.Error), context.Features.Get<IExceptionHandlerFeature>()!.Endpoint)
        });
        app.UseStatusCodePages(pages => AnswerAsync(pages.HttpContext, pages.HttpContext.Response.StatusCode, pages.HttpContext.GetEndpoint()));
    }

    /// <summary>A problem document, or a page where people read.</summary>
    internal static Task AnswerAsync(HttpContext context, int status, Endpoint? endpoint) =>
        endpoint?.Metadata.GetMetadata<IFaultPage>() is { } page ? page.WriteAsync(context, status) : Problems.Of(status).ExecuteAsync(context);

    private static int StatusOf(Exception error) =>
        error is BadHttpRequestException bad ? bad.StatusCode : StatusCodes.Status500InternalServerError;
}
