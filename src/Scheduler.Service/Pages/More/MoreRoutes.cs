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
        mine.MapGet("/more", (PageContext page) => Page<MorePage>(FormState.With(("language", page.Locale.Language), ("units", page.Locale.Units))));
        mine.MapPost("/more", async (FormBody form, HttpContext http, PageContext page, ApiCall api) =>
        {
            var changes = form.Json(page.Locale.Culture).Text("units", "language").Object;
            var answer = await api.PatchAsync("/accounts/me", changes);
            if (!answer.IsTaken)
                return Page<MorePage>(FormState.Refused(form, answer), answer.Status);
            // Kept for this browser too, for the pages before anybody is signed in.
            if (form["language"] is { } language && Locale.Languages.Contains(language))
                http.Response.Cookies.Append(Locale.LanguageCookie, language, PageCookie.Options(http, Kept));
            if (form["units"] is Locale.Metric or Locale.Imperial)
                http.Response.Cookies.Append(Locale.UnitsCookie, form["units"]!, PageCookie.Options(http, Kept));
            return GoTo("/more");
        });
    }
}
