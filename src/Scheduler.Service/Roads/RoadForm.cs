using System.Buffers.Text;
using System.Security.Cryptography;
using MimeKit;
using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Trees;
using Scheduler.Service.Hosting;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Roads;

/// <summary>What an owner asks of a road. Of the three ends only that of its kind may be given.</summary>
/// <param name="On">False pauses it, true takes it up again; null: as it is.</param>
internal sealed record RoadDraft(RoadKind Kind, RoadSettings Settings, string? Address, string? Url, PushTarget? Subscription, bool? On);

/// <summary>What reading a road needs to know.</summary>
/// <param name="Gardens">Ids of the owner's gardens; null: any id will do.</param>
internal sealed record RoadReading(ITechniqueNames Techniques, IReadOnlyCollection<Guid>? Gardens, bool AllowLoopback);

/// <summary>Reads roads, new or changed, and finds every fault.</summary>
internal static class RoadForm
{
    private const int MaxName = 200;
    private const int MaxItems = 200;
    private const int MaxAddress = 254;

    private static readonly LocalTimePattern Clock = LocalTimePattern.CreateWithInvariantCulture("HH:mm");
    private static readonly QuietHours UsualQuiet = new(new LocalTime(21, 0), new LocalTime(7, 0));
    private static readonly DigestTimes UsualDigest = new(new LocalTime(7, 0), null);
    private static readonly IReadOnlyList<NoticeKind> AllNotices = Enum.GetValues<NoticeKind>();

    /// <param name="current">Null: a new road.</param>
    public static RoadDraft Read(FieldReader fields, Road? current, RoadReading reading)
    {
        var kind = current is null
            ? fields.Required<RoadKind>("kind", null, value => value.Choice<RoadKind>())
            : fields.Required<RoadKind>("kind", current.Kind, value => value.OneOf([Ids.Of(current.Kind)]) is null ? null : current.Kind);
        // Of a kind that is none, no end can be asked for and none is out of place.
        RoadKind? asked = fields.Faults.Any ? null : kind;
        var settings = Settings(fields, kind, current?.Settings, reading);
        var isNew = current is null;
        var address = End(fields, asked, RoadKind.Email, isNew, "address", Mailbox);
        var url = End(fields, asked, RoadKind.Webhook, isNew, "url", value => OutsideAddress.Read(value, reading.AllowLoopback));
        var subscription = End(fields, asked, RoadKind.Push, isNew, "subscription", value => Subscription(value, reading.AllowLoopback));
        var on = isNew ? null : fields.Optional<bool>("on", null, value => value.Flag());
        return new RoadDraft(kind, settings, address, url, subscription, on);
    }

    /// <summary>What all kinds have in common, and the digest of mails.</summary>
    public static RoadSettings Settings(FieldReader fields, RoadKind kind, RoadSettings? current, RoadReading reading) => new(
        fields.Required("name", current?.Name ?? Ids.Of(kind), value => value.Text(MaxName)),
        fields.Optional("gardenIds", current?.GardenIds, value => Filled(value, value.List(MaxItems, item => Garden(item, reading.Gardens)), reading.Gardens is null)),
        fields.Optional("techniques", current?.Techniques, value => Filled(value, value.List(MaxItems, item => item.Known(reading.Techniques.Exists, reading.Techniques.Nearest)))),
        fields.Required("notices", current?.Notices ?? AllNotices, value => Filled(value, value.List(MaxItems, item => item.Choice<NoticeKind>()))),
        fields.Optional("quietHours", current is null && kind != RoadKind.Webhook ? UsualQuiet : current?.Quiet, Quiet),
        kind == RoadKind.Email ? fields.Required("digest", current?.Digest ?? UsualDigest, Digest) : null,
        fields.Optional("timeZone", current?.TimeZone, Zone));

    /// <summary>A bare address, as it stands in a mail's envelope.</summary>
    public static string? Mailbox(FieldValue value)
    {
        if (value.Text(MaxAddress) is not { } text)
            return null;
        return MailboxAddress.TryParse(text, out var mailbox) && mailbox.Address == text && text.LastIndexOf('@') is > 0 and var at && at < text.Length - 1
            ? text
            : value.Refuse<string>("give an e-mail address, such as me@garden.example", new FaultKind("address"));
    }

    private static T? End<T>(FieldReader fields, RoadKind? asked, RoadKind kind, bool isNew, string name, Func<FieldValue, T?> read) where T : class
    {
        if (asked == kind && (isNew || fields.Has(name)))
            return fields.Required(name, null, read);
        // Only to be counted among the fields that there are.
        return asked is null || asked == kind ? fields.Optional<T>(name, null, _ => null) : null;
    }

