namespace Scheduler.Service.Pages.Layout;

/// <summary>One place in the navigation.</summary>
/// <param name="Text">Key of its text.</param>
/// <param name="Drawing">Strokes of its picture, in a square of 24.</param>
public sealed record PageLink(string Path, string Text, string Drawing)
{
    /// <summary>Whether a page lies under this link.</summary>
    public bool IsAt(string path) => path == Path || path.StartsWith(Path + "/", StringComparison.Ordinal);
}

/// <summary>Where the navigation leads; five at most, so that each is wide enough for a thumb at 360 px.</summary>
public static class PageLinks
{
    public static readonly IReadOnlyList<PageLink> All =
    [
        new("/today", "Nav.Today", "M4 12a8 8 0 1 1 16 0M2 16h20M7 20h10"),
        new("/trees", "Nav.Trees", "M12 21v-8M12 13c-4 0-6-2-6-5 3 0 6 2 6 5zM12 11c0-4 2-6 6-7 1 4-2 7-6 7zM6 21h12"),
        new("/season", "Nav.Season", "M3 20h18M4 17c3 0 4-3 6-6s4-6 10-7M15 4h5v5"),
        new("/plan", "Nav.Plan", "M5 6h14v14H5zM5 10h14M9 3v4M15 3v4M9 14l2 2 4-4"),
        new("/more", "Nav.More", "M4 7h16M4 12h16M4 17h16")
    ];
}
