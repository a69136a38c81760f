using System.Data.Common;
using Dapper;
using NodaTime;
using Scheduler.Domain.Trees;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Roads;

/// <summary>
/// A road's settings in an account document. Of its end only what is no secret: a mail's address and a webhook's; brought back where it
/// was not before, it must be confirmed, tested or subscribed anew.
/// </summary>
public sealed record RoadPart(
    Guid Id, string Kind, string? Address, string? Url, string Name, IReadOnlyList<Guid>? GardenIds, IReadOnlyList<string>? Techniques,
    IReadOnlyList<NoticeKind> Notices, QuietAnswer? QuietHours, DigestAnswer? Digest, string? TimeZone, Instant CreatedAt);

/// <summary>A road that was read from an account document and found sound.</summary>
public sealed record ImportedRoad(Guid Id, RoadKind Kind, string? Address, string? Url, RoadSettings Settings, Instant CreatedAt);

/// <summary>What exporting an account and bringing it back need of roads.</summary>
public sealed class RoadParts(RoadSeal seal, ITechniqueNames techniques)
{
    public const int MaxRoads = 1000;

    /// <param name="own">The account's gardens; a road may still name one that is gone.</param>
    public async Task<IReadOnlyList<RoadPart>> ExportAsync(DbConnection connection, DbTransaction moment, Guid accountId, IReadOnlySet<Guid> own)
    {
        var rows = await connection.QueryAsync<RoadRow>($"SELECT {Road.Columns} FROM roads WHERE account_id = @accountId ORDER BY id", new { accountId }, moment);
        // Of a road whose seal cannot be opened nothing is left that could be brought back.
        return [.. rows.Select(row => Part(row.ToRoad(), own)).OfType<RoadPart>()];
    }

    internal ImportedRoad? Read(FieldValue value, Func<FieldReader, Guid> id)
    {
        if (value.Object() is not { } fields)
            return null;
        var kind = fields.Required<RoadKind>("kind", null, item => item.Choice<RoadKind>());
        var road = new ImportedRoad(
            id(fields), kind,
            kind == RoadKind.Email ? fields.Required("address", null, RoadForm.Mailbox) : Nothing(fields, "address"),
            // Judged when it is called; the document may come from a host that allows more.
            kind == RoadKind.Webhook ? fields.Required("url", null, item => OutsideAddress.Read(item, allowLoopback: true)) : Nothing(fields, "url"),
            RoadForm.Settings(fields, kind, null, new RoadReading(techniques, null, true)),
            fields.Required("createdAt", null, item => item.Moment()));
        if (kind != RoadKind.Email)
            Nothing(fields, "digest");
        fields.RefuseUnknown();
        return road;
    }

    /// <param name="id">Where its own id belongs to somebody else, another.</param>
    /// <param name="gardenIds">New ids of the document's gardens by their ids in it.</param>
    internal async Task WriteAsync(
        DbConnection connection, DbTransaction turn, Guid accountId, Guid id, ImportedRoad imported, IReadOnlyDictionary<Guid, Guid> gardenIds)
    {
        var settings = imported.Settings with { GardenIds = imported.Settings.GardenIds?.Where(gardenIds.ContainsKey).Select(garden => gardenIds[garden]).ToList() };
        var row = await connection.QuerySingleOrDefaultAsync<RoadRow>($"SELECT {Road.Columns} FROM roads WHERE id = @id", new { id }, turn);
        var had = row?.ToRoad() is { } known && known.Kind == imported.Kind ? known : null;
        if (had is not null && HasSameEnd(seal.Open(had.TargetSealed), imported))
        {
            await RoadStore.ChangeAsync(connection, turn, had with { Settings = settings }, RoadKeeper.LeaveHash(seal.Open(had.TargetSealed)));
        }
        else
        {
            RoadTarget target = imported.Kind switch
            {
                RoadKind.Email => new MailTarget(imported.Address!, Secrets.New("")),
                RoadKind.Webhook => new WebhookTarget(imported.Url!, WebhookSignature.NewSecret()),
                _ => new PushTarget("", "", "")
            };
            var road = new Road
            {
                Id = id,
                AccountId = accountId,
                Kind = imported.Kind,
                State = imported.Kind == RoadKind.Push ? RoadState.Gone : RoadState.Unconfirmed,
                Settings = settings,
                TargetSealed = seal.Close(target),
                CreatedAt = imported.CreatedAt
            };
            await connection.ExecuteAsync("DELETE FROM roads WHERE id = @id", new { id }, turn);
            await RoadStore.AddAsync(connection, turn, road, RoadKeeper.LeaveHash(target));
            if (imported.Kind == RoadKind.Push)
                await connection.ExecuteAsync("UPDATE roads SET last_error = @Text, last_error_kind = @kind WHERE id = @id", new { id, RoadError.BroughtBack.Text, kind = Json.Write(RoadError.BroughtBack.Kind) }, turn);
        }
    }

    private RoadPart? Part(Road road, IReadOnlySet<Guid> own)
    {
        if (seal.Open(road.TargetSealed) is not { } target)
            return null;
        var settings = road.Settings;
        return new RoadPart(
            road.Id, Ids.Of(road.Kind), (target as MailTarget)?.Address, (target as WebhookTarget)?.Url, settings.Name,
            settings.GardenIds?.Where(own.Contains).ToList(), settings.Techniques, settings.Notices, QuietAnswer.Of(settings.Quiet),
            DigestAnswer.Of(settings.Digest), settings.TimeZone, road.CreatedAt);
    }

    private static bool HasSameEnd(RoadTarget? target, ImportedRoad imported) => target switch
    {
        MailTarget mail => mail.Address == imported.Address,
        WebhookTarget webhook => webhook.Url == imported.Url,
        PushTarget => true,
        _ => false
    };

    // Written as null where the kind has no such end.
    private static string? Nothing(FieldReader fields, string name) => fields.Optional<string>(name, null, value => value.Refuse<string>("leave it out, or give null, for this kind"));
}
