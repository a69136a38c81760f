using System.Text.Json.Nodes;
using Scheduler.Domain.Trees;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Layout;
using Scheduler.Service.Roads;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Reminders;

/// <summary>Roads other than feeds as pages: the list with this device's switch, one road, and its form. None is there until it is set up.</summary>
public static class RemindersRoutes
{
    private const string One = "/reminders/{id:guid}";
    private const string OneRoad = "/roads/{id:guid}";

    public static void MapReminders(this IEndpointRouteBuilder routes)
    {
        var mine = routes.MapOwnedPages();
        mine.MapGet("/reminders", async (string? q, string? kind, string? sort, string? did, PageContext page, ReminderPages pages, CancellationToken cancel) =>
            Page<RemindersPage>(await pages.ListAsync(ReminderQuery.Of(q, kind, sort), Device(page), did == "deleted" ? page["Reminders.Deleted"] : null, cancel)));
        mine.MapPost("/reminders/push", SubscribeAsync);
        mine.MapPost("/reminders/push/moved", MoveAsync);
        mine.MapGet("/reminders/new/{kind}", async (string kind, ReminderPages pages, CancellationToken cancel) =>
            Made(kind) is { } made ? Page<ReminderFormPage>(await pages.NewAsync(made, null, cancel)) : Missing());
        mine.MapPost("/reminders/new/{kind}", AddAsync);
        mine.MapGet(One, async (Guid id, string? did, PageContext page, ReminderPages pages, CancellationToken cancel) =>
            await pages.ShowAsync(id, Said(did, page), null, cancel) is { } view ? Page<ReminderPage>(view) : Missing());
        mine.MapGet(One + "/edit", async (Guid id, ReminderPages pages, CancellationToken cancel) =>
            await pages.FormAsync(id, null, cancel) is { } view ? Page<ReminderFormPage>(view) : Missing());
        mine.MapPost(One + "/edit", ChangeAsync);
        mine.MapPost(One + "/test", TestAsync);
        foreach (var turn in new[] { "on", "off" })
        {
            mine.MapPost($"{One}/{turn}", (Guid id, ApiCall api, PageContext page, ReminderPages pages, CancellationToken cancel) => TurnAsync(id, turn, api, page, pages, cancel));
        }
        mine.MapGet(One + "/rotate", (Guid id, PageContext page, RoadDesk desk, CancellationToken cancel) => AskAsync(id, "Rotate", page, desk, cancel));
        mine.MapPost(One + "/rotate", RotateAsync);
        mine.MapGet(One + "/delete", (Guid id, PageContext page, RoadDesk desk, CancellationToken cancel) => AskAsync(id, "Delete", page, desk, cancel));
        mine.MapPost(One + "/delete", DeleteAsync);
    }

    // A browser's subscription is made by its own page, not by a form.
    private static RoadKind? Made(string kind) => Ids.TryParse<RoadKind>(kind, out var known) && known != RoadKind.Push ? known : null;

    private static FormState Device(PageContext page) => FormState.With(("name", page["Reminders.UsualName.push"]));

    private static string? Said(string? did, PageContext page) =>
        did is "made" or "changed" or "tested" or "asked" or "on" or "off" or "subscribed" or "known" ? page["Reminders.Did." + did] : null;

    private static async Task<IResult> AddAsync(string kind, FormBody form, PageContext page, ApiCall api, ReminderPages pages, CancellationToken cancel)
    {
        if (Made(kind) is not { } made)
            return Missing();
        var answer = await api.PostAsync("/roads", Asked(form, page, made).Set("kind", kind), form);
        if (!answer.IsTaken)
            return Page<ReminderFormPage>(await pages.NewAsync(made, FormState.Refused(form, answer), cancel), answer.Status);
        return Secret(answer) is { } secret ? Page<ReminderSecretPage>(secret) : GoTo($"/reminders/{answer.Id}?did=made");
    }

    // The same browser again has the road it had: it must not be told everything twice.
    private static async Task<IResult> SubscribeAsync(FormBody form, PageContext page, ApiCall api, ReminderPages pages, CancellationToken cancel)
    {
        var subscription = Subscription(form);
        if (await pages.OfSubscriptionAsync(form["endpoint"], cancel) is { } known)
        {
            var taken = await api.PatchAsync(OneRoad, new JsonObject { ["subscription"] = subscription }, known.Id);
            if (taken.IsTaken && known.State == RoadState.Paused)
                taken = await api.PatchAsync(OneRoad, new JsonObject { ["on"] = true }, known.Id);
            if (taken.IsTaken)
                return GoTo($"/reminders/{known.Id}?did=known");
        }
        var body = form.Json(page.Locale.Culture).Text("name").Set("kind", "push").Set("subscription", subscription).Object;
        var answer = await api.PostAsync("/roads", body, form);
        return answer.IsTaken
            ? GoTo($"/reminders/{answer.Id}?did=subscribed")
            : Page<RemindersPage>(await pages.ListAsync(ReminderQuery.Of(null, null, null), FormState.Refused(form, answer), null, cancel), answer.Status);
    }

    // The browser itself replaced its subscription, with nobody looking: the road goes on as it is, and what belongs to no road begins none.
    private static async Task<IResult> MoveAsync(FormBody form, ApiCall api, ReminderPages pages, CancellationToken cancel)
    {
        if (await pages.OfSubscriptionAsync(form["old"], cancel) is not { } road)
            return TypedResults.NotFound();
        var changes = new JsonObject { ["subscription"] = Subscription(form) };
        if (road.State == RoadState.Paused)
            changes["on"] = false;
        return TypedResults.StatusCode((await api.PatchAsync(OneRoad, changes, road.Id)).Status);
    }

