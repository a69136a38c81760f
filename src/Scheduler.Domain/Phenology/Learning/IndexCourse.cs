using System.Collections.Concurrent;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Phenology.Learning;

/// <summary>One course of a growth year, ready for any shape of the development index. Shapes are worked out when first asked for.</summary>
public sealed class IndexCourse
{
    private readonly SeasonMember _member;
    private readonly SeasonLight _light;
    private readonly ConcurrentDictionary<int, double[]> _warmth = new();
    private readonly ConcurrentDictionary<IndexShape, ShapeCourse> _shapes = new();

    internal IndexCourse(SeasonMember member, SeasonLight light) => (_member, _light) = (member, light);

    /// <summary>The course of a shape; its start does not matter here.</summary>
    public ShapeCourse Of(IndexShape shape)
    {
        ArgumentNullException.ThrowIfNull(shape);
        return _shapes.GetOrAdd(shape with { DaysBeforeUsual = null }, Course);
    }

    private ShapeCourse Course(IndexShape shape)
    {
        var warmth = _warmth.GetOrAdd(shape.BaseC, Warmth);
        if (shape.DayLengthPower == 0)
            return new ShapeCourse(warmth, _member.ChillPortions, shape.ChillRate);
        var weight = _light.Weight(shape.DayLengthPower);
        var growth = new double[Math.Min(warmth.Length, weight.Length)];
        for (var day = 0; day < growth.Length; day++)
            growth[day] = warmth[day] * weight[day];
        return new ShapeCourse(growth, _member.ChillPortions, shape.ChillRate);
    }

    // Mean over the hours of what they exceed the base; days wholly above it need no hours, as the sine's mean is that of the extremes.
    private double[] Warmth(int baseC)
    {
        double[] minC = _member.MinC, maxC = _member.MaxC, warmth = new double[minC.Length];
        Span<double> hours = stackalloc double[HourlyCurve.HoursADay];
        for (var day = 0; day < warmth.Length; day++)
        {
            if (!(maxC[day] > baseC))
                continue;
            if (minC[day] >= baseC)
            {
                warmth[day] = (minC[day] + maxC[day]) / 2 - baseC;
                continue;
            }
            HourlyCurve.DaySine(minC[day], maxC[day], hours);
            var sum = 0d;
            foreach (var hourC in hours)
                sum += Math.Max(hourC - baseC, 0);
            warmth[day] = sum / HourlyCurve.HoursADay;
        }
        return warmth;
    }
}
