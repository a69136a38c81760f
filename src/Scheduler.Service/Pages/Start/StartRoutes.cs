using Scheduler.Service.Feeds;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Weather;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Start;

/// <summary>From nothing to a calendar on the phone: a place, a first tree, an address to subscribe to.</summary>
public static class StartRoutes
{
    private const int LongestName = 100;

    public static void MapStart(this IEndpointRouteBuilder routes)
    {
        var mine = routes.MapOwnedPages();
        mine.MapGet("/start", FindAsync);
        mine.MapPost("/start", AddGardenAsync);
        mine.MapGet("/start/calendar", CalendarAsync);
        mine.MapPost("/start/calendar", AddFeedAsync);
    }

    private static async Task<IResult> FindAsync(string? q, PlaceSearch search, CancellationToken cancel)
    {
        var name = q?.Trim() ?? "";
        if (name.Length is 0 or > LongestName)
            return Page<StartPage>(new StartView(null, [], null, FormState.Empty));
        var (places, fault) = await search.FindAsync(name, cancel);
        return Page<StartPage>(new StartView(name, places, fault, FormState.Empty));
    }

    private static async Task<IResult> AddGardenAsync(FormBody form, PageContext page, ApiCall api)
    {
        var answer = await api.PostAsync("/gardens", form.Json(page.Locale.Culture).Text("name").Number("latitude", "longitude").Object, form);
        return answer.IsTaken
            ? GoTo($"/trees/new?garden={answer.Id}&from=start")
            : Page<StartPage>(new StartView(null, [], null, FormState.Refused(form, answer)), answer.Status);
    }

    private static async Task<IResult> CalendarAsync(PageContext page, HttpRequest request, FeedDesk desk, CancellationToken cancel)
    {
        var feed = (await desk.Store.ListAsync(page.Owner.AccountId, null, 1, cancel)).FirstOrDefault();
        return Page<CalendarPage>(new CalendarView(feed is null ? null : desk.Answer(feed, request)));
    }

    private static async Task<IResult> AddFeedAsync(FormBody form, PageContext page, ApiCall api, FeedDesk desk, CancellationToken cancel)
    {
        // One is enough to begin with: a second tap, or coming back, shows the one that is there.
        if ((await desk.Store.ListAsync(page.Owner.AccountId, null, 1, cancel)).Count == 0)
            await api.PostAsync("/feeds", new() { ["name"] = page["Calendar.Name"] }, form);
        return GoTo("/start/calendar");
    }
}

/// <param name="Asked">The name that was looked for; null: none yet.</param>
/// <param name="Fault">Why nothing could be looked up.</param>
public sealed record StartView(string? Asked, IReadOnlyList<Place> Places, string? Fault, FormState Form);

/// <param name="Feed">Null: there is none yet.</param>
public sealed record CalendarView(FeedAnswer? Feed);
