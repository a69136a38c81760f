using NodaTime;
using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Trees;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Gardens;

/// <summary>Reads a garden out of a request body.</summary>
internal static class GardenFields
{
    // From memory: the lowest shore lies at about -430 m and the highest villages near 5100 m.
    private const double LowestM = -450;
    private const double HighestM = 6000;
    private const double LargestOffsetC = 15;
    private const int MostExceptions = 400;
    private const int MostPeople = 20;
    private static readonly LocalDate EarliestException = new(2000, 1, 1);
    private static readonly LocalDate LatestException = new(2199, 12, 31);

    private static readonly string[] FrostChoices = ["average", "cautious"];

    /// <summary>A new garden, or a changed one when <paramref name="current"/> is given.</summary>
    public static Garden Read(FieldReader fields, Garden? current, Guid accountId, Instant now) => new()
    {
        Id = current?.Id ?? NewId.Next(),
        AccountId = accountId,
        Name = fields.Required("name", current?.Name, value => value.Text(200)),
        Latitude = fields.Required("latitude", current?.Latitude, value => value.Number(-90, 90, "degrees, north positive")),
        Longitude = fields.Required("longitude", current?.Longitude, value => value.Number(-180, 180, "degrees, east positive")),
        ElevationM = fields.Optional("elevationM", current?.ElevationM, value => value.Number(LowestM, HighestM, "m")),
        TimeZone = fields.Optional("timeZone", current?.TimeZone, TimeZone),
        HardinessZone = fields.Optional("hardinessZone", current?.HardinessZone, Hardiness),
        TemperatureOffsetC = fields.Optional("temperatureOffsetC", current?.TemperatureOffsetC, value => value.Number(-LargestOffsetC, LargestOffsetC, "°C")),
        WorkDays = fields.Optional("workDays", current?.WorkDays ?? [], value => WorkDays(value, current?.WorkDays ?? [])) ?? [],
        Exceptions = fields.Optional("exceptions", current?.Exceptions ?? [], value => value.List(MostExceptions, Exception)) ?? [],
        FirstFrostChoice = fields.Optional("firstFrostChoice", current?.FirstFrostChoice, value => value.OneOf(FrostChoices)) ?? FrostChoices[0],
        WaterAssured = fields.Optional("waterAssured", current?.WaterAssured, value => value.Flag()),
        FrostFreeShelter = fields.Optional("frostFreeShelter", current?.FrostFreeShelter, value => value.Flag()),
        Recorded = current?.Recorded ?? false,
        CreatedAt = current?.CreatedAt ?? now,
        ChangedAt = now,
        CellTimeZone = current?.CellTimeZone,
        CellElevationM = current?.CellElevationM
    };

    private static string? TimeZone(FieldValue value)
    {
        if (value.Text(100) is not { } id)
            return null;
        return DateTimeZoneProviders.Tzdb.Ids.Contains(id)
            ? id
            : value.Refuse<string>($"the nearest IANA time zones are {string.Join(", ", NearestIds.Of(id, DateTimeZoneProviders.Tzdb.Ids))}", new FaultKind("unknown", [.. NearestIds.Of(id, DateTimeZoneProviders.Tzdb.Ids)]));
    }

    private static string? Hardiness(FieldValue value)
    {
        if (value.Text(10) is not { } text)
            return null;
        return HardinessZone.TryParse(text, out var zone) ? zone.ToString() : value.Refuse<string>("give a half-zone from 1a to 13b", new FaultKind("hardiness"));
    }

    // As everywhere on a change: people left out of a day stay as they were on it.
    private static IReadOnlyList<WorkDay>? WorkDays(FieldValue value, IReadOnlyList<WorkDay> current)
    {
        if (value.List(7, day => WorkDay(day, current)) is not { } days)
            return null;
        return days.Select(day => day.Day).Distinct().Count() == days.Count ? days : value.Refuse<IReadOnlyList<WorkDay>>("name each day once", new FaultKind("twice"));
    }

    private static WorkDay? WorkDay(FieldValue value, IReadOnlyList<WorkDay> current)
    {
        if (value.Object() is not { } fields)
            return null;
        var day = fields.Required<IsoDayOfWeek>("day", null, field => field.OneOf(DayNames) is { } name ? Enum.Parse<IsoDayOfWeek>(name, ignoreCase: true) : null);
        var minutes = fields.Required("minutes", null, field => field.Whole(1, 1440, "minutes"));
        var people = fields.Optional("people", current.FirstOrDefault(known => known.Day == day)?.People, People);
        fields.RefuseUnknown();
        return new WorkDay(day, minutes, people);
    }

    private static DayException? Exception(FieldValue value)
    {
        if (value.Object() is not { } fields)
            return null;
        var from = fields.Required("from", null, field => field.Date(EarliestException, LatestException));
        var to = fields.Optional("to", null, field => field.Date(EarliestException, LatestException));
        var minutes = fields.Required("minutes", null, field => field.Whole(0, 1440, "minutes"));
        var people = fields.Optional("people", null, People);
        if (to < from)
            fields.Fault("to", "is before from: swap the two.", new FaultKind("swapped"));
        fields.RefuseUnknown();
        return new DayException(from, to, minutes, people);
    }

    private static int? People(FieldValue value) => value.Whole(1, MostPeople, "people");

    private static readonly string[] DayNames =
        [.. Ids.All<IsoDayOfWeek>().Where(day => day != "none")];
}
