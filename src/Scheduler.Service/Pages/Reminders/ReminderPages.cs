using Scheduler.Domain.Trees;
using Scheduler.Service.Catalog;
using Scheduler.Service.Hosting;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Roads;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Pages.Reminders;

/// <summary>Gathers what the pages of reminders show.</summary>
public sealed class ReminderPages(RoadDesk desk, GardenStore gardens, CurrentCatalog catalog, PushKeys keys, MailPost mail, OwnerTime time, PageContext page)
{
    private const int Most = 500;

    public async Task<ReminderListView> ListAsync(ReminderQuery query, FormState push, string? notice, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(query);
        var roads = await desk.Store.ListAsync(page.Owner.AccountId, "", Most, cancel);
        var pending = await desk.Store.PendingAsync(page.Owner.AccountId, cancel);
        var items = roads.Select(road => new ReminderItem(
            desk.Answer(road, pending, null), desk.Seal.Open(road.TargetSealed) is PushTarget { Endpoint.Length: > 0 } target ? Secrets.Hash(target.Endpoint) : null));
        return new ReminderListView(query.Of(items), roads.Count, query, await time.ZoneAsync(cancel), keys.PublicKey, mail.Missing, push, notice);
    }

    public async Task<ReminderView?> ShowAsync(Guid id, string? notice, string? refusal, CancellationToken cancel)
    {
        if (await desk.Store.FindAsync(page.Owner.AccountId, id, cancel) is not { } road)
            return null;
        var gardenNames = (await GardensAsync(cancel)).ToDictionary(one => one.Value, one => one.Text);
        var techniqueNames = Techniques().ToDictionary(one => one.Value, one => one.Text);
        return new ReminderView(
            await desk.AnswerAsync(road, null, cancel),
            [.. road.Settings.GardenIds?.Select(one => one.ToString()).Where(gardenNames.ContainsKey).Select(one => gardenNames[one]) ?? []],
            [.. road.Settings.Techniques?.Select(one => techniqueNames.GetValueOrDefault(one, one)) ?? []],
            await time.ZoneAsync(cancel), notice, refusal);
    }

    /// <summary>The form of a new road.</summary>
    public async Task<ReminderFormView> NewAsync(RoadKind kind, FormState? refused, CancellationToken cancel)
    {
        var isQuiet = kind != RoadKind.Webhook;
        var form = refused ?? FormState.With(
        [
            ("name", page["Reminders.UsualName." + Ids.Of(kind)]), ("quiet", isQuiet ? "on" : null), ("quietHours.from", "21:00"), ("quietHours.to", "07:00"),
            ("digest.every", "day"), ("digest.at", "07:00"), ("digest.day", "monday"),
            .. Ids.All<NoticeKind>().Select(notice => ("notices", (string?)notice))
        ]);
        return new ReminderFormView(null, kind, form, await GardensAsync(cancel), Techniques(), mail.Missing);
    }

    /// <param name="refused">The form as it came back; null: as the road stands.</param>
    public async Task<ReminderFormView?> FormAsync(Guid id, FormState? refused, CancellationToken cancel)
    {
        if (await desk.Store.FindAsync(page.Owner.AccountId, id, cancel) is not { } road)
            return null;
        var answer = await desk.AnswerAsync(road, null, cancel);
        var form = refused ?? FormState.With(
        [
            ("name", answer.Name), ("address", answer.Address), ("url", answer.Url), ("quiet", answer.QuietHours is null ? null : "on"),
            ("quietHours.from", answer.QuietHours?.From ?? "21:00"), ("quietHours.to", answer.QuietHours?.To ?? "07:00"),
            ("digest.every", answer.Digest?.Every), ("digest.at", answer.Digest?.At), ("digest.day", answer.Digest?.Day ?? "monday"),
            .. answer.Notices.Select(notice => ("notices", (string?)Ids.Of(notice))),
            .. (answer.GardenIds ?? []).Select(garden => ("gardenIds", (string?)garden.ToString())),
            .. (answer.Techniques ?? []).Select(technique => ("techniques", (string?)technique))
        ]);
        return new ReminderFormView(id, road.Kind, form, await GardensAsync(cancel), Techniques(), mail.Missing);
    }

    /// <summary>The road that a browser's subscription belongs to; null: none yet.</summary>
    public async Task<Road?> OfSubscriptionAsync(string? endpoint, CancellationToken cancel) =>
        (await desk.Store.ListAsync(page.Owner.AccountId, "", Most, cancel))
            .FirstOrDefault(road => endpoint is not null && desk.Seal.Open(road.TargetSealed) is PushTarget target && target.Endpoint == endpoint);

    private async Task<IReadOnlyList<(string Value, string Text)>> GardensAsync(CancellationToken cancel) =>
        [.. (await gardens.ListAsync(page.Owner.AccountId, "", Most, cancel)).OrderBy(garden => garden.Name, StringComparer.OrdinalIgnoreCase)
            .Select(garden => (garden.Id.ToString(), garden.Name))];

    private IReadOnlyList<(string Value, string Text)> Techniques() =>
        [.. catalog.Content.Craft.Techniques.Select(technique => (technique.Id, technique.Name)).OrderBy(one => one.Name, StringComparer.OrdinalIgnoreCase)];
}
