using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// What makes a window the same window when its dates move: tree, technique, mode, growth year and which pass of that
/// year it is. Calendar identity hangs on this and on nothing else.
/// </summary>
public sealed record WindowKey(Guid TreeId, string Technique, string? Mode, int Year, int Pass);

/// <summary>A span of days in which growth allows one technique on one tree, with everything the owner needs to act.</summary>
public sealed record WorkWindow
{
    public required WindowKey Key { get; init; }
    public required DateBand Opens { get; init; }
    public required DateBand Closes { get; init; }
    public required WindowState State { get; init; }
    /// <summary>Id of the weather hold that delays an open window, such as <c>frost-soon</c>.</summary>
    public string? Hold { get; init; }
    /// <summary>First day without the hold, as far as the forecast reaches.</summary>
    public NodaTime.LocalDate? HeldUntil { get; init; }
    /// <summary>Short heading without the tree's name, such as "Pinch window opens".</summary>
    public required string Title { get; init; }
    public required IReadOnlyList<Reason> Reasons { get; init; }
    /// <summary>How much, in one or two sentences.</summary>
    public required string Amount { get; init; }
    public IReadOnlyList<string> How { get; init; } = [];
    public IReadOnlyList<string> Cautions { get; init; } = [];
    public IReadOnlyList<string> Aftercare { get; init; } = [];
    /// <summary>Minutes for one session on a tree of this size (estimate until the owner's log says otherwise).</summary>
    public int? Minutes { get; init; }
    /// <summary>Fewest and most sessions in one window.</summary>
    public Sessions? Sessions { get; init; }
    /// <summary>Sessions logged of a window that needs more of them; null: none, or it is over.</summary>
    public int? SessionsDone { get; init; }
    /// <summary>People needed for safe handling; null when one is enough.</summary>
    public string? People { get; init; }
}

/// <summary>Fewest and most sessions.</summary>
public sealed record Sessions(int Low, int High);

/// <summary>A technique that a growth year will not see on this tree, and why.</summary>
public sealed record Refusal(string Technique, string? Mode, int Year, Verdict Verdict, IReadOnlyList<Reason> Reasons);

/// <summary>All windows of a tree in the current and the coming growth year, and all refusals.</summary>
public sealed record WindowSet(IReadOnlyList<WorkWindow> Windows, IReadOnlyList<Refusal> Refusals);
