using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Scheduler.Service.Pages.Frame;

/// <summary>A component as a whole page. It is rendered once, on the server.</summary>
/// <param name="model">The component's <c>Model</c>; null for components without one.</param>
public sealed class PageResult<TComponent>(object? model = null, int status = StatusCodes.Status200OK) : IResult where TComponent : IComponent
{
    public Task ExecuteAsync(HttpContext httpContext)
    {
        ArgumentNullException.ThrowIfNull(httpContext);
        httpContext.RequestServices.GetRequiredService<PageContext>().Tokens();
        var parameters = model is null ? new Dictionary<string, object?>() : new Dictionary<string, object?> { ["Model"] = model };
        return new RazorComponentResult<TComponent>(parameters) { StatusCode = status, PreventStreamingRendering = true }.ExecuteAsync(httpContext);
    }
}

/// <summary>Short names for what a page's handler answers.</summary>
public static class PageResults
{
    public static IResult Page<TComponent>(object? model = null, int status = StatusCodes.Status200OK) where TComponent : IComponent =>
        new PageResult<TComponent>(model, status);

    /// <summary>After a form was taken: the browser reads the page anew, so that going back or reloading sends nothing twice.</summary>
    public static IResult GoTo(string path) => new SeeOther(path);

    /// <summary>The page of an address that holds nothing for this owner.</summary>
    public static IResult Missing() => Page<Layout.MissingPage>(null, StatusCodes.Status404NotFound);

    private sealed class SeeOther(string path) : IResult
    {
        public Task ExecuteAsync(HttpContext httpContext)
        {
            httpContext.Response.StatusCode = StatusCodes.Status303SeeOther;
            httpContext.Response.Headers.Location = path;
            return Task.CompletedTask;
        }
    }
}
