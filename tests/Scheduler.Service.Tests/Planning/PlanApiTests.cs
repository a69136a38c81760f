using System.Net;
using System.Text.Json.Nodes;
using Ical.Net;
using Ical.Net.CalendarComponents;
using NodaTime;
using Scheduler.Domain.Weather;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Planning;

public class PlanApiTests
{
    private static readonly LocalDate Spring = new(2026, 4, 10);
    private static readonly LocalDate SouthernSpring = new(2026, 10, 10);
    private static readonly (string, int)[] Weekend = [("saturday", 180), ("sunday", 120)];
    private const string Pinch = "tip-pinch";

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task WeekendDays_GetTheWorkOfTheirWindows(bool isSouth)
    {
        await using var owner = await PlanBench.StartAsync(isSouth ? SouthernSpring : Spring, isSouth);
        var garden = await owner.GardenAsync(Weekend);
        await owner.MapleAsync(garden, "Old maple");
        await owner.MapleAsync(garden, "Small maple", "s");
        var plan = await owner.PlanAsync(garden);
        var windows = await owner.WindowsAsync(garden);
        Assert.Equal(2, plan.Items.Where(item => item.Technique == Pinch).Select(item => item.WindowId).Distinct().Count());
        foreach (var day in plan.Days)
        {
            var date = PlanBench.Date(PlanBench.Text(day!, "date"));
            Assert.Equal(date.DayOfWeek switch { IsoDayOfWeek.Saturday => 180, IsoDayOfWeek.Sunday => 120, _ => 0 }, day!["minutesFree"]!.GetValue<int>());
            var minutes = plan.Items.Where(item => item.Date == date).Sum(item => item.Minutes);
            Assert.Equal(minutes, day["minutesPlanned"]!.GetValue<int>());
            Assert.InRange(minutes, 0, day["minutesFree"]!.GetValue<int>());
        }
        Assert.All(plan.Items, item => Assert.InRange(item.Date, windows[item.WindowId].Opens, windows[item.WindowId].Closes));
        Assert.All(plan.Items.GroupBy(item => item.WindowId), visits => Assert.Equal(visits.Count(), visits.Select(visit => visit.Date).Distinct().Count()));
        Assert.Contains(plan.Items, item => item is { Technique: Pinch, Visits: > 1 });
    }

    [Fact]
    public async Task FromAndTo_KeepTheDaysBetween()
    {
        await using var owner = await PlanBench.StartAsync(Spring);
        var garden = await owner.GardenAsync(Weekend);
        var plan = await owner.PlanAsync(garden, "?from=2026-04-13&to=2026-04-25");
        Assert.Equal(["2026-04-18", "2026-04-19", "2026-04-25"], plan.Days.Select(day => PlanBench.Text(day!, "date")));
        using var turned = await owner.Client.GetAsync($"/api/v1/gardens/{garden}/plan?from=2026-04-25&to=2026-04-13");
        Assert.Equal(HttpStatusCode.BadRequest, turned.StatusCode);
        using var foreign = await owner.Client.GetAsync($"/api/v1/gardens/{Guid.NewGuid()}/plan");
        Assert.Equal(HttpStatusCode.NotFound, foreign.StatusCode);
    }

    [Fact]
    public async Task DayAway_MovesOnlyTheWorkOfThatDay()
    {
        await using var owner = await PlanBench.StartAsync(Spring);
        var garden = await owner.GardenAsync(Weekend);
        await owner.MapleAsync(garden, "Old maple");
        await owner.MapleAsync(garden, "Small maple", "s");
        var before = await owner.PlanAsync(garden);
        var away = before.Items.First(item => item.Technique == Pinch).Date;

        await owner.ChangeAsync(garden, new JsonObject { ["exceptions"] = new JsonArray(PlanBench.Exception(away, 0)) });

        var after = await owner.PlanAsync(garden);
        Assert.DoesNotContain(after.Days, day => PlanBench.Text(day!, "date") == $"{away:uuuu-MM-dd}");
        // A window that had a visit on that day deals its free days out anew.
        var touched = before.Items.Where(item => item.Date == away).Select(item => item.WindowId).ToHashSet();
        var untouched = before.Items.Where(item => !touched.Contains(item.WindowId) && item.Visits == 1).ToList();
        Assert.Equal(untouched, after.Items.Where(item => untouched.Exists(old => old.WindowId == item.WindowId)).ToList());
        Assert.All(touched, window => Assert.True(
            after.Items.Any(item => item.WindowId == window) || after.Unplaced.Any(one => PlanBench.Text(one!, "windowId") == window)));
    }

