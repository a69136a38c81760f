using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.AspNetCore.Mvc.Testing;

namespace Scheduler.Service.Tests.Catalog;

public sealed class CatalogApiTests(WebApplicationFactory<Program> app) : IClassFixture<WebApplicationFactory<Program>>
{
    private readonly HttpClient _client = app.CreateClient();

    private Task<JsonElement> GetAsync(string path) => _client.GetFromJsonAsync<JsonElement>("/api/v1" + path);

    [Fact]
    public async Task Species_One_CarriesProvenanceAndSource()
    {
        var beech = await GetAsync("/species/fagus-sylvatica");
        Assert.Equal("Fagaceae", beech.GetProperty("family").GetString());
        var root = beech.GetProperty("hardiness").GetProperty("rootKillC");
        Assert.Equal((-9.4, "published"), (root.GetProperty("value").GetDouble(), root.GetProperty("provenance").GetString()));
        Assert.Contains("Oregon State University", root.GetProperty("source").GetString(), StringComparison.Ordinal);
        Assert.Equal("bud-break", beech.GetProperty("phases")[2].GetProperty("phase").GetString());
    }

    [Fact]
    public async Task Species_WithoutWinterRest_HasNoPhases() =>
        Assert.Empty((await GetAsync("/species/ficus")).GetProperty("phases").EnumerateArray());

    [Fact]
    public async Task Technique_EveryBlockOfNumbers_SaysWhereTheyComeFrom()
    {
        var techniques = (await GetAsync("/techniques")).GetProperty("items").EnumerateArray().ToList();
        Assert.Contains(techniques, technique => technique.GetProperty("id").GetString() == "cut-back");
        foreach (var technique in techniques)
        {
            var modes = technique.GetProperty("modes").EnumerateArray().ToList();
            string[] lists = ["windows", "gaps", "amounts", "followUps", "fallbacks"], single = ["effort", "repeat", "load"];
            var blocks = modes.SelectMany(mode => lists.SelectMany(list => mode.GetProperty(list).EnumerateArray())
                .Concat(single.Select(one => mode.GetProperty(one)).Where(one => one.ValueKind != JsonValueKind.Null)))
                .Append(technique.GetProperty("load"));
            Assert.All(blocks, block => Assert.NotEmpty(block.GetProperty("provenance").GetString()!));
            Assert.All(modes, mode => Assert.NotEmpty(mode.GetProperty("limitsProvenance").GetString()!));
        }
    }

    [Fact]
    public async Task Thresholds_AllOfThem_CarryProvenanceAndSource()
    {
        var items = (await GetAsync("/thresholds")).GetProperty("items").EnumerateArray().ToDictionary(item => item.GetProperty("id").GetString()!);
        Assert.All(items.Values, item => Assert.NotEmpty(item.GetProperty("provenance").GetString()!));
        Assert.Equal(1, items["actBloomC"].GetProperty("value").GetDouble());
        Assert.Contains("Penn State", items["actBloomC"].GetProperty("source").GetString(), StringComparison.Ordinal);
        Assert.Contains("leafTipsShare", items.Keys);
    }

    [Fact]
    public async Task Groups_AllOfThem_NameTheirSpecies()
    {
        var items = (await GetAsync("/groups")).GetProperty("items").EnumerateArray().ToDictionary(item => item.GetProperty("code").GetString()!);
        Assert.Equal(18, items.Count);
        Assert.Contains("acer-palmatum", items["MPJ"].GetProperty("species").EnumerateArray().Select(id => id.GetString()));
    }

    [Fact]
    public async Task Catalog_WithoutAFolderOfTheOwner_HasNoFilesAndNoProblem()
    {
        var catalog = await GetAsync("/catalog");
        Assert.Empty(catalog.GetProperty("files").EnumerateArray());
        Assert.Equal(JsonValueKind.Null, catalog.GetProperty("problem").ValueKind);
    }

    [Fact]
    public async Task List_InPages_GivesEachSpeciesOnce()
    {
        var ids = new List<string>();
        string? after = null;
        do
        {
            var page = await GetAsync($"/species?limit=20{(after is null ? "" : "&after=" + after)}");
            ids.AddRange(page.GetProperty("items").EnumerateArray().Select(item => item.GetProperty("id").GetString()!));
            after = page.GetProperty("next").GetString();
        }
        while (after is not null);
        Assert.Equal(ShippedCatalog.Content.Species.Keys.Order(StringComparer.Ordinal), ids);
    }

    [Fact]
    public async Task Technique_One_ShowsTriggersAsTheyAreWritten()
    {
        var mode = (await GetAsync("/techniques/tip-pinch")).GetProperty("modes")[0];
        var window = mode.GetProperty("windows")[0];
        Assert.Equal("""{"leafCount":2}""", window.GetProperty("opens").GetRawText());
        Assert.Equal("common-practice", window.GetProperty("provenance").GetString());
        Assert.Equal(ShippedCatalog.Content.Craft.Techniques.Count, (await GetAsync("/techniques")).GetProperty("items").GetArrayLength());
    }

    [Fact]
    public async Task Reasons_TellWhatIdsMean()
    {
        var items = (await GetAsync("/reasons")).GetProperty("items").EnumerateArray()
            .Select(item => (Kind: item.GetProperty("kind").GetString(), Id: item.GetProperty("id").GetString(), Text: item.GetProperty("text").GetString())).ToList();
        Assert.Contains(items, item => item is { Kind: "hold", Id: "frost-soon", Text.Length: > 10 });
        Assert.Contains(items, item => item is { Kind: "reason", Id: "roots-rebuilding" });
        Assert.Contains(items, item => item.Kind == "mode");
    }

    [Theory]
    [InlineData("/techniques/tip-pinsh", "tip-pinch")]
    [InlineData("/species/acer-palmatun", "acer-palmatum")]
    [InlineData("/species/Japanese maple", "acer-palmatum")]
    [InlineData("/species/yew", "taxus")]
    public async Task UnknownId_IsAProblemThatNamesTheNearest(string path, string nearest)
    {
        var answer = await _client.GetAsync("/api/v1" + path);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
        var problem = await answer.Content.ReadFromJsonAsync<JsonElement>();
        Assert.Equal(nearest, problem.GetProperty("nearest")[0].GetString());
        Assert.Contains(nearest, problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("0")]
    [InlineData("201")]
    [InlineData("many")]
    [InlineData("")]
    public async Task Limit_OutOfRange_IsRefused(string limit)
    {
        var answer = await _client.GetAsync($"/api/v1/species?limit={limit}");
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
        Assert.True((await answer.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("errors").TryGetProperty("limit", out _));
    }
}
