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
        await client.SendAsync("form[action='/practice'][method=post]", (name, value));
        Assert.True(client.Page.QuerySelector($"input[name={name}][value='{value}']")!.HasAttribute("checked"));
        var kept = (await api.GetFromJsonAsync<JsonElement>("/api/v1/accounts/me/settings")).GetProperty("settings");
        Assert.Equal(value, Assert.Single(kept.EnumerateObject()).Value.ToString());
        await client.SendAsync("form[action='/practice'][method=post]", (name, "no-such-choice"));
        Assert.Equal(System.Net.HttpStatusCode.BadRequest, client.Last.StatusCode);
        Assert.NotNull(client.Page.QuerySelector("fieldset .fault"));
    }

    [Fact]
    public async Task List_IsSearchedAndOrdered_AndWhatItLeavesOutStays()
    {
        var key = await service.NewAccountAsync();
        using var client = await PageClient.SignedInAsync(service, key, "/practice");
        using var api = service.ApiClient(key);
        var last = client.Page.QuerySelectorAll("fieldset")[^1];
        var (question, other) = (last.QuerySelector("legend")!.TextContent.Trim(), last.QuerySelectorAll("input").First(choice => !choice.HasAttribute("checked")));
        await client.SendAsync("form[action='/practice'][method=post]", (other.GetAttribute("name")!, other.GetAttribute("value")!));
        await client.OpenAsync("/practice?sort=own");
        Assert.Equal(question, Questions()[0]);
        await client.OpenAsync("/practice?sort=question");
        Assert.Equal(Questions().Order(StringComparer.OrdinalIgnoreCase), Questions());

        var word = Questions().First(one => one != question);
        await client.OpenAsync("/practice?sort=question&q=" + Uri.EscapeDataString(word));
        Assert.Equal([word], Questions());
        await client.SendAsync("form[action='/practice'][method=post]");
        Assert.Equal([word], Questions());
        var kept = (await api.GetFromJsonAsync<JsonElement>("/api/v1/accounts/me/settings")).GetProperty("settings");
        Assert.Equal(other.GetAttribute("name"), "point-" + Assert.Single(kept.EnumerateObject()).Name);
        await client.OpenAsync("/practice?q=nothing-fits");
        Assert.NotNull(client.Page.QuerySelector(".empty a[href='/practice']"));
        Assert.Null(client.Page.QuerySelector("form[method=post] button.main"));

        List<string> Questions() => [.. client.Page.QuerySelectorAll("fieldset legend").Select(legend => legend.TextContent.Trim())];
    }
}
