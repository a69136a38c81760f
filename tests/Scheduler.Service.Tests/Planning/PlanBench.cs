using System.Globalization;
using System.Text.Json.Nodes;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Weather;
using Scheduler.Service.Tests.MainJob;
using Scheduler.Service.Tests.Support;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Tests.Planning;

/// <summary>An owner with free days, on the real service; only clock and weather are given. Gardens, trees and weather are invented.</summary>
internal sealed class PlanBench : IAsyncDisposable
{
    private static readonly LocalDate Start = new(2010, 1, 1);
    private const int ForecastDays = 15;

    private readonly ServiceFactory _service;
    private readonly SteppedClock _clock = new();
    private readonly bool _isSouth;

    private PlanBench(LocalDate today, bool isSouth)
    {
        _isSouth = isSouth;
        _service = new ServiceFactory
        {
            Recorders = false,
            Replacing = services => services.AddSingleton<IClock>(_clock).AddSingleton<IGardenWeather>(_ => _service!.Weather)
        };
        GoTo(today);
    }

    public HttpClient Client { get; private set; } = null!;

    public LocalDate Today { get; private set; }

    public static async Task<PlanBench> StartAsync(LocalDate today, bool isSouth = false)
    {
        var bench = new PlanBench(today, isSouth);
        bench.Client = await bench._service.SignUpAsync();
        return bench;
    }

    /// <summary>Noon UTC of this day, with the weather up to it and a forecast from it on.</summary>
    /// <param name="forecast">Changes the forecast.</param>
    public void GoTo(LocalDate today, Func<DayWeather, DayWeather>? forecast = null)
    {
        Today = today;
        _clock.Now = today.At(new LocalTime(12, 0)).InUtc().ToInstant();
        var days = MadeReadings.Csv(Start, today.PlusDays(ForecastDays), swingC: _isSouth ? -9 : 9).Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1)
            .Select(line => line.Split(','))
            .Select(cells => new DayWeather(
                Date(cells[0]), Number(cells[1]), Number(cells[2]), 0, null, null, Date(cells[0]) < today ? DayKind.Observed : DayKind.Forecast))
            .Select(day => forecast is not null && day.Kind == DayKind.Forecast ? forecast(day) : day);
        _service.Weather.Days = new GardenDays([.. days], new WeatherStatus("ready", null, 16, 16, [], null));
    }

    public Task<string> GardenAsync(params (string Day, int Minutes)[] workDays) => Client.MakeAsync("/api/v1/gardens", new JsonObject
    {
        ["name"] = "Invented Yard", ["latitude"] = _isSouth ? -52 : 52, ["longitude"] = 5, ["elevationM"] = 10, ["timeZone"] = "Etc/UTC",
        ["waterAssured"] = true, ["workDays"] = WorkDays(workDays)
    });

    public Task<string> MapleAsync(string garden, string name, string size = "m") => Client.MakeAsync($"/api/v1/gardens/{garden}/trees", new JsonObject
    {
        ["name"] = name, ["species"] = "acer-palmatum", ["stage"] = "refinement", ["goals"] = new JsonArray("slender"), ["size"] = size,
        ["health"] = "vigorous", ["placement"] = "open", ["rootWorkKnown"] = true
    });

    public async Task ChangeAsync(string garden, JsonObject body)
    {
        using var answer = await Client.PatchAsync($"/api/v1/gardens/{garden}", Bodies.Raw(body.ToJsonString()));
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
    }

    public async Task<Plan> PlanAsync(string garden, string query = "")
    {
        var plan = JsonNode.Parse(await Client.GetStringAsync($"/api/v1/gardens/{garden}/plan{query}"))!;
        var items = plan["days"]!.AsArray().SelectMany(day => day!["items"]!.AsArray().Select(item => new PlanItem(
            Date(Text(day, "date")), Text(item!, "windowId"), item!["visit"]!.GetValue<int>(), item["visits"]!.GetValue<int>(), Text(item, "technique"),
            item["minutes"]!.GetValue<int>()))).ToList();
        return new Plan(plan["days"]!.AsArray(), items, plan["unplaced"]!.AsArray());
    }

    /// <summary>Likely opening and closing day by id.</summary>
    public async Task<Dictionary<string, (LocalDate Opens, LocalDate Closes)>> WindowsAsync(string garden) =>
        JsonNode.Parse(await Client.GetStringAsync($"/api/v1/gardens/{garden}/windows?limit=200"))!["items"]!.AsArray()
            .Where(window => window!["opens"]!["likely"] is not null && window["closes"]!["likely"] is not null)
            .ToDictionary(window => Text(window!, "id"), window => (Date(Text(window!["opens"]!, "likely")), Date(Text(window["closes"]!, "likely"))));

    public static JsonArray WorkDays(params (string Day, int Minutes)[] days) =>
        [.. days.Select(day => new JsonObject { ["day"] = day.Day, ["minutes"] = day.Minutes })];

    public static JsonObject Exception(LocalDate from, int minutes) => new() { ["from"] = LocalDatePattern.Iso.Format(from), ["minutes"] = minutes };

    public static string Text(JsonNode node, string field) => node[field]!.GetValue<string>();

    public static LocalDate Date(string text) => LocalDatePattern.Iso.Parse(text).Value;

    public ValueTask DisposeAsync()
    {
        Client.Dispose();
        return _service.DisposeAsync();
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private sealed class SteppedClock : IClock
    {
        public Instant Now { get; set; }

        public Instant GetCurrentInstant() => Now;
    }
}

internal sealed record Plan(JsonArray Days, IReadOnlyList<PlanItem> Items, JsonArray Unplaced);

internal sealed record PlanItem(LocalDate Date, string WindowId, int Visit, int Visits, string Technique, int Minutes);
