using NodaTime;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Pages.Frame;

/// <summary>The time of day of an owner where a page belongs to no garden: that of their first garden, in UTC while there is none.</summary>
public sealed class OwnerTime(GardenStore gardens, PageContext page)
{
    public async Task<DateTimeZone> ZoneAsync(CancellationToken cancel)
    {
        var first = (await gardens.ListAsync(page.Owner.AccountId, "", 1, cancel)).FirstOrDefault()?.TimeZone;
        return (first is null ? null : DateTimeZoneProviders.Tzdb.GetZoneOrNull(first)) ?? DateTimeZone.Utc;
    }
}
