using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.Frame;

/// <summary>
/// What programs read is the same whatever language the machine, the thread or the browser speaks. German writes decimals with a comma and
/// dates with points, so anything that slips through shows.
/// </summary>
public sealed class CultureTests : IDisposable
{
    private readonly CultureInfo _before = CultureInfo.CurrentCulture;

    [Fact]
    public async Task Calendars_Json_AndReadings_DoNotDependOnTheLanguageOfTheMachine()
    {
        CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
        await using var service = new PagesService();
        var key = await service.NewAccountAsync();
        using var api = service.ApiClient(key);
        api.DefaultRequestHeaders.AcceptLanguage.ParseAdd("de-DE");
        using var made = await api.PostAsJsonAsync("/api/v1/gardens", new { name = "Invented garden", latitude = 52.25, longitude = 5.5, temperatureOffsetC = 1.5 });
        var text = await made.Content.ReadAsStringAsync();
        Assert.Contains("\"latitude\":52.25", text, StringComparison.Ordinal);
        var garden = JsonDocument.Parse(text).RootElement.GetProperty("id").GetString();
        using var csv = new StringContent("date,tmin_c,tmax_c\n2026-04-01,1.5,12.25\n", Encoding.UTF8, new MediaTypeHeaderValue("text/csv"));
        using var taken = await api.PutAsync($"/api/v1/gardens/{garden}/readings", csv);
        Assert.Equal(HttpStatusCode.OK, taken.StatusCode);
        var days = await api.GetStringAsync($"/api/v1/gardens/{garden}/weather?from=2026-04-01&to=2026-04-01");
        Assert.Contains("12.25", days, StringComparison.Ordinal);
        using var tree = await api.PostAsJsonAsync($"/api/v1/gardens/{garden}/trees", new
        {
            name = "Maple 1", species = "acer-palmatum", stage = "refinement", goals = new[] { "slender" }, placement = "open", size = "m", health = "vigorous"
        });
        Assert.True(tree.IsSuccessStatusCode);
        using var feed = await api.PostAsJsonAsync("/api/v1/feeds", new { name = "Invented feed" });
        var url = JsonDocument.Parse(await feed.Content.ReadAsStringAsync()).RootElement.GetProperty("url").GetString()!;
        // A page read in German in between must leave no trace either.
        using var client = await PageClient.SignedInAsync(service, key);
        client.Http.DefaultRequestHeaders.AcceptLanguage.ParseAdd("de-DE");
        Assert.Equal("Heute", (await client.OpenAsync("/today")).QuerySelector("h1")!.TextContent);
        var german = await api.GetStringAsync(new Uri(url).PathAndQuery);
        Assert.Contains("April 2026", german, StringComparison.Ordinal);
        Assert.DoesNotContain("Mai 2026", german, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"\d,\d C\b", german);
        Assert.Contains("May", german, StringComparison.Ordinal);
    }

    public void Dispose() => CultureInfo.CurrentCulture = _before;
}
