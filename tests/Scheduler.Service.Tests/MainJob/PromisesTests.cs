using System.Net;
using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.MainJob;

/// <summary>What comes of logged work, from the log to the feed. Gardens, trees and readings are invented.</summary>
public class PromisesTests
{
    private const string Today = "2026-05-06";
    private const string PinchedOn = "2026-04-20";
    private const string ScoreEvent = "Score how dense the crown is: Old maple";
    private static readonly LocalDate Start = new(2012, 1, 1);
    private static readonly LocalDate Yesterday = new(2026, 5, 5);

    [Fact]
    public async Task LoggedPinch_AnswersWithWhatComesOfIt()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);
        var (garden, maple) = await MapleAsync(owner);

        using var answer = await owner.Client.PostAsync($"/api/v1/trees/{maple}/work", Bodies.Raw($$"""{"technique":"tip-pinch","date":"{{PinchedOn}}","crownZone":"top"}"""));

        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        var logged = JsonNode.Parse(await answer.Content.ReadAsStringAsync())!;
        Assert.Equal("tip-pinch", logged["technique"]!.GetValue<string>());
        var score = logged["followUps"]!.AsArray().Single(one => one!["what"]!.GetValue<string>() == "score-density")!;
        Assert.Equal(logged["id"]!.GetValue<string>(), score["workId"]!.GetValue<string>());
        Assert.Equal(("waiting", "look", "top"), (Text(score, "state"), Text(score, "kind"), Text(score, "crownZone")));
        Assert.True(Date(score, "early") <= Date(score, "likely") && Date(score, "likely") < Date(score, "late"));
        Assert.True(Date(score, "likely") > Yesterday);
        Assert.Equal(120, score["when"]!["heatCd"]!["min"]!.GetValue<double>());
        Assert.Equal(logged["followUps"]!.ToJsonString(), (await ItemsAsync(owner, $"trees/{maple}/follow-ups")).ToJsonString());
        Assert.Equal(logged["followUps"]!.AsArray().Count, (await ItemsAsync(owner, $"gardens/{garden}/follow-ups")).Count);
        var day = Text(score["due"]!, "likely");
        Assert.Contains(await ItemsAsync(owner, $"gardens/{garden}/follow-ups?from={day}&to={day}"), one => Text(one!, "id") == Text(score, "id"));
        Assert.DoesNotContain(await ItemsAsync(owner, $"gardens/{garden}/follow-ups?to={PinchedOn}"), one => Text(one!, "id") == Text(score, "id"));
        using var refused = await owner.Client.GetAsync($"/api/v1/gardens/{garden}/follow-ups?from=soon");
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
    }

    [Fact]
    public async Task WarmerSpring_MovesThePromiseAndItsEvent()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);
        var (garden, maple) = await MapleAsync(owner);
        await owner.WorkAsync(maple, "tip-pinch", PinchedOn);
        var feed = await owner.FeedAsync();
        var before = await OneAsync(owner, maple, "score-density");
        var shown = OwnerAtWork.Event(await owner.CalendarAsync(feed), ScoreEvent);
        Assert.Equal(("TENTATIVE", Date(before, "likely").ToDateOnly()), (shown.Status, shown.Start!.Date));
        Assert.Contains("Promised by the tip pinch of 20 April 2026", shown.Description, StringComparison.Ordinal);

        var warm = new LocalDate(2026, 4, 21);
        await owner.ReadingsAsync(garden, MadeReadings.Csv(warm, Yesterday, warmerFrom: warm, warmerC: 2));

        var after = await OneAsync(owner, maple, "score-density");
        var moved = OwnerAtWork.Event(await owner.CalendarAsync(feed), ScoreEvent);
        Assert.Equal(Text(before, "id"), Text(after, "id"));
        Assert.InRange(Period.DaysBetween(Date(after, "likely"), Date(before, "likely")), 2, 15);
        Assert.Equal((shown.Uid, Date(after, "likely").ToDateOnly()), (moved.Uid, moved.Start!.Date));
        Assert.True(moved.Sequence > shown.Sequence);
        // The promise is no work window: the list of windows and their identity stay as they were.
        Assert.DoesNotContain(await owner.WindowsAsync(garden), window => Text(window!, "title").StartsWith("Score", StringComparison.Ordinal));
    }

    [Fact]
    public async Task UndonePinch_TakesItsPromisesBackAndCancelsTheEvent()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);
        var (_, maple) = await MapleAsync(owner);
        var work = await owner.WorkAsync(maple, "tip-pinch", PinchedOn);
        var feed = await owner.FeedAsync();
        var shown = OwnerAtWork.Event(await owner.CalendarAsync(feed), ScoreEvent);

        using var undone = await owner.Client.DeleteAsync($"/api/v1/trees/{maple}/work/{work}");

        Assert.Equal(HttpStatusCode.NoContent, undone.StatusCode);
        Assert.Empty(await ItemsAsync(owner, $"trees/{maple}/follow-ups"));
        var cancelled = OwnerAtWork.Event(await owner.CalendarAsync(feed), ScoreEvent);
        Assert.Equal((shown.Uid, "CANCELLED"), (cancelled.Uid, cancelled.Status));
        Assert.Contains("taken out of the log", cancelled.Description, StringComparison.Ordinal);
    }

    [Fact]
    public async Task DensityScoreInTime_KeepsThePromise_AndItsLossBringsItBack()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);
        var (_, maple) = await MapleAsync(owner, warmerC: 5);
        await owner.WorkAsync(maple, "tip-pinch", PinchedOn);
        var feed = await owner.FeedAsync();
        Assert.Equal("due", Text(await OneAsync(owner, maple, "score-density"), "state"));
        var shown = OwnerAtWork.Event(await owner.CalendarAsync(feed), ScoreEvent);
        Assert.Equal("CONFIRMED", shown.Status);
        var advice = JsonNode.Parse(await owner.Client.GetStringAsync($"/api/v1/trees/{maple}/advice"))!["items"]!.AsArray();
        var pinch = advice.Single(item => Text(item!, "technique") == "tip-pinch")!;
        Assert.Contains(pinch["promised"]!.AsArray(), one => Text(one!, "why").StartsWith("Promised by the tip pinch of 20 April 2026: Score", StringComparison.Ordinal));

        var seen = await owner.Client.MakeAsync($"/api/v1/trees/{maple}/observations", new JsonObject { ["date"] = Today, ["density"] = 2 });

        var kept = await OneAsync(owner, maple, "score-density");
        Assert.Equal(("done", Today), (Text(kept, "state"), Text(kept, "doneOn")));
        var cancelled = OwnerAtWork.Event(await owner.CalendarAsync(feed), ScoreEvent);
        Assert.Equal((shown.Uid, "CANCELLED"), (cancelled.Uid, cancelled.Status));
        Assert.Contains("It was done on 6 May 2026", cancelled.Description, StringComparison.Ordinal);

        using var gone = await owner.Client.DeleteAsync($"/api/v1/trees/{maple}/observations/{seen}");
        var back = OwnerAtWork.Event(await owner.CalendarAsync(feed), ScoreEvent);
        Assert.Equal((shown.Uid, "CONFIRMED"), (back.Uid, back.Status));
        Assert.True(back.Sequence > cancelled.Sequence);
    }

    [Fact]
    public async Task DismissedPromise_StaysDropped_AlsoAfterExportAndImport()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);
        var (_, maple) = await MapleAsync(owner);
        await owner.WorkAsync(maple, "tip-pinch", PinchedOn);
        var feed = await owner.FeedAsync();
        var id = Text(await OneAsync(owner, maple, "score-density"), "id");

        using var dismissed = await owner.Client.DeleteAsync($"/api/v1/trees/{maple}/follow-ups/{id}");

        Assert.Equal(HttpStatusCode.NoContent, dismissed.StatusCode);
        Assert.Equal("dropped", Text(await OneAsync(owner, maple, "score-density"), "state"));
        Assert.Equal("CANCELLED", OwnerAtWork.Event(await owner.CalendarAsync(feed), ScoreEvent).Status);
        using var unknown = await owner.Client.DeleteAsync($"/api/v1/trees/{maple}/follow-ups/{Guid.NewGuid()}");
        Assert.Equal(HttpStatusCode.NotFound, unknown.StatusCode);

        var document = await owner.Client.GetStringAsync("/api/v1/accounts/me/export");
        using var other = await owner.Factory.SignUpAsync("Somebody else");
        (await other.PostAsync("/api/v1/accounts/me/import", Bodies.Raw(document))).EnsureSuccessStatusCode();
        var garden = JsonNode.Parse(await other.GetStringAsync("/api/v1/gardens"))!["items"]![0]!["id"]!.GetValue<string>();
        var copied = JsonNode.Parse(await other.GetStringAsync($"/api/v1/gardens/{garden}/follow-ups"))!["items"]!.AsArray()
            .Single(one => Text(one!, "what") == "score-density")!;
        Assert.Equal("dropped", Text(copied, "state"));
        Assert.NotEqual(id, Text(copied, "id"));
    }

    [Fact]
    public async Task WorkOfLastSeason_PromisesNothingOfThen_RootWorkItsNextTurn()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);
        var (_, maple) = await MapleAsync(owner);
        var feed = await owner.FeedAsync();
        await owner.WorkAsync(maple, "tip-pinch", "2025-05-02");
        Assert.Empty(await ItemsAsync(owner, $"trees/{maple}/follow-ups"));
        await owner.WorkAsync(maple, "repotting", "2024-03-10", "normal");
        var next = Assert.Single(await ItemsAsync(owner, $"trees/{maple}/follow-ups"))!;
        Assert.Equal(("next-root-work", "waiting", 2027), (Text(next, "what"), Text(next, "state"), Date(next, "early").Year));
        Assert.DoesNotContain("Root work comes round", await owner.CalendarAsync(feed), StringComparison.Ordinal);
    }

    [Fact]
    public async Task SouthernGarden_PromisesHalfAYearApart()
    {
        await using var owner = await OwnerAtWork.StartAsync("2025-11-05");
        var garden = await owner.GardenAsync(-43, "Pacific/Auckland");
        await owner.ReadingsAsync(garden, MadeReadings.Csv(Start, new LocalDate(2025, 11, 4), swingC: -9));
        var maple = await owner.TreeAsync(garden, "Old maple", "acer-palmatum", "refinement", "slender");
        await owner.WorkAsync(maple, "tip-pinch", "2025-10-20");
        var score = await OneAsync(owner, maple, "score-density");
        Assert.InRange(Date(score, "likely"), new LocalDate(2025, 11, 1), new LocalDate(2025, 11, 25));
        Assert.Contains(ScoreEvent, await owner.CalendarAsync(await owner.FeedAsync()), StringComparison.Ordinal);
    }

    private static async Task<(string Garden, string Maple)> MapleAsync(OwnerAtWork owner, double warmerC = 0)
    {
        var garden = await owner.GardenAsync();
        await owner.ReadingsAsync(garden, MadeReadings.Csv(Start, Yesterday, warmerFrom: new LocalDate(2026, 4, 21), warmerC: warmerC));
        return (garden, await owner.TreeAsync(garden, "Old maple", "acer-palmatum", "refinement", "slender"));
    }

    private static async Task<JsonArray> ItemsAsync(OwnerAtWork owner, string path) =>
        JsonNode.Parse(await owner.Client.GetStringAsync($"/api/v1/{path}"))!["items"]!.AsArray();

    private static async Task<JsonNode> OneAsync(OwnerAtWork owner, string tree, string what) =>
        (await ItemsAsync(owner, $"trees/{tree}/follow-ups")).Single(one => Text(one!, "what") == what)!;

    private static string Text(JsonNode node, string name) => node[name]!.GetValue<string>();

    private static LocalDate Date(JsonNode promise, string end) => LocalDatePattern.Iso.Parse(Text(promise["due"]!, end)).Value;
}
