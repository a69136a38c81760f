using System.Net.Http.Json;
using System.Text.Json;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.Practice;

public sealed class PracticeTests(PagesService service) : IClassFixture<PagesService>
{
    [Fact]
    public async Task Choices_AreKept_AndWhatIsUsualIsLeftOut()
    {
        var key = await service.NewAccountAsync();
        using var client = await PageClient.SignedInAsync(service, key, "/practice");
        using var api = service.ApiClient(key);
        var points = (await api.GetFromJsonAsync<JsonElement>("/api/v1/settings")).GetProperty("items").EnumerateArray().ToList();
        Assert.Equal(points.Count, client.Page.QuerySelectorAll("fieldset").Length);
        var first = client.Page.QuerySelector("fieldset")!;
        var other = first.QuerySelectorAll("input").Single(choice => !choice.HasAttribute("checked") && choice == first.QuerySelectorAll("input").First(one => !one.HasAttribute("checked")));
        var (name, value) = (other.GetAttribute("name")!, other.GetAttribute("value")!);
        await client.SendAsync("form[action='/practice']", (name, value));
        Assert.True(client.Page.QuerySelector($"input[name={name}][value='{value}']")!.HasAttribute("checked"));
        var kept = (await api.GetFromJsonAsync<JsonElement>("/api/v1/accounts/me/settings")).GetProperty("settings");
        Assert.Equal(value, Assert.Single(kept.EnumerateObject()).Value.ToString());
        await client.SendAsync("form[action='/practice']", (name, "no-such-choice"));
        Assert.Equal(System.Net.HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.NotNull(client.Page.QuerySelector("fieldset .fault"));
    }
}
