using System.Diagnostics.CodeAnalysis;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Trees;

/// <summary>A work record with what comes of it.</summary>
public sealed record LoggedWork : WorkRecord
{
    [SetsRequiredMembers]
    public LoggedWork(WorkRecord work) : base(work)
    {
    }

    public IReadOnlyList<PromiseAnswer> FollowUps { get; init; } = [];
}
