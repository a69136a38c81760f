using System.Collections.Concurrent;

namespace Scheduler.Domain.Phenology.Learning;

/// <summary>All courses of an ensemble for any shape, worked out when first asked for. May be used by several threads.</summary>
public sealed class CourseSet
{
    private readonly IReadOnlyList<SeasonMember> _members;
    private readonly SeasonLight _light;
    private readonly ConcurrentDictionary<IndexShape, ShapeCourse[]> _shapes = new();

    internal CourseSet(IReadOnlyList<SeasonMember> members, SeasonLight light) => (_members, _light) = (members, light);

    public int Count => _members.Count;

    /// <summary>The shape's course in each member; the shape's start does not matter here.</summary>
    public ShapeCourse[] Of(IndexShape shape)
    {
        ArgumentNullException.ThrowIfNull(shape);
        if (_shapes.TryGetValue(shape, out var known))
            return known;
        var courses = shape.DaysBeforeUsual is null
            ? [.. _members.Select(member => member.Development(_light).Of(shape))]
            : Of(shape with { DaysBeforeUsual = null });
        return _shapes[shape] = courses;
    }
}
