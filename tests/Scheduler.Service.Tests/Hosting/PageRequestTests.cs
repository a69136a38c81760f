using System.Net;
using System.Text.Json;
using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Hosting;

public sealed class PageRequestTests : IDisposable
{
    private readonly ServiceFactory _service = new();

    public void Dispose() => _service.Dispose();

    [Fact]
    public async Task List_WalkedPageByPage_ShowsEachItemOnce()
    {
        using var owner = await _service.SignUpAsync();
        var garden = await owner.MakeAsync("/api/v1/gardens", Bodies.Garden());
        var tree = await owner.MakeAsync($"/api/v1/gardens/{garden}/trees", Bodies.Tree());
        for (var i = 0; i < 4; i++)
        {
            await owner.MakeAsync("/api/v1/gardens", Bodies.Garden());
            await owner.MakeAsync($"/api/v1/gardens/{garden}/trees", Bodies.Tree());
            await owner.MakeAsync("/api/v1/accounts/me/keys", new System.Text.Json.Nodes.JsonObject());
        }
        for (var day = 1; day <= 5; day++)
        {
            var (work, seen, bench) = (Bodies.Work(), Bodies.Observation(), Bodies.Bench());
            var date = $"2026-04-0{6 - day}";
            (work["date"], seen["date"], bench["date"]) = (date, date, date);
            await owner.MakeAsync($"/api/v1/trees/{tree}/work", work);
            await owner.MakeAsync($"/api/v1/trees/{tree}/observations", seen);
            await owner.MakeAsync($"/api/v1/gardens/{garden}/observations", bench);
        }
        string[] lists =
        [
            "gardens", $"gardens/{garden}/trees", $"gardens/{garden}/observations", $"trees/{tree}/work", $"trees/{tree}/observations", "accounts/me/keys"
        ];
        foreach (var list in lists)
        {
            var (ids, pages) = await WalkAsync(owner, list);
            Assert.Equal(5, ids.Distinct().Count());
            Assert.Equal((5, 3), (ids.Count, pages));
        }
        var dates = (await owner.JsonAsync($"/api/v1/trees/{tree}/work")).GetProperty("items").EnumerateArray().Select(item => item.GetProperty("date").GetString()).ToList();
        Assert.Equal(dates.Order(), dates);
    }

    [Theory]
    [InlineData("limit=0", "limit")]
    [InlineData("limit=201", "limit")]
    [InlineData("limit=ten", "limit")]
    [InlineData("limit=-1", "limit")]
    [InlineData("limit=5&limit=6", "limit")]
    [InlineData("after=nowhere", "after")]
    [InlineData("after=", "after")]
    [InlineData("after=%27%3B%20DROP%20TABLE%20gardens", "after")]
    public async Task Query_Wrong_NamesTheParameter(string query, string named)
    {
        using var owner = await _service.SignUpAsync();
        using var answer = await owner.GetAsync($"/api/v1/gardens?{query}");
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        var errors = JsonDocument.Parse(await answer.Content.ReadAsStringAsync()).RootElement.GetProperty("errors");
        Assert.Equal(named, errors.EnumerateObject().Single().Name);
    }

    private static async Task<(List<string> Ids, int Pages)> WalkAsync(HttpClient owner, string list)
    {
        var (ids, pages, after) = (new List<string>(), 0, "");
        do
        {
            var page = await owner.JsonAsync($"/api/v1/{list}?limit=2{after}");
            ids.AddRange(page.GetProperty("items").EnumerateArray().Select(item => item.GetProperty("id").GetString()!));
            pages++;
            after = page.GetProperty("next").GetString() is { } next ? $"&after={next}" : "";
        }
        while (after.Length > 0);
        return (ids, pages);
    }
}
