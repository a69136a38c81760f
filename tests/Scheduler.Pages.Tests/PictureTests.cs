using System.Buffers.Binary;
using Microsoft.Playwright;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests;

/// <summary>
/// The pictures of the guide: demonstration, stopped clock, so that they only change with the pages. They are made at each run; with
/// <c>GUIDE_PICTURES=write</c> into the folder <c>Pictures</c> of this project, otherwise beside the tests' program.
/// </summary>
[Collection(BrowserTests.Name)]
public sealed class PictureTests(Browser browser, PictureTests.Demonstration demonstration) : IClassFixture<PictureTests.Demonstration>
{
    private const int MostBytes = 150 * 1024;

    [BrowserTheory]
    [InlineData("today", "/today", 360)]
    [InlineData("today", "/today", 1280)]
    [InlineData("season", "/season?species=acer-palmatum", 360)]
    [InlineData("season", "/season?species=acer-palmatum", 1280)]
    [InlineData("tree", "/trees", 360)]
    [InlineData("tree", "/trees", 1280)]
    [InlineData("plan", "/plan", 360)]
    [InlineData("plan", "/plan", 1280)]
    public async Task Picture_OfThePage_IsMade(string name, string path, int width)
    {
        var page = await browser.OpenAsync(new View(width), demonstration.Address);
        await page.SetViewportSizeAsync(width, width == 360 ? 780 : 720);
        await Browser.SignInAsync(page, await demonstration.Service.DemoKeyAsync());
        await page.GotoAsync(path);
        if (name == "tree")
            await page.ClickAsync(".grid .card h2 a");
        await page.WaitForLoadStateAsync(LoadState.Load);
        var picture = await page.ScreenshotAsync();
        await page.Context.CloseAsync();
        // A PNG begins with eight bytes, then the first chunk says its width (PNG, third edition, section 11.2.1).
        Assert.Equal(width, (int)BinaryPrimitives.ReadUInt32BigEndian(picture.AsSpan(16, 4)));
        Assert.InRange(picture.Length, 1, MostBytes);
        var (colors, largest) = await ColorsAsync(picture);
        Assert.True(colors > 50 && largest < 0.97, $"{colors} colors, {largest:0.000} of it one: the picture is as good as blank.");
        Directory.CreateDirectory(Folder());
        await File.WriteAllBytesAsync(Path.Combine(Folder(), $"{name}-{width}.png"), picture);
    }

    /// <summary>How many colors a picture has, and the share of the commonest; read by the browser, on a page of its own.</summary>
    private async Task<(int Colors, double Largest)> ColorsAsync(byte[] picture)
    {
        var page = await browser.OpenAsync(View.Desk);
        var counted = await page.EvaluateAsync<double[]>(
            """
            async text => {
              const image = new Image();
              image.src = "data:image/png;base64," + text;
              await image.decode();
              const canvas = new OffscreenCanvas(image.width, image.height).getContext("2d");
              canvas.drawImage(image, 0, 0);
              const counts = new Map();
              const pixels = new Uint32Array(canvas.getImageData(0, 0, image.width, image.height).data.buffer);
              for (const pixel of pixels) counts.set(pixel, (counts.get(pixel) ?? 0) + 1);
              return [counts.size, Math.max(...counts.values()) / pixels.length];
            }
            """, Convert.ToBase64String(picture));
        await page.Context.CloseAsync();
        return ((int)counted[0], counted[1]);
    }

    private static string Folder()
    {
        if (Environment.GetEnvironmentVariable("GUIDE_PICTURES") != "write")
            return Path.Combine(AppContext.BaseDirectory, "pictures");
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Scheduler.sln")))
            folder = folder.Parent ?? throw new InvalidOperationException("The tests must run inside the repository.");
        return Path.Combine(folder.FullName, "tests", "Scheduler.Pages.Tests", "Pictures");
    }

    /// <summary>A demonstration that no other test changes.</summary>
    public sealed class Demonstration : IAsyncDisposable, IDisposable
    {
        private Uri? _address;

        public PagesService Service { get; } = new();

        public Uri Address => _address ??= Service.Listen();

        public ValueTask DisposeAsync() => Service.DisposeAsync();

        public void Dispose() => Service.Dispose();
    }
}
