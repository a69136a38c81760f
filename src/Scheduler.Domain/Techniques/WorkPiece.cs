using NodaTime;

namespace Scheduler.Domain.Techniques;

/// <summary>Sessions of one technique that belong together: one visit of the growth year, done in one go or bit by bit.</summary>
/// <param name="Sessions">Days on which something of it was done.</param>
/// <param name="IsOfPart">Some of it was done to one zone or branch and named so.</param>
/// <param name="IsFinished">What the owner said last; null: nothing.</param>
public sealed record WorkPiece(LocalDate First, LocalDate Last, int Sessions, bool IsOfPart, bool? IsFinished)
{
    /// <summary>With one more record, of the same day or a later one.</summary>
    public WorkPiece And(LocalDate date, bool isOfPart, bool? isFinished) => new(
        First, date, Sessions + (date > Last ? 1 : 0), IsOfPart || isOfPart, isFinished ?? IsFinished);

    /// <summary>All pieces of a growth year as one.</summary>
    public static WorkPiece Together(IReadOnlyList<WorkPiece> pieces)
    {
        ArgumentNullException.ThrowIfNull(pieces);
        return new(
            pieces[0].First, pieces[^1].Last, pieces.Sum(piece => piece.Sessions), pieces.Any(piece => piece.IsOfPart),
            pieces.LastOrDefault(piece => piece.IsFinished is not null)?.IsFinished);
    }
}