    private static PushTarget? Subscription(FieldValue value, bool allowLoopback)
    {
        if (value.Object() is not { } fields)
            return null;
        var endpoint = fields.Required("endpoint", null, item => OutsideAddress.Read(item, allowLoopback));
        // Browsers send it along; a subscription that has run out answers 404 or 410.
        fields.Optional<string>("expirationTime", null, _ => "");
        var target = fields.Required("keys", null, item =>
        {
            if (item.Object() is not { } keys)
                return null;
            var p256dh = keys.Required("p256dh", null, key => Point(key));
            var auth = keys.Required("auth", null, key => Bytes(key, 16));
            keys.RefuseUnknown();
            return new PushTarget(endpoint ?? "", p256dh ?? "", auth ?? "");
        });
        fields.RefuseUnknown();
        return target;
    }

    private static string? Bytes(FieldValue value, int length)
    {
        if (value.Text(200) is not { } text)
            return null;
        return Base64Url.IsValid(text, out var bytes) && bytes == length ? text.TrimEnd('=') : value.Refuse<string>($"give {length} bytes in base64url, as the browser does", new FaultKind("subscription"));
    }

    // A point that does not lie on the curve would only show itself when the first message is encrypted.
    private static string? Point(FieldValue value)
    {
        if (Bytes(value, 65) is not { } text)
            return null;
        var point = Base64Url.DecodeFromChars(text);
        try
        {
            using var key = ECDiffieHellman.Create(new ECParameters
            {
                Curve = ECCurve.NamedCurves.nistP256,
                Q = new ECPoint { X = point[1..33], Y = point[33..65] }
            });
            return point[0] == 4 ? text : value.Refuse<string>("give an uncompressed point", new FaultKind("subscription"));
        }
        catch (CryptographicException)
        {
            return value.Refuse<string>("give a point of the curve P-256, as the browser does", new FaultKind("subscription"));
        }
    }

    private static QuietHours? Quiet(FieldValue value)
    {
        if (value.Object() is not { } fields)
            return null;
        var from = fields.Required("from", null, Time);
        var to = fields.Required("to", null, Time);
        fields.RefuseUnknown();
        if (from != to)
            return new QuietHours(from, to);
        if (!fields.Faults.Any)
            fields.Fault("to", "is the same as from: give quietHours as null for none.", new FaultKind("same-times"));
        return null;
    }

    private static DigestTimes? Digest(FieldValue value)
    {
        if (value.Object() is not { } fields)
            return null;
        var every = fields.Required("every", null, item => item.OneOf(["day", "week"]));
        var at = fields.Required("at", UsualDigest.At, Time);
        var day = fields.Optional<IsoDayOfWeek>("day", null, item => item.OneOf(WeekDays) is { } name ? (IsoDayOfWeek)(WeekDays.IndexOf(name) + 1) : null);
        fields.RefuseUnknown();
        if (every == "week")
            return new DigestTimes(at, day ?? IsoDayOfWeek.Monday);
        if (day is not null)
            fields.Fault("day", "is for a digest every week: leave it out.");
        return new DigestTimes(at, null);
    }

    internal static readonly List<string> WeekDays = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];

    internal static string Text(LocalTime time) => Clock.Format(time);

    private static LocalTime? Time(FieldValue value) =>
        value.Text(5) is not { } text ? null
        : Clock.Parse(text).TryGetValue(default, out var time) ? time
        : value.RefuseValue<LocalTime>("give a time from 00:00 to 23:59", new FaultKind("time"));

    private static string? Zone(FieldValue value) => value.Known(id => DateTimeZoneProviders.Tzdb.GetZoneOrNull(id) is not null, id => NearestIds.Of(id, DateTimeZoneProviders.Tzdb.Ids));

    private static Guid? Garden(FieldValue value, IReadOnlyCollection<Guid>? gardens)
    {
        if (value.Id() is not { } id)
            return null;
        return gardens is null || gardens.Contains(id) ? id : value.RefuseValue<Guid>("give the id of a garden of yours", new FaultKind("choice"));
    }

    // An empty list would be a road that never tells anything.
    private static IReadOnlyList<T>? Filled<T>(FieldValue value, IReadOnlyList<T>? items, bool mayBeEmpty = false)
    {
        if (items is not { Count: 0 } || mayBeEmpty)
            return items?.Distinct().ToList();
        value.Refuse("name at least one, or leave it out for all", new FaultKind("none-chosen"));
        return null;
    }
}
