using System.Diagnostics.CodeAnalysis;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Trees;

/// <summary>An observation as it was taken down, with a question where its date can hardly be; it is kept either way.</summary>
public sealed record ObservationAnswer : Observation
{
    [SetsRequiredMembers]
    public ObservationAnswer(Observation seen, string? question)
        : base(seen)
    {
        Question = question;
    }

    /// <summary>What to look at again; null when nothing speaks against the date.</summary>
    public string? Question { get; init; }
}
