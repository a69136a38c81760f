using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using Dapper;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using NodaTime;
using NodaTime.Testing;
using NodaTime.Text;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Planning;
using Scheduler.Service.Plans;
using Scheduler.Service.Roads;
using Scheduler.Service.Storage;
using Scheduler.Service.Tests.Feeds;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Roads.Support;

/// <summary>
/// The real service with real ends on this machine, a clock that tests move, and no background worker: a test says when a round is made.
/// Windows and plan are put in as planning leaves them. Garden, trees and addresses are invented.
/// </summary>
internal sealed class RoadBench : IAsyncDisposable
{
    public const string Address = "owner@garden.example";
    public const string Root = "/api/v1/roads";

    private RoadBench(ServiceFactory service, SmtpEnd smtp, WebEnd web, FakeClock clock) => (Service, Smtp, Web, Clock) = (service, smtp, web, clock);

    public ServiceFactory Service { get; }
    public SmtpEnd Smtp { get; }
    public WebEnd Web { get; }
    public FakeClock Clock { get; }
    public HttpClient Owner { get; private set; } = null!;
    public Guid Garden { get; private set; }

    public LocalDate Today => Clock.GetCurrentInstant().InZone(DateTimeZoneProviders.Tzdb["Europe/Warsaw"]).Date;

    public static Task<RoadBench> StartAsync(string now = "2026-04-15T08:00:00Z", params (string Key, string? Value)[] settings) => StartAsync(new SmtpEnd(), now, settings);

    public static async Task<RoadBench> StartAsync(SmtpEnd smtp, string now = "2026-04-15T08:00:00Z", params (string Key, string? Value)[] settings)
    {
        var clock = new FakeClock(InstantPattern.ExtendedIso.Parse(now).Value);
        var service = new ServiceFactory
        {
            Replacing = services =>
            {
                services.AddSingleton<IClock>(clock);
                services.Remove(services.Single(one => one.ServiceType == typeof(IHostedService) && one.ImplementationType == typeof(RoadWorker)));
            }
        };
        service.With("Roads:AllowLoopback", "true").With("PublicUrl", "https://trees.example").With("Feeds:Host", "scheduler.test")
            .With("Mail:Host", "127.0.0.1").With("Mail:Port", $"{smtp.Port}").With("Mail:From", "Scheduler <trees@garden.example>").With("Mail:Security", "none");
        foreach (var (key, value) in settings)
            service.With(key, value);
        var bench = new RoadBench(service, smtp, await WebEnd.StartAsync(), clock) { Owner = await service.SignUpAsync() };
        bench.Garden = Guid.Parse(await bench.Owner.MakeAsync("/api/v1/gardens", Bodies.Garden()));
        return bench;
    }

    public T Get<T>() where T : notnull => Service.Services.GetRequiredService<T>();

    public Task<Instant?> DrainAsync() => Get<RoadRun>().DrainAsync();

    /// <summary>An hour of rounds, one a minute.</summary>
    public async Task PassAsync(Duration time)
    {
        var end = Clock.GetCurrentInstant() + time;
        while (Clock.GetCurrentInstant() < end)
        {
            Clock.AdvanceMinutes(1);
            await DrainAsync();
        }
    }

