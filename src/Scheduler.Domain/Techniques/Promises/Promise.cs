using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Promises;

/// <summary>
/// What comes of one piece of logged work, with dates. It follows from the log, the rules and the outlook alone: nothing
/// of it is kept, so it moves with the season and goes when its work is undone.
/// </summary>
public sealed record Promise
{
    /// <summary>The same for the same work and the same thing promised, however its dates move.</summary>
    public required Guid Id { get; init; }
    public required Guid TreeId { get; init; }
    /// <summary>The work it follows from.</summary>
    public required WorkRecord Work { get; init; }
    public required FollowUpKind Kind { get; init; }
    /// <summary>Short id of the thing promised, such as <c>score-density</c>.</summary>
    public required string What { get; init; }
    /// <summary>The technique that keeps it; null: a look.</summary>
    public string? Technique { get; init; }
    public required string Text { get; init; }
    public required Trigger When { get; init; }
    /// <summary>When it first falls due; not expected: nobody can say yet.</summary>
    public required DateBand Opens { get; init; }
    /// <summary>By when it is due; the same as <see cref="Opens"/> for a single point.</summary>
    public required DateBand Closes { get; init; }
    /// <summary>Facts of an observation that answer it; empty: any look.</summary>
    public IReadOnlyList<string> AnsweredBy { get; init; } = [];
    public PromiseState State { get; init; }
    /// <summary>The day it was kept.</summary>
    public LocalDate? DoneOn { get; init; }

    public CrownZone? CrownZone => Work.CrownZone;
    public string? Branch => Work.Branch;

    /// <summary>Early and likely date of falling due, and the latest date by which it is.</summary>
    public DateBand Due => new(Opens.Early, Opens.Likely, Closes.Likely is null ? Opens.Late : Closes.Late);

    /// <summary>"Promised by the tip pinch of 4 May 2026: ..."</summary>
    public string Because => $"Promised by the {Work.Technique.Replace('-', ' ')} of {Work.Date.ToString("d MMMM uuuu", System.Globalization.CultureInfo.InvariantCulture)}: {Text}";
}

/// <summary>To come, due, past its latest date, kept (or for a rest: over), or dismissed, lapsed or overtaken.</summary>
public enum PromiseState { Waiting, Due, Overdue, Done, Dropped }
