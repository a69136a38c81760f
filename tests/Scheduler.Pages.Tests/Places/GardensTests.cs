using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.Places;

public sealed class GardensTests(PagesService service) : IClassFixture<PagesService>
{
    [Fact]
    public async Task Settings_AreChanged_AndWhatWasFoundIsNotTakenForTheOwnersWord()
    {
        var (key, garden, api) = await GardenAsync();
        using var _ = api;
        using var client = await PageClient.SignedInAsync(service, key, $"/gardens/{garden}");
        await client.SendAsync($"form[action='/gardens/{garden}']", ("temperatureOffsetC", "-1.5"), ("firstFrostChoice", "cautious"), ("waterAssured", "true"), ("hardinessZone", "7b"));
        Assert.Contains("did=changed", client.Path, StringComparison.Ordinal);
        var shown = await api.GetFromJsonAsync<JsonElement>($"/api/v1/gardens/{garden}");
        Assert.Equal(-1.5, shown.GetProperty("temperatureOffsetC").GetDouble());
        Assert.Equal("cautious", shown.GetProperty("firstFrostChoice").GetString());
        Assert.True(shown.GetProperty("waterAssured").GetBoolean());
        Assert.Equal("7b", shown.GetProperty("hardinessZone").GetString());
        Assert.Equal("owner", shown.GetProperty("hardinessZoneFrom").GetString());
        await client.SendAsync($"form[action='/gardens/{garden}']", ("latitude", "95"), ("name", ""));
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.Equal("95", client.Page.QuerySelector("#f-latitude")!.GetAttribute("value"));
        Assert.Equal(2, client.Page.QuerySelectorAll(".faults li").Length);
    }

    [Fact]
    public async Task Settings_InFeetAndFahrenheit_ArriveInMetersAndCelsius()
    {
        var (key, garden, api) = await GardenAsync();
        using var _ = api;
        using var client = await PageClient.SignedInAsync(service, key);
        await client.SendAsync("form[action='/more']", ("units", "imperial"));
        await client.OpenAsync($"/gardens/{garden}");
        await client.SendAsync($"form[action='/gardens/{garden}']", ("elevationM", "1000"), ("temperatureOffsetC", "-9"));
        var shown = await api.GetFromJsonAsync<JsonElement>($"/api/v1/gardens/{garden}");
        Assert.Equal(304.8, shown.GetProperty("elevationM").GetDouble(), 2);
        Assert.Equal(-5, shown.GetProperty("temperatureOffsetC").GetDouble(), 2);
        Assert.Equal("1000", client.Page.QuerySelector("#f-elevationM")!.GetAttribute("value"));
        await client.OpenAsync($"/gardens/{garden}/bench");
        await client.SendAsync($"form[action='/gardens/{garden}/bench']", ("rootBallC", "32"));
        var seen = (await api.GetFromJsonAsync<JsonElement>($"/api/v1/gardens/{garden}/observations")).GetProperty("items")[0];
        Assert.Equal(0, seen.GetProperty("rootBallC").GetDouble(), 6);
    }

    [Fact]
    public async Task Readings_AreTakenLineByLine_AndEveryRefusedLineIsNamed()
    {
        var (key, garden, api) = await GardenAsync();
        using var _ = api;
        using var client = await PageClient.SignedInAsync(service, key, $"/gardens/{garden}/readings");
        await SendFileAsync(client, $"/gardens/{garden}/readings", "own.csv", "date,tmin_c,tmax_c\n2026-03-01,-1,5\n2026-03-02,9,5\nnonsense,1,2\n2026-03-03,0.5,7\n");
        Assert.Equal(HttpStatusCode.OK, client.Last.StatusCode);
        Assert.Equal(["3", "4"], client.Page.QuerySelectorAll("table td.number").Select(cell => cell.TextContent));
        Assert.Contains("2", client.Page.QuerySelector("[aria-labelledby=report]")!.TextContent, StringComparison.Ordinal);
        var days = await api.GetFromJsonAsync<JsonElement>($"/api/v1/gardens/{garden}/weather?from=2026-03-01&to=2026-03-03");
        Assert.Equal(["reading", "observed", "reading"], days.GetProperty("days").EnumerateArray().Select(day => day.GetProperty("kind").GetString()));
        await SendFileAsync(client, $"/gardens/{garden}/readings", "own.csv", "no header");
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.Equal("true", client.Page.QuerySelector("#f-file")!.GetAttribute("aria-invalid"));
        await client.SendAsync("form[enctype]");
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        var sample = await client.Http.GetStringAsync($"/gardens/{garden}/readings/sample.csv");
        Assert.StartsWith("date,tmin_c,tmax_c\n", sample, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Bench_IsNoted_AndTakenBack()
    {
        var (key, garden, api) = await GardenAsync();
        using var _ = api;
        using var client = await PageClient.SignedInAsync(service, key, $"/gardens/{garden}/bench");
        await client.SendAsync($"form[action='/gardens/{garden}/bench']:not(#act)", []);
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        await client.SendAsync($"form[action='/gardens/{garden}/bench']:not(#act)", ("soilDry", "true"), ("notes", "north side"));
        Assert.Contains("north side", client.Page.QuerySelector(".rows")!.TextContent, StringComparison.Ordinal);
        await client.SendAsync("#act", [], "button[formaction*='/bench/']");
        Assert.Equal(0, (await api.GetFromJsonAsync<JsonElement>($"/api/v1/gardens/{garden}/observations")).GetProperty("items").GetArrayLength());
    }

    [Fact]
    public async Task Garden_IsDeletedOnlyAfterItWasAsked()
    {
        var (key, garden, api) = await GardenAsync();
        using var _ = api;
        using var client = await PageClient.SignedInAsync(service, key, $"/gardens/{garden}/delete");
        Assert.Equal(HttpStatusCode.OK, (await api.GetAsync($"/api/v1/gardens/{garden}")).StatusCode);
        await client.SendAsync($"form[action='/gardens/{garden}/delete']");
        Assert.Equal("/gardens?did=deleted", client.Path);
        Assert.Equal(HttpStatusCode.NotFound, (await api.GetAsync($"/api/v1/gardens/{garden}")).StatusCode);
    }

    internal static async Task SendFileAsync(PageClient client, string path, string name, string content)
    {
        var (_, fields) = client.Filled("form[enctype]", []);
        using var body = new MultipartFormDataContent();
        foreach (var (field, value) in fields.Where(field => field.Key != "file"))
            body.Add(new StringContent(value), field);
        body.Add(new ByteArrayContent(Encoding.UTF8.GetBytes(content)), "file", name);
        await client.PostAsync(path, body);
    }

    private async Task<(string Key, string Garden, HttpClient Api)> GardenAsync()
    {
        var key = await service.NewAccountAsync();
        var api = service.ApiClient(key);
        using var made = await api.PostAsJsonAsync("/api/v1/gardens", new { name = "Invented Yard", latitude = 52.0, longitude = 5.0 });
        return (key, (await made.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetString()!, api);
    }
}