    [Fact]
    public async Task WithoutWorkDays_SaysSo()
    {
        await using var owner = await PlanBench.StartAsync(Spring);
        var garden = await owner.GardenAsync();
        await owner.MapleAsync(garden, "Old maple");
        var plan = await owner.PlanAsync(garden);
        Assert.Empty(plan.Days);
        Assert.NotEmpty(plan.Unplaced);
        Assert.All(plan.Unplaced, one => Assert.Contains("set workDays", PlanBench.Text(one!, "reason"), StringComparison.Ordinal));
    }

    [Fact]
    public async Task TooLittleTime_WhatWouldMakeRoomMakesRoom()
    {
        await using var owner = await PlanBench.StartAsync(Spring);
        var garden = await owner.GardenAsync(("saturday", 10), ("wednesday", 12));
        await owner.MapleAsync(garden, "Old maple");
        var plan = await owner.PlanAsync(garden);
        var unplaced = plan.Unplaced.First(one => PlanBench.Text(one!, "cause") == "too-little-time" && PlanBench.Text(one!, "technique") == Pinch)!;
        var (date, missing) = (PlanBench.Date(PlanBench.Text(unplaced, "date")), unplaced["minutesMissing"]!.GetValue<int>());
        Assert.Contains($"{missing} more minutes", PlanBench.Text(unplaced, "reason"), StringComparison.Ordinal);

        await owner.ChangeAsync(garden, new JsonObject { ["exceptions"] = new JsonArray(PlanBench.Exception(date, missing + (date.DayOfWeek == IsoDayOfWeek.Saturday ? 10 : 12))) });

        var after = await owner.PlanAsync(garden);
        Assert.Contains(after.Items, item => item.WindowId == PlanBench.Text(unplaced, "windowId") && item.Visit == unplaced["visit"]!.GetValue<int>() && item.Date == date);
    }

    [Theory]
    [InlineData(-8, 2, "frost")]
    [InlineData(18, 38, "heat")]
    public async Task HardWeatherAhead_MovesTheWorkItHolds(double minC, double maxC, string hold)
    {
        var today = Spring.PlusDays(10);
        await using var owner = await PlanBench.StartAsync(today);
        var garden = await owner.GardenAsync(("saturday", 180), ("sunday", 180), ("tuesday", 120), ("thursday", 120));
        await owner.MapleAsync(garden, "Old maple");
        var calm = await owner.PlanAsync(garden);
        var struck = calm.Items.Where(item => item.Technique == Pinch && item.Date <= today.PlusDays(12)).Select(item => item.Date).DefaultIfEmpty().Min();
        Assert.True(struck != default, string.Join(", ", calm.Items));

        owner.GoTo(today, day => day.Date >= struck.PlusDays(-1) && day.Date <= struck.PlusDays(1)
            ? new DayWeather(day.Date, minC, maxC, 0, null, null, day.Kind) : day);
        await owner.ChangeAsync(garden, new JsonObject { ["name"] = "Same yard" });

        var hard = await owner.PlanAsync(garden);
        Assert.DoesNotContain(hard.Items, item => item.Technique == Pinch && item.Date == struck);
        Assert.True(
            hard.Items.Any(item => item.Technique == Pinch && item.Date > struck)
            || hard.Unplaced.Any(one => PlanBench.Text(one!, "reason").Contains(hold, StringComparison.OrdinalIgnoreCase)));
    }

    [Fact]
    public async Task NextDay_KeepsThePlan()
    {
        await using var owner = await PlanBench.StartAsync(Spring);
        var garden = await owner.GardenAsync(Weekend);
        for (var tree = 1; tree <= 5; tree++)
            await owner.MapleAsync(garden, $"Maple {tree}", tree % 2 == 0 ? "s" : "m");
        var today = await owner.PlanAsync(garden);
        var changes = 0;
        for (var day = 1; day <= 4; day++)
        {
            var windowsBefore = await owner.WindowsAsync(garden);
            owner.GoTo(Spring.PlusDays(day));
            var tomorrow = await owner.PlanAsync(garden);
            var windows = await owner.WindowsAsync(garden);
            foreach (var item in today.Items.Where(item => item.Date >= owner.Today && windows.GetValueOrDefault(item.WindowId) == windowsBefore[item.WindowId]))
            {
                changes++;
                Assert.Contains(tomorrow.Items, later => later.WindowId == item.WindowId && later.Visit == item.Visit && later.Date == item.Date);
            }
            today = tomorrow;
        }
        Assert.True(changes >= 4, $"only {changes} visits were compared");
    }

