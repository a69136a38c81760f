namespace Scheduler.Domain.Techniques;

/// <summary>The answer to "this technique, this tree, today". When a tree has several modes the first of
/// do-now, ask, wait, missed, leave, not-allowed is the tree's answer.</summary>
public enum Verdict { DoNow, Ask, Wait, Missed, Leave, NotAllowed }

/// <summary>Where a work window stands. Withdrawn: it was announced and is no longer advised.</summary>
public enum WindowState { Forecast, Open, Held, Done, Missed, Withdrawn }

/// <summary>Why an answer is what it is: a catalog id (such as <c>roots-rebuilding</c>) and a sentence for the owner.</summary>
public sealed record Reason(string Id, string Text);