    private static JsonObject Subscription(FormBody form) =>
        new() { ["endpoint"] = form["endpoint"], ["keys"] = new JsonObject { ["p256dh"] = form["p256dh"], ["auth"] = form["auth"] } };

    private static async Task<IResult> ChangeAsync(Guid id, FormBody form, PageContext page, ApiCall api, RoadDesk desk, ReminderPages pages, CancellationToken cancel)
    {
        if (await desk.Store.FindAsync(page.Owner.AccountId, id, cancel) is not { } road)
            return Missing();
        var answer = await api.PatchAsync(OneRoad, Asked(form, page, road.Kind), id);
        if (!answer.IsTaken)
            return await pages.FormAsync(id, FormState.Refused(form, answer), cancel) is { } view ? Page<ReminderFormPage>(view, answer.Status) : Missing();
        return Secret(answer) is { } secret ? Page<ReminderSecretPage>(secret) : GoTo($"/reminders/{id}?did=changed");
    }

    private static async Task<IResult> TestAsync(Guid id, PageContext page, FormBody form, ApiCall api, RoadDesk desk, ReminderPages pages, CancellationToken cancel)
    {
        if (await desk.Store.FindAsync(page.Owner.AccountId, id, cancel) is not { } road)
            return Missing();
        var answer = await api.PostAsync(OneRoad + "/test", [], form, id);
        if (!answer.IsTaken)
            return await pages.ShowAsync(id, null, answer.Detail, cancel) is { } view ? Page<ReminderPage>(view, answer.Status) : Missing();
        if (!answer.Body!.Value.GetProperty("arrived").GetBoolean())
            return GoTo($"/reminders/{id}");
        return GoTo($"/reminders/{id}?did={(road is { Kind: RoadKind.Email, State: RoadState.Unconfirmed or RoadState.Unsubscribed } ? "asked" : "tested")}");
    }

    private static async Task<IResult> TurnAsync(Guid id, string turn, ApiCall api, PageContext page, ReminderPages pages, CancellationToken cancel)
    {
        var answer = await api.PatchAsync(OneRoad, new JsonObject { ["on"] = turn == "on" }, id);
        if (answer.IsTaken)
            return GoTo($"/reminders/{id}?did={turn}");
        return await pages.ShowAsync(id, null, page["Reminders.NotTurned"], cancel) is { } view ? Page<ReminderPage>(view, answer.Status) : Missing();
    }

    private static async Task<IResult> RotateAsync(Guid id, FormBody form, ApiCall api)
    {
        // Sent twice, it gives one new secret, not two.
        var answer = await api.PostAsync(OneRoad + "/rotate", [], form, id);
        return answer.IsTaken && Secret(answer) is { } secret ? Page<ReminderSecretPage>(secret) : Missing();
    }

    private static async Task<IResult> DeleteAsync(Guid id, ApiCall api)
    {
        await api.DeleteAsync(OneRoad, id);
        return GoTo("/reminders?did=deleted");
    }

    private static async Task<IResult> AskAsync(Guid id, string what, PageContext page, RoadDesk desk, CancellationToken cancel)
    {
        if (await desk.Store.FindAsync(page.Owner.AccountId, id, cancel) is not { } road || (what == "Rotate" && road.Kind != RoadKind.Webhook))
            return Missing();
        var (title, text, button) = what == "Rotate"
            ? (page["Reminders.RotateTitle", road.Settings.Name], page["Reminders.RotateText"], page["Reminders.Rotate"])
            : (page["Reminders.DeleteTitle", road.Settings.Name], page["Reminders.DeleteText"], page["Reminders.Delete"]);
        return Page<ConfirmPage>(new Confirmation(title, text, button, $"/reminders/{id}/{what.ToLowerInvariant()}", $"/reminders/{id}"));
    }

    private static ReminderSecret? Secret(ApiAnswer answer) =>
        answer.Body!.Value.TryGetProperty("secret", out var secret) && secret.GetString() is { } text ? new ReminderSecret(answer.Id, text) : null;

    // Nothing ticked means all gardens and all techniques, also what is added later.
    private static JsonObject Asked(FormBody form, PageContext page, RoadKind kind)
    {
        var json = form.Json(page.Locale.Culture).Text("name").List("notices").List("gardenIds").List("techniques").Object;
        json["name"] ??= "";
        foreach (var name in new[] { "gardenIds", "techniques" })
        {
            if (json[name] is JsonArray { Count: 0 })
                json[name] = null;
        }
        json["quietHours"] = form["quiet"] is null ? null : new JsonObject { ["from"] = form["quietHours.from"] ?? "", ["to"] = form["quietHours.to"] ?? "" };
        if (kind == RoadKind.Email)
        {
            json["address"] = form["address"] ?? "";
            json["digest"] = new JsonObject { ["every"] = form["digest.every"], ["at"] = form["digest.at"] ?? "" };
            if (form["digest.every"] == "week")
                json["digest"]!["day"] = form["digest.day"];
        }
        if (kind == RoadKind.Webhook)
            json["url"] = form["url"] ?? "";
        return json;
    }

    private static JsonObject Set(this JsonObject json, string name, string value)
    {
        json[name] = value;
        return json;
    }
}
