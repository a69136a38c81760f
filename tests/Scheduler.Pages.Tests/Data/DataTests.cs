using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using Scheduler.Pages.Tests.Places;
using Scheduler.Pages.Tests.Support;
using Scheduler.Service.Pages.LongWork;

namespace Scheduler.Pages.Tests.Data;

public sealed class DataTests(PagesService service) : IClassFixture<PagesService>
{
    [Fact]
    public async Task Export_ComesAsAFile_ThatAnotherAccountTakesIn()
    {
        using var demo = await PageClient.SignedInAsync(service, await service.DemoKeyAsync());
        using var file = await demo.Http.GetAsync("/data/export");
        Assert.Equal("attachment", file.Content.Headers.ContentDisposition!.DispositionType);
        var text = await file.Content.ReadAsStringAsync();
        var key = await service.NewAccountAsync();
        using var client = await PageClient.SignedInAsync(service, key, "/data");
        await GardensTests.SendFileAsync(client, "/data/import", "all.json", text);
        Assert.StartsWith("/data?done=true", client.Path, StringComparison.Ordinal);
        Assert.NotNull(client.Page.QuerySelector(".notice"));
        using var api = service.ApiClient(key);
        var gardens = JsonDocument.Parse(text).RootElement.GetProperty("gardens").GetArrayLength();
        Assert.Equal(gardens, (await api.GetFromJsonAsync<JsonElement>("/api/v1/gardens")).GetProperty("items").GetArrayLength());
    }

    [Fact]
    public async Task Import_OfAFaultyFile_ListsEveryFault()
    {
        using var client = await PageClient.SignedInAsync(service, await service.NewAccountAsync(), "/data");
        await GardensTests.SendFileAsync(client, "/data/import", "bad.json", """{"format":"<b>","version":7,"name":"","gardens":[],"feeds":[]}""");
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.Equal(3, client.Page.QuerySelectorAll(".faults li").Length);
        // Left and found again.
        await client.OpenAsync("/data");
        Assert.Equal(3, client.Page.QuerySelectorAll(".faults li").Length);
        Assert.Empty(client.Page.QuerySelectorAll(".faults b"));
        await GardensTests.SendFileAsync(client, "/data/import", "bad.json", "no JSON");
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.Single(client.Page.QuerySelectorAll(".faults li"));
    }

    [Fact]
    public async Task Import_IsFoundAgain_AndTheSameFormBeginsNothingAnew()
    {
        using var demo = await PageClient.SignedInAsync(service, await service.DemoKeyAsync());
        var text = await demo.Http.GetStringAsync("/data/export");
        var key = await service.NewAccountAsync();
        using var api = service.ApiClient(key);
        var owner = (await api.GetFromJsonAsync<JsonElement>("/api/v1/accounts/me")).GetProperty("id").GetGuid();
        using var client = await PageClient.SignedInAsync(service, key, "/data");
        var (_, fields) = client.Filled("form[enctype]", []);
        MultipartFormDataContent Body()
        {
            var body = new MultipartFormDataContent();
            foreach (var (field, value) in fields.Where(field => field.Key != "file"))
                body.Add(new StringContent(value), field);
            body.Add(new StringContent(text), "file", "all.json");
            return body;
        }
        var works = service.Services.GetRequiredService<LongWorks>();
        await client.PostAsync("/data/import", Body());
        var begun = Work();
        await client.PostAsync("/data/import", Body());
        Assert.Same(begun, Work());
        for (var tries = 0; tries < 600 && begun.IsRunning; tries++)
            await Task.Delay(100);
        Assert.Equal((begun.Total, true), (begun.Done, begun.Total >= 2));
        await client.OpenAsync("/more");
        await client.OpenAsync("/data");
        Assert.Null(client.Page.QuerySelector("progress"));
        Assert.NotNull(client.Page.QuerySelector(".notice:not([data-focus])"));

        Scheduler.Service.Pages.LongWork.LongWork Work() => works.Find(new LongWorkKey(owner, Guid.Empty, "import"))!;
    }

    [Fact]
    public async Task Erase_AsksForTheNameOfTheAccount()
    {
        var key = await service.NewAccountAsync("Invented Owner");
        using var client = await PageClient.SignedInAsync(service, key, "/data/erase");
        await client.SendAsync("form[action='/data/erase']", ("name", "somebody else"));
        Assert.Equal(HttpStatusCode.BadRequest, client.Last.StatusCode);
        await client.SendAsync("form[action='/data/erase']", ("name", "Invented Owner"));
        Assert.Equal("/data/erased", client.Path);
        using var api = service.ApiClient(key);
        Assert.Equal(HttpStatusCode.Unauthorized, (await api.GetAsync("/api/v1/accounts/me")).StatusCode);
        await client.OpenAsync("/today");
        Assert.StartsWith("/sign-in", client.Path, StringComparison.Ordinal);
    }
}
