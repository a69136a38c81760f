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
            ExceptionHandler = context => Problems.Of(StatusOf(context.Features.Get<IExceptionHandlerFeature>()!.Error)).ExecuteAsync(context)
        });
        app.UseStatusCodePages(pages => Problems.Of(pages.HttpContext.Response.StatusCode).ExecuteAsync(pages.HttpContext));
    }

    private static int StatusOf(Exception error) =>
        error is BadHttpRequestException bad ? bad.StatusCode : StatusCodes.Status500InternalServerError;
}