    /// <summary>Makes a road and gives its answer.</summary>
    public async Task<JsonElement> MakeAsync(JsonObject body)
    {
        using var answer = await Owner.PostAsync(Root, Bodies.Raw(body.ToJsonString()));
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode is HttpStatusCode.Created, $"{answer.StatusCode}: {text}");
        return JsonDocument.Parse(text).RootElement;
    }

    /// <summary>A mail road whose address has said yes, with the question taken out of the box.</summary>
    public async Task<string> MailAsync(JsonObject? more = null)
    {
        var road = await MakeAsync(With(new JsonObject { ["kind"] = "email", ["address"] = Address }, more));
        await ConfirmAsync();
        Smtp.Raw.Clear();
        return road.GetProperty("id").GetString()!;
    }

    /// <summary>Presses the button behind the link of the last mail.</summary>
    public async Task ConfirmAsync()
    {
        var link = LinkIn(Smtp.Mails[^1].TextBody!, "/roads/confirm/");
        using var answer = await Service.Anonymous().PostAsync(link, null);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }

    public static string LinkIn(string text, string part) =>
        new Uri(text.Split('\n', '<', '>').Select(line => line.Trim()).Last(line => line.StartsWith("https://", StringComparison.Ordinal) && line.Contains(part, StringComparison.Ordinal))).PathAndQuery;

    public async Task<string> PushAsync(Browser browser, JsonObject? more = null) =>
        (await MakeAsync(With(new JsonObject { ["kind"] = "push", ["subscription"] = browser.Subscription(new Uri(Web.Address, "/push/device")) }, more))).GetProperty("id").GetString()!;

    /// <summary>A webhook that has taken its test.</summary>
    public async Task<(string Id, string Secret)> WebhookAsync(JsonObject? more = null)
    {
        var road = await MakeAsync(With(new JsonObject { ["kind"] = "webhook", ["url"] = new Uri(Web.Address, "/hook").AbsoluteUri }, more));
        var id = road.GetProperty("id").GetString()!;
        Assert.True((await TestAsync(id)).GetProperty("arrived").GetBoolean());
        Web.Requests.Clear();
        return (id, road.GetProperty("secret").GetString()!);
    }

    public async Task<JsonElement> TestAsync(string id)
    {
        using var answer = await Owner.PostAsync($"{Root}/{id}/test", null);
        return JsonDocument.Parse(await answer.Content.ReadAsStringAsync()).RootElement;
    }

    /// <summary>The account reads in this language from now on.</summary>
    public async Task SpeakAsync(string language)
    {
        using var answer = await Owner.PatchAsync("/api/v1/accounts/me", Bodies.Raw($$"""{"language":"{{language}}"}"""));
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
    }

    public Task<JsonElement> RoadAsync(string id) => Owner.JsonAsync($"{Root}/{id}");

    /// <summary>What planning does at the end: windows and plan are stored, then notices follow.</summary>
    public async Task PlanAsync(IEnumerable<StoredWindow> windows, params PlannedVisit[] visits)
    {
        var now = Clock.GetCurrentInstant();
        await Get<WindowStore>().SaveAsync(Garden, [.. windows.Select(window => window with { GardenId = Garden })], Today, now);
        await Get<PlanStore>().SaveAsync(Garden, new StoredPlan(Today, Today.PlusDays(40), visits, []), now);
        await Get<NoticeBook>().RaiseAsync(Garden);
    }

    public Task PlanAsync(params StoredWindow[] windows) => PlanAsync(windows.AsEnumerable());

    /// <summary>A pinch window of a tree; the same number is the same window.</summary>
    public static StoredWindow Window(int number, string tree, LocalDate opens, LocalDate closes, WindowState state = WindowState.Forecast) =>
        FeedSamples.Stored(number, tree, FeedSamples.Between(opens, closes, state) with { Key = new WindowKey(FeedSamples.Id(8000 + number), "tip-pinch", null, 2026, 1) }, "Invented Garden");

    /// <summary>A frost window from the evening of one day to that of another.</summary>
    public static StoredWindow Frost(int number, string tree, LocalDate first, LocalDate last, WindowState state = WindowState.Open) =>
        FeedSamples.Stored(number, tree, FeedSamples.Pinch(state) with
        {
            Key = new WindowKey(FeedSamples.Id(8000 + number), "frost-protection", null, 2026, first.DayOfYear),
            Title = "Bring in before frost",
            Amount = "Into the frost-free shed for the night.",
            Opens = DateBand.On(first),
            Closes = DateBand.On(last.PlusDays(1))
        }, "Invented Garden");

    public static PlannedVisit Visit(StoredWindow window, LocalDate date) => new(window.Id, 1, 1, date, 0, 20, 0, FeedSamples.Changed);

    /// <summary>All deliveries as text: state, road kind, notice kind, due.</summary>
    public async Task<List<string>> DeliveriesAsync()
    {
        await using var connection = await Get<Database>().OpenAsync();
        return [.. (await connection.QueryAsync<(string State, string Kind, string Notice, string Due)>(
            """
            SELECT d.state, r.kind, n.kind, n.due FROM deliveries d JOIN notices n ON n.id = d.notice_id JOIN roads r ON r.id = d.road_id
            ORDER BY r.kind, n.kind, n.due, n.id
            """)).Select(row => $"{row.State} {row.Kind} {row.Notice} {row.Due}")];
    }

    public async Task RunAsync(string sql, object? values = null)
    {
        await using var connection = await Get<Database>().OpenAsync();
        await connection.ExecuteAsync(sql, values);
    }

    public async ValueTask DisposeAsync()
    {
        Owner.Dispose();
        await Service.DisposeAsync();
        await Smtp.DisposeAsync();
        await Web.DisposeAsync();
    }

    private static JsonObject With(JsonObject body, JsonObject? more)
    {
        foreach (var (name, value) in more ?? [])
            body[name] = value?.DeepClone();
        return body;
    }
}
