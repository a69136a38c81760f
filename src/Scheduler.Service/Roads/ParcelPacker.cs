using System.Security.Cryptography;
using System.Text;
using NodaTime;

namespace Scheduler.Service.Roads;

/// <summary>What can go now, and when to look again.</summary>
/// <param name="DigestOn">The day whose digest is dealt with once all parcels are through, be there one or nothing to tell.</param>
/// <param name="Next">The next moment at which more may go; null: nothing waits.</param>
public sealed record Packed(IReadOnlyList<Parcel> Parcels, LocalDate? DigestOn, Instant? Next);

/// <summary>
/// Sorts what a road has to tell into parcels and keeps its hours. In quiet hours nothing goes but tonight's frost, and that only from
/// noon on: before, it can wait for the end of the quiet and still be in time for dusk. Pure: the same inputs give the same parcels.
/// </summary>
public static class ParcelPacker
{
    private static readonly LocalTime Noon = new(12, 0);

    /// <param name="items">What waits, and tonight's frost that was told before.</param>
    public static Packed Pack(Road road, IReadOnlyList<ParcelItem> items, Instant now, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(road);
        ArgumentNullException.ThrowIfNull(items);
        ArgumentNullException.ThrowIfNull(zone);
        var today = now.InZone(zone).Date;
        var quietEnd = road.Settings.Quiet?.EndAt(now, zone);
        // The road's clocks may already show the day after that of the garden, whose evening it is.
        var tonight = items.Where(item => item.IsUrgent && item.Due >= today.PlusDays(-1)).ToList();
        var rest = items.Where(item => !item.IsUrgent && !item.IsTold && IsTime(road, item, today)).ToList();
        var (parcels, next) = (new List<Parcel>(), new List<Instant>());

        foreach (var night in tonight.GroupBy(item => item.Due).Where(night => night.Any(item => !item.IsTold)))
        {
            var noon = zone.AtLeniently(night.Key + Noon).ToInstant();
            if (quietEnd is { } end && now < noon)
                next.Add(Instant.Min(end, noon));
            else
                parcels.AddRange(road.Kind == RoadKind.Webhook ? Singly(road, [.. night], today, zone) : Frost(road, [.. night], today, zone));
        }
        LocalDate? digestOn = null;
        if (road.Settings.Digest is { } digest)
        {
            var due = digest.LastDue(now, zone);
            next.Add(digest.NextAfter(now, zone));
            if (road.DigestOn is null || due > road.DigestOn)
            {
                if (quietEnd is { } end)
                {
                    next.Add(end);
                }
                else
                {
                    digestOn = due;
                    if (rest.Count > 0)
                        parcels.Add(Of(road, rest, today, zone) with { DigestOn = due });
                }
            }
        }
        else if (rest.Count > 0 && quietEnd is { } end)
        {
            next.Add(end);
        }
        else if (rest.Count > 0)
        {
            parcels.AddRange(road.Kind == RoadKind.Webhook ? Singly(road, rest, today, zone) : ByGarden(road, rest, today, zone));
        }
        return new Packed(parcels, digestOn, next.Count > 0 ? next.Min() : null);
    }

    private static bool IsTime(Road road, ParcelItem item, LocalDate today) =>
        Lead.From(item.Job.Kind, item.Due, item.Window.Key.Technique, road.Settings.Digest) <= today;

    // A second word about the same night names all its trees again, because it replaces the first.
    private static IEnumerable<Parcel> Frost(Road road, List<ParcelItem> tonight, LocalDate today, DateTimeZone zone) =>
        from garden in tonight.GroupBy(item => item.Window.GardenId).OrderBy(garden => garden.Key)
        let news = garden.Where(item => !item.IsTold).ToList()
        where news.Count > 0
        select Of(road, news, today, zone) with
        {
            Topic = $"{road.Id:N}.frost.{garden.Key:N}.{news[0].Due:uuuu-MM-dd}",
            IsUrgent = true,
            Shown = [.. garden.OrderBy(item => item.Window.Body.TreeName, StringComparer.Ordinal)]
        };

    private static IEnumerable<Parcel> Singly(Road road, List<ParcelItem> items, LocalDate today, DateTimeZone zone) =>
        from item in items
        where !item.IsTold
        select Of(road, [item], today, zone) with { IsUrgent = item.IsUrgent };

    private static IEnumerable<Parcel> ByGarden(Road road, List<ParcelItem> items, LocalDate today, DateTimeZone zone) =>
        items.GroupBy(item => item.Window.GardenId).OrderBy(garden => garden.Key).Select(garden => Of(road, [.. garden], today, zone));

    // Named by what is in it: the same again is the same parcel, and with one thing more it is another.
    private static Parcel Of(Road road, IReadOnlyList<ParcelItem> news, LocalDate today, DateTimeZone zone)
    {
        var text = string.Join(' ', news.Select(item => $"{item.NoticeId:N}/{item.Due:uuuu-MM-dd}").Order(StringComparer.Ordinal));
        var id = $"{road.Id:N}.{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)), 0, 12)}";
        var last = LocalDate.Max(today, news.Select(LastDay).Max());
        return new Parcel(id, id, today, zone.AtStartOfDay(last.PlusDays(1)).ToInstant(), false, news, news);
    }

    private static LocalDate LastDay(ParcelItem item) => item.Job.Kind switch
    {
        NoticeKind.Opening or NoticeKind.Held => item.Work.Closes.Likely is { } closes && closes > item.Due ? closes : item.Due,
        _ => item.Due
    };
}
