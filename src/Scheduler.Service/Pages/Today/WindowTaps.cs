using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Today;

/// <summary>
/// The buttons beside a window on every page that shows some: they log its work, all of it or one session, or say that what earlier work
/// promised was looked at. Afterwards the page is told what was done (<c>did</c>), with which tree (<c>of</c>), and what undoes it (<c>id</c>).
/// </summary>
public sealed class WindowTaps(GardenStore gardens, WindowStore windows, ApiCall api, IClock clock)
{
    /// <param name="path">Of the page, such as <c>/today</c>.</param>
    public static void Map(IEndpointRouteBuilder mine, string path)
    {
        foreach (var (way, isSession) in new[] { ("done", false), ("session", true) })
        {
            mine.MapPost($"{path}/{{gardenId:guid}}/{way}/{{windowId:guid}}", async (Guid gardenId, Guid windowId, FormBody form, PageContext page, WindowTaps taps, CancellationToken cancel) =>
                await taps.TakeAsync(page.Owner.AccountId, gardenId, windowId, isSession, form, cancel) is { } did ? GoTo($"{path}?garden={gardenId}&{did}") : Missing());
        }
    }

    // Null: the garden or the window is not there.
    private async Task<string?> TakeAsync(Guid accountId, Guid gardenId, Guid windowId, bool isSession, FormBody form, CancellationToken cancel)
    {
        if (await gardens.FindAsync(accountId, gardenId, cancel) is not { } garden
            || (await windows.OfGardenAsync(gardenId, cancel)).FirstOrDefault(one => one.Id == windowId) is not { } window)
        {
            return null;
        }
        var key = window.Key;
        if (TodayBuilder.PromiseOf(window) is { } promise)
        {
            var let = await api.DeleteAsync("/trees/{id:guid}/follow-ups/{followUpId:guid}", key.TreeId, promise);
            return let.IsTaken ? $"did=look&of={key.TreeId}" : "did=gone";
        }
        var body = new JsonObject
        {
            ["technique"] = key.Technique, ["date"] = LocalDatePattern.Iso.Format(TapDay.Of(form, garden.DateAt(clock.GetCurrentInstant())))
        };
        if (!string.IsNullOrEmpty(key.Mode))
            body["mode"] = key.Mode;
        // "Done" is the owner's word that nothing is left; a session is one of several.
        if (window.Body.Window.Sessions is { Low: > 1 } && !isSession)
            body["finished"] = true;
        var answer = await api.PostAsync("/trees/{id:guid}/work", body, form, key.TreeId);
        return answer.IsTaken ? $"did=work&of={key.TreeId}&id={answer.Id}" : "did=gone";
    }
}
