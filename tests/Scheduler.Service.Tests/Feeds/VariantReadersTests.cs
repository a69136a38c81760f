using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Feeds;
using Scheduler.Service.Planning;

namespace Scheduler.Service.Tests.Feeds;

/// <summary>
/// Every reader sees the same in every variant of a feed: two gardens on two hemispheres whose clocks change, hostile names, gathered and
/// single, windows and visits. What a local time means is worked out by NodaTime here and by the reader there.
/// </summary>
public sealed class VariantReadersTests : IAsyncLifetime
{
    private readonly FeedBench _bench = new();
    private readonly List<Service.Feeds.Feed> _feeds = [];

    public async Task InitializeAsync() => await FillAsync(_bench, _feeds);

    public Task DisposeAsync()
    {
        _bench.Dispose();
        return Task.CompletedTask;
    }

    [ReaderFact("python3-icalendar")]
    public Task Variants_PythonIcalendar_ReadAsTold() => ReadAsToldAsync("python3-icalendar");

    [ReaderFact("python3-vobject")]
    public Task Variants_PythonVobject_ReadAsTold() => ReadAsToldAsync("python3-vobject");

    [ReaderFact("libical")]
    public Task Variants_Libical_ReadAsTold() => ReadAsToldAsync("libical");

    [ReaderFact("ical.js")]
    public Task Variants_IcalJs_ReadAsTold() => ReadAsToldAsync("ical.js");

    [ReaderFact("khal with vdirsyncer")]
    public async Task Variants_Khal_ListsAsTold()
    {
        await using var host = FeedHost.Start();
        var feeds = new List<Service.Feeds.Feed>();
        await FillAsync(host.Bench, feeds);
        foreach (var feed in feeds)
        {
            var url = $"{host.Anybody.BaseAddress}api/v1/calendars/{host.Bench.Tokens.Open(feed.TokenSealed)}.ics";
            var listed = Reader.Named("khal with vdirsyncer").Read(url, "2021-03-01", "120").GetProperty("events").EnumerateArray();
            Assert.Equal(
                (await ToldAsync(host.Bench, feed)).Values.Select(told => $"{Khal(told.Event.Span)} {told.Event.Status} {told.Event.Summary}").Order(StringComparer.Ordinal),
                listed.Select(item => $"{Text(item, "start")} {Text(item, "startTime")} {Text(item, "status")} {Text(item, "summary")}").Order(StringComparer.Ordinal));
        }

        static string Khal(EventSpan span) => span.Zone is null
            ? LocalDatePattern.Iso.Format(span.Start.Date) + " "
            : LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm").Format(Instant(span.Start, span.Zone).InUtc().LocalDateTime);
    }

    private async Task ReadAsToldAsync(string reader)
    {
        foreach (var feed in _feeds)
        {
            var read = Reader.Named(reader).Read((await _bench.BodyAsync(feed)).Body);
            Assert.Equal(feed.Settings.Name, Text(read, "name"));
            var events = read.GetProperty("events").EnumerateArray().ToDictionary(one => Text(one, "uid")!);
            var told = await ToldAsync(_bench, feed);
            Assert.Equal(told.Keys.Select(id => id + "@scheduler.test").Order(StringComparer.Ordinal), events.Keys.Order(StringComparer.Ordinal));
            foreach (var (id, one) in told)
            {
                var (shown, seen) = (one.Event, events[id + "@scheduler.test"]);
                Assert.Equal((shown.Summary, shown.Description, shown.Location), (Text(seen, "summary"), Text(seen, "description"), Text(seen, "location")));
                Assert.Equal((shown.Status, one.Sequence, Stamp(one.ChangedAt)), (Text(seen, "status"), seen.GetProperty("sequence").GetInt32(), Text(seen, "modified")));
                Assert.Equal((Local(shown.Span.Start, shown.Span.Zone), Local(shown.Span.End, shown.Span.Zone)), (Text(seen, "start"), Text(seen, "end")));
                Assert.Equal((Utc(shown.Span.Start, shown.Span.Zone), Utc(shown.Span.End, shown.Span.Zone)), (Text(seen, "startUtc"), Text(seen, "endUtc")));
                Assert.Equal(shown.Alarms.Count == 0 ? [] : [0, 900], seen.GetProperty("alarms").EnumerateArray().Select(alarm => alarm.GetInt32()));
            }
        }
    }

    // Berlin's clocks change on 28 March 2021, those of Santiago on 4 April, the other way.
    private static async Task FillAsync(FeedBench bench, List<Service.Feeds.Feed> feeds)
    {
        bench.SetZone(FeedBench.Garden, "Europe/Berlin");
        bench.SetZone(FeedBench.OtherGarden, "America/Santiago");
        var names = FeedNames.SweepTogether().Select(name => name.Written).Take(6).ToList();
        foreach (var garden in new[] { FeedBench.Garden, FeedBench.OtherGarden })
        {
            // Names of their own, since vdirsyncer takes two events that differ in their UID alone for one.
            var (at, before) = garden == FeedBench.Garden ? (0, "") : (100, "Süd ");
            await bench.PlanAsync(garden, [
                .. names.Select((name, number) => FeedBench.Tree(at + number, before + name, FeedSamples.Between(
                    new LocalDate(2021, 3, 20).PlusDays(5 * number), new LocalDate(2021, 3, 27).PlusDays(5 * number), (WindowState)(number % 3)))),
                FeedBench.Tree(at + 50, before + "Late elm", FeedSamples.Between(new(2021, 5, 20), new(2021, 6, 2)))]);
            var windows = await bench.WindowsAsync(garden);
            await bench.VisitAsync(garden, [.. windows.Take(4).Select((window, number) =>
                new PlannedVisit(window.Id, 1, 1, new LocalDate(2021, 4, 3).PlusDays(number / 2), number % 2, 25, 0, FeedSamples.Changed))]);
        }
        foreach (var settings in FeedVariants.All("PT0S", "PT15H"))
            feeds.Add(await bench.Keeper.CreateAsync(FeedBench.Account, settings));
        // One tree goes, so that each variant has something to take back.
        bench.Clock.AdvanceDays(1);
        await bench.PlanAsync(FeedBench.Garden, [.. names.Select((name, number) => FeedBench.Tree(number, name, FeedSamples.Between(
            new LocalDate(2021, 3, 20).PlusDays(5 * number), new LocalDate(2021, 3, 27).PlusDays(5 * number), (WindowState)(number % 3))))]);
        await bench.VisitAsync(FeedBench.Garden);
    }

    private static async Task<IReadOnlyDictionary<string, ToldEvent>> ToldAsync(FeedBench bench, Service.Feeds.Feed feed)
    {
        await using var connection = await bench.Database.OpenAsync();
        await using var turn = await bench.Database.BeginAsync(connection, default);
        var told = await FeedEventStore.ToldAsync(connection, turn, feed.Id);
        Assert.NotEmpty(told);
        return told;
    }

    private static Instant Instant(LocalDateTime time, string zone) => time.InZoneStrictly(DateTimeZoneProviders.Tzdb[zone]).ToInstant();

    private static string Stamp(Instant instant) => InstantPattern.General.Format(instant);

    private static string? Utc(LocalDateTime time, string? zone) => zone is null ? null : Stamp(Instant(time, zone));

    private static string Local(LocalDateTime time, string? zone) =>
        zone is null ? LocalDatePattern.Iso.Format(time.Date) : LocalDateTimePattern.GeneralIso.Format(time);

    private static string? Text(JsonElement read, string field) => read.GetProperty(field).GetString();
}
