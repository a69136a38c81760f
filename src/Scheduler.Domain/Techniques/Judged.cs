namespace Scheduler.Domain.Techniques;

/// <summary>
/// One mode of a technique, judged on every part of the tree. The tree's verdict is the first of do-now, ask, wait,
/// missed, leave, not-allowed among the parts. Windows are worked out when first asked for.
/// </summary>
internal sealed class Judged
{
    private readonly bool _hasWindows;
    private IReadOnlyList<Judgement>? _wanted;
    private IReadOnlyList<WorkWindow>? _windows;
    private IReadOnlyList<PassDays>? _toNext;

    public Judged(IReadOnlyList<Judgement> parts, bool hasWindows = true)
    {
        Parts = parts;
        Judgement = parts.MinBy(part => part.Verdict)!;
        _hasWindows = hasWindows && !Judgement.Mode.IsStatement;
    }

    /// <summary>The part that decides.</summary>
    public Judgement Judgement { get; }

    /// <summary>Every part of the tree; one when it has no parts.</summary>
    public IReadOnlyList<Judgement> Parts { get; }

    /// <summary>The parts that share the tree's next visit: wanted, and none worked fewer times.</summary>
    public IReadOnlyList<Judgement> Wanted => _wanted ??= FindWanted();

    public IReadOnlyList<WorkWindow> Windows => _windows ??= Wanted.Count == 0 ? [] : WindowWriter.Of(this, Passes.Together(Wanted));

    /// <summary>The first window that is not done, else the first of all, without working out those after it.</summary>
    public WorkWindow? NextWindow => Wanted.Count == 0 ? null : WindowWriter.Next(this, ToNext);

    /// <summary>Whether some visit of this growth year is still to come.</summary>
    public bool IsComing => Wanted.Count > 0 && Wanted[0].Verdict is not (Verdict.NotAllowed or Verdict.Leave)
        && ToNext.Count > Wanted[0].Visits.Count;

    /// <summary>The same without windows, every part answering otherwise.</summary>
    public Judged Answering(Verdict verdict, Reason reason) =>
        new([.. Parts.Select(part => part with { Verdict = verdict, Reasons = [reason] })], hasWindows: false);

    // The passes that are done and the one that is next.
    private IReadOnlyList<PassDays> ToNext => _toNext ??= Passes.Together(Wanted, Wanted[0].Visits.Count + 1);

    /// <summary>The same with a limit that is told on every part that is open.</summary>
    public Judged Limited(string text) =>
        new([.. Parts.Select(part => part.Verdict == Verdict.DoNow ? part with { Limits = [.. part.Limits, text] } : part)], _hasWindows);

    private IReadOnlyList<Judgement> FindWanted()
    {
        if (!_hasWindows)
            return [];
        var wanted = Parts.Where(part => part.Window.Verdict is not (Verdict.NotAllowed or Verdict.Leave) || part.Visits.Count > 0 && !IsOtherExtent(part))
            .Select(part => part.Window).ToList();
        if (wanted.Exists(part => part.Verdict is not (Verdict.NotAllowed or Verdict.Leave)))
            wanted.RemoveAll(part => part.Verdict is Verdict.NotAllowed or Verdict.Leave);
        if (wanted.Count < 2)
            return wanted;
        var fewest = wanted.Min(part => part.Visits.Count);
        // The part that decides comes first.
        return [.. wanted.Where(part => part.Visits.Count == fewest).OrderBy(part => part.Verdict)];
    }

    // Root work that was done belongs to the mode of its extent; the other modes have no window of it.
    private static bool IsOtherExtent(Judgement judgement) => judgement.Technique.Id == SeasonRun.Repotting
        && judgement.Year.Log.RootWork(0) is { } extent && judgement.Mode.Id != Trees.Ids.Of(extent);
}
