using Scheduler.Service.Pages.Frame;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.More;

/// <summary>All other pages as a list, the language and the units, and the way out.</summary>
public static class MoreRoutes
{
    private static readonly TimeSpan Kept = TimeSpan.FromDays(400);

    public static void MapMore(this IEndpointRouteBuilder routes)
    {
        var mine = routes.MapOwnedPages();
        mine.MapGet("/more", () => Page<MorePage>());
        mine.MapPost("/more", (FormBody form, HttpContext http) =>
        {
            if (form["language"] is { } language && Locale.Languages.Contains(language))
                http.Response.Cookies.Append(Locale.LanguageCookie, language, PageCookie.Options(http, Kept));
            if (form["units"] is Locale.Metric or Locale.Imperial)
                http.Response.Cookies.Append(Locale.UnitsCookie, form["units"]!, PageCookie.Options(http, Kept));
            return GoTo("/more");
        });
    }
}