    [Fact]
    public async Task LoggedMinutes_CountFromThreeSessionsOn_ForTreesOfThatSizeAndWorkOfThatKind()
    {
        await using var owner = await PlanBench.StartAsync(Spring);
        var garden = await owner.GardenAsync(Weekend);
        await owner.MapleAsync(garden, "Old maple");
        var done = await owner.MapleAsync(garden, "Much worked maple");
        var small = await owner.MapleAsync(garden, "Small maple", "s");
        // 20 minutes for a small tree and 40 for one of middle size, and 15 % for moving and tools.
        await TakesAsync((46, null), (23, null));
        foreach (var (date, minutes) in new[] { ("2024-05-01", 20), ("2024-05-20", 33) })
            await LogAsync(done, date, minutes);
        await TakesAsync((46, null), (23, null));
        await LogAsync(done, "2025-05-10", 31);
        await TakesAsync((31, 3), (23, null));

        // Other work, and the same on trees of another size, say nothing of it.
        foreach (var date in new[] { "2024-05-02", "2024-05-22", "2025-05-12" })
        {
            await LogAsync(small, date, 9);
            await LogAsync(done, date, 90, "cut-back");
        }
        await TakesAsync((31, 3), (9, 3));
        var last = await LogAsync(small, "2025-05-20", 17);
        await TakesAsync((31, 3), (9, 4));
        using var undone = await owner.Client.DeleteAsync($"/api/v1/trees/{small}/work/{last}");
        await TakesAsync((31, 3), (9, 3));

        Task<string> LogAsync(string tree, string date, int minutes, string technique = Pinch) =>
            owner.Client.MakeAsync($"/api/v1/trees/{tree}/work", new JsonObject { ["technique"] = technique, ["date"] = date, ["minutes"] = minutes });

        async Task TakesAsync((int Minutes, int? From) middle, (int Minutes, int? From) little)
        {
            var items = (await owner.PlanAsync(garden)).Days.SelectMany(day => day!["items"]!.AsArray()).Where(item => PlanBench.Text(item!, "technique") == Pinch).ToList();
            Assert.Equal([middle], Told(item => PlanBench.Text(item, "treeId") != small));
            Assert.Equal([little], Told(item => PlanBench.Text(item, "treeId") == small));

            IEnumerable<(int, int?)> Told(Func<JsonNode, bool> isOf) =>
                items.Where(item => isOf(item!)).Select(item => (item!["minutes"]!.GetValue<int>(), item["learnedFrom"]?.GetValue<int>())).Distinct();
        }
    }

    [Fact]
    public async Task PlanFeed_ShowsEachVisitOnItsDayAndKeepsItsIdentity()
    {
        await using var owner = await PlanBench.StartAsync(Spring);
        var garden = await owner.GardenAsync(Weekend);
        await owner.MapleAsync(garden, "Old maple");
        var feeds = new Dictionary<string, string>();
        foreach (var content in new[] { "windows", "plan", "both" })
        {
            using var answer = await owner.Client.PostAsync("/api/v1/feeds", Bodies.Raw($$"""{"name":"Days","content":"{{content}}","reminders":["PT15H"]}"""));
            Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
            feeds[content] = new Uri(JsonNode.Parse(await answer.Content.ReadAsStringAsync())!["url"]!.GetValue<string>()).PathAndQuery;
        }
        var plan = await owner.PlanAsync(garden);
        var events = await EventsAsync("plan");
        Assert.Equal(
            plan.Items.Select(item => (item.Date.ToDateOnly(), $"{item.WindowId}-visit-{item.Visit}")).Order(),
            events.Select(one => (DateOnly.FromDateTime(one.Start!.Value), one.Uid!.Split('@')[0])).Order());
        Assert.All(events, one => Assert.Equal((one.Start!.HasTime, 1), (false, one.Alarms.Count)));
        var both = await EventsAsync("both");
        Assert.Equal(events.Count + (await EventsAsync("windows")).Count, both.Count);
        Assert.Equal(both.Count, both.Select(one => one.Uid).Distinct().Count());

        var away = plan.Items.First(item => item.Visits > 1);
        await owner.ChangeAsync(garden, new JsonObject { ["exceptions"] = new JsonArray(PlanBench.Exception(away.Date, 0)) });

        var moved = (await EventsAsync("plan")).Single(one => one.Uid!.StartsWith($"{away.WindowId}-visit-{away.Visit}@", StringComparison.Ordinal));
        Assert.NotEqual(away.Date.ToDateOnly(), DateOnly.FromDateTime(moved.Start!.Value));
        Assert.Equal(1, moved.Sequence);

        async Task<List<CalendarEvent>> EventsAsync(string content) => [.. Calendar.Load(await owner.Client.GetStringAsync(feeds[content]))!.Events];
    }
}
