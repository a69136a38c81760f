using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.Playwright;

namespace Scheduler.Pages.Tests.Support;

/// <summary>A browser and a running service with the demonstration, shared by all tests that look at pages as they are drawn.</summary>
public sealed class Browser : IAsyncLifetime
{
    private static readonly string[] Flags =
        ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];

    private IPlaywright? _playwright;
    private IBrowser? _browser;
    private string? _key;
    private string? _signedIn;
    private string? _road;

    /// <summary>Where Chromium is: the variable CHROMIUM, or what the path holds; null where there is none.</summary>
    public static string? Program { get; } = Environment.GetEnvironmentVariable("CHROMIUM") is { Length: > 0 } set ? set
        : (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
            .SelectMany(folder => new[] { "chromium", "chromium-browser", "google-chrome" }.Select(name => Path.Combine(folder, name))).FirstOrDefault(File.Exists);

    /// <summary>It knows a mail server, so that mails are offered; there is none at that port.</summary>
    public PagesService Service { get; } =
        new PagesService().With("Mail:Host", "127.0.0.1").With("Mail:Port", "1").With("Mail:Security", "none").With("Mail:From", "trees@garden.example");

    public Uri Address { get; private set; } = null!;

    public async Task InitializeAsync()
    {
        if (Program is null)
            return;
        Address = Service.Listen();
        _key = await Service.DemoKeyAsync();
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new() { ExecutablePath = Program, Args = Flags, Headless = true });
    }

    /// <summary>A fresh window without cookies.</summary>
    public Task<IPage> OpenAsync(View view, Uri? address = null) => OpenAsync(view, address, null);

    /// <summary>A fresh window, signed in to the demonstration.</summary>
    public async Task<IPage> OpenSignedInAsync(View view)
    {
        if (_signedIn is null)
        {
            var first = await OpenAsync(view);
            await SignInAsync(first, _key!);
            // Signing in is tested elsewhere; further windows take the cookie over.
            _signedIn = await first.Context.StorageStateAsync();
            await first.Context.CloseAsync();
        }
        return await OpenAsync(view, null, _signedIn);
    }

    /// <summary>Id of a road of the demonstration, which has two of them from then on.</summary>
    public async Task<string> RoadAsync()
    {
        if (_road is not null)
            return _road;
        using var api = Service.ApiClient(_key!);
        foreach (var name in new[] { "Shed display", "Own script" })
        {
            using var made = await api.PostAsJsonAsync("/api/v1/roads", new { kind = "webhook", name, url = "https://hooks.example/garden" });
            _road = (await made.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetString()!;
        }
        return _road!;
    }

    private async Task<IPage> OpenAsync(View view, Uri? address, string? state)
    {
        var context = await _browser!.NewContextAsync(new()
        {
            StorageState = state,
            BaseURL = (address ?? Address).ToString(), ViewportSize = new() { Width = view.Width, Height = view.Width < 600 ? 740 : 800 }, JavaScriptEnabled = view.Script,
            ColorScheme = view.Dark ? ColorScheme.Dark : ColorScheme.Light, Locale = view.Language, HasTouch = view.Width < 600, ReducedMotion = ReducedMotion.Reduce
        });
        context.SetDefaultTimeout(15_000);
        return await context.NewPageAsync();
    }

    public static async Task SignInAsync(IPage page, string key)
    {
        await page.GotoAsync("/sign-in");
        await page.FillAsync("input[name=key]", key);
        await page.ClickAsync("form[action='/sign-in'] button[type=submit]");
    }

    /// <summary>Waits until an expression holds; asked from outside, as the pages' own policy lets no text run in them.</summary>
    public static async Task UntilAsync(IPage page, string expression)
    {
        for (var tries = 0; tries < 150; tries++)
        {
            if (await HoldsAsync(page, expression))
                return;
            await Task.Delay(100);
        }
        Assert.Fail("Not within 15 s: " + expression);
    }

    // A page that is just being left has nothing to say; the one that comes will.
    private static async Task<bool> HoldsAsync(IPage page, string expression)
    {
        try
        {
            return await page.EvaluateAsync<bool>(expression);
        }
        catch (PlaywrightException fault) when (fault.Message.Contains("Execution context was destroyed", StringComparison.Ordinal))
        {
            return false;
        }
    }

    public async Task DisposeAsync()
    {
        if (_browser is not null)
            await _browser.DisposeAsync();
        _playwright?.Dispose();
        await Service.DisposeAsync();
    }
}

/// <summary>How a page is looked at. Sizes: 360 px is a narrow phone, 1280 px a small laptop.</summary>
public sealed record View(int Width, bool Dark = false, bool Script = true, string Language = "en-GB")
{
    public static readonly View Phone = new(360);
    public static readonly View Desk = new(1280);

    public override string ToString() => $"{Width}px{(Dark ? " dark" : "")}{(Script ? "" : " no script")}";
}

[CollectionDefinition(Name)]
public sealed class BrowserTests : ICollectionFixture<Browser>
{
    public const string Name = "browser";
}

/// <summary>Runs where Chromium is installed; elsewhere it says why not.</summary>
public sealed class BrowserFactAttribute : FactAttribute
{
    public BrowserFactAttribute() => Skip = Browser.Program is null ? "Chromium is not installed (Debian: apt-get install chromium, or set CHROMIUM)." : null;
}

/// <inheritdoc cref="BrowserFactAttribute"/>
public sealed class BrowserTheoryAttribute : TheoryAttribute
{
    public BrowserTheoryAttribute() => Skip = Browser.Program is null ? "Chromium is not installed (Debian: apt-get install chromium, or set CHROMIUM)." : null;
}
