using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Parser;
using Microsoft.AspNetCore.Mvc.Testing;

namespace Scheduler.Pages.Tests.Support;

/// <summary>A browser without a screen: keeps cookies, follows redirects, reads pages, and sends forms as they stand on the page.</summary>
public sealed class PageClient(WebApplicationFactory<Program> service) : IDisposable
{
    private readonly HttpClient _client = service.CreateClient(new WebApplicationFactoryClientOptions { AllowAutoRedirect = false, HandleCookies = true });

    public HttpClient Http => _client;

    /// <summary>The page last read.</summary>
    public IDocument Page { get; private set; } = null!;

    public HttpResponseMessage Last { get; private set; } = null!;

    /// <summary>Where the last redirects led.</summary>
    public string Path { get; private set; } = "/";

    public static async Task<PageClient> SignedInAsync(WebApplicationFactory<Program> service, string key, string next = "/more")
    {
        var client = new PageClient(service);
        await client.OpenAsync($"/sign-in?next={Uri.EscapeDataString(next)}");
        await client.SendAsync("form[action='/sign-in']", ("key", key));
        Assert.Equal(HttpStatusCode.OK, client.Last.StatusCode);
        return client;
    }

    public async Task<IDocument> OpenAsync(string path)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, path);
        request.Headers.Accept.ParseAdd("text/html");
        return await FollowAsync(await _client.SendAsync(request), path);
    }

    /// <summary>Sends a form of the page with its hidden fields and the given values.</summary>
    /// <param name="button">Selector of the button that is pressed; its formaction counts.</param>
    public async Task<IDocument> SendAsync(string form, (string Name, string Value)[] values, string? button = null)
    {
        var (path, fields) = Filled(form, values, button);
        return await PostAsync(path, fields);
    }

    public Task<IDocument> SendAsync(string form, params (string Name, string Value)[] values) => SendAsync(form, values, null);

    public async Task<IDocument> PostAsync(string path, IEnumerable<KeyValuePair<string, string>> fields)
    {
        using var body = new FormUrlEncodedContent(fields);
        return await PostAsync(path, body);
    }

    public async Task<IDocument> PostAsync(string path, HttpContent body) => await FollowAsync(await _client.PostAsync(path, body), path);

    /// <summary>What a form would send.</summary>
    public (string Path, List<KeyValuePair<string, string>> Fields) Filled(string form, (string Name, string Value)[] values, string? button = null)
    {
        var element = Page.QuerySelector(form) ?? throw new InvalidOperationException($"The page {Path} has no {form}.");
        var pressed = button is null ? null : Page.QuerySelector(button) ?? throw new InvalidOperationException($"The page {Path} has no {button}.");
        var given = values.Select(pair => pair.Name).ToHashSet();
        var fields = element.QuerySelectorAll("input[name], textarea[name], select[name]")
            .Where(field => !given.Contains(field.GetAttribute("name")!) && (field.GetAttribute("type") is not ("checkbox" or "radio") || field.HasAttribute("checked")))
            .Select(field => KeyValuePair.Create(field.GetAttribute("name")!, ValueOf(field)))
            .Concat(values.Select(pair => KeyValuePair.Create(pair.Name, pair.Value))).ToList();
        if (pressed?.GetAttribute("name") is { } name)
            fields.Add(KeyValuePair.Create(name, pressed.GetAttribute("value") ?? ""));
        return (pressed?.GetAttribute("formaction") ?? element.GetAttribute("action") ?? Path, fields);
    }

    public void Dispose() => _client.Dispose();

    private static string ValueOf(IElement field) => field.LocalName switch
    {
        "textarea" => field.TextContent,
        "select" => (field.QuerySelector("option[selected]") ?? field.QuerySelector("option"))?.GetAttribute("value") ?? "",
        _ => field.GetAttribute("value") ?? ""
    };

    private async Task<IDocument> FollowAsync(HttpResponseMessage answer, string path)
    {
        for (var hops = 0; answer.StatusCode is HttpStatusCode.Found or HttpStatusCode.SeeOther && hops < 5; hops++)
        {
            path = answer.Headers.Location!.OriginalString;
            using var request = new HttpRequestMessage(HttpMethod.Get, path);
            request.Headers.Accept.ParseAdd("text/html");
            answer = await _client.SendAsync(request);
        }
        (Last, Path) = (answer, path);
        return Page = await new HtmlParser().ParseDocumentAsync(await answer.Content.ReadAsStringAsync());
    }
}
