namespace Scheduler.Domain.Techniques;

/// <summary>
/// When work that takes several sessions is done. A visit runs on until the fewest sessions of its technique are logged, or the owner says
/// that nothing is left; the owner's word that there is more keeps it running. A session on a named zone or branch is all that part
/// needs. Where a growth year has several visits, one ends with the silence after which a session would count for the next; where it has
/// one, every session of the year counts for it.
/// </summary>
internal static class SessionRule
{
    /// <summary>First days of the visits, and whether the last of them runs on.</summary>
    public static (IReadOnlyList<NodaTime.LocalDate> Visits, bool IsRunning) Of(string key, TechniqueMode mode, TreeYear year, int mostPasses)
    {
        var pieces = year.Log.Pieces(key, VisitDays(year));
        if (pieces.Count == 0)
            return ([], false);
        if (mostPasses == 1)
            pieces = [WorkPiece.Together(pieces)];
        return ([.. pieces.Select(piece => piece.First)], year.IsCurrent && Runs(pieces[^1], mode, year, mostPasses));
    }

    /// <summary>Sessions of the tree's running visit, those on parts included; 0 where none runs.</summary>
    /// <param name="visitsDone">Visits that are over.</param>
    public static int Done(string key, TreeYear year, int mostPasses, int visitsDone)
    {
        var pieces = year.Whole.Log.Pieces(key, VisitDays(year), isWholeTree: true);
        if (pieces.Count == 0 || visitsDone >= mostPasses)
            return 0;
        if (mostPasses == 1)
            return WorkPiece.Together(pieces).Sessions;
        return pieces.Count > visitsDone ? pieces[^1].Sessions : 0;
    }

    private static bool Runs(WorkPiece piece, TechniqueMode mode, TreeYear year, int mostPasses)
    {
        if (piece.IsFinished is { } word)
            return !word && !IsSilent(piece, year, mostPasses);
        return !piece.IsOfPart && piece.Sessions < (mode.Effort.Sessions?.Low ?? 1) && !IsSilent(piece, year, mostPasses);
    }

    private static bool IsSilent(WorkPiece piece, TreeYear year, int mostPasses) =>
        mostPasses > 1 && NodaTime.Period.DaysBetween(piece.Last, year.Today) > VisitDays(year);

    private static int VisitDays(TreeYear year) => (int)year.Thresholds.VisitDays.Value;
}
