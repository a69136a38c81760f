using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Techniques.Care;

/// <summary>A row of the feeding rules with its axis days, likely and by draw. It is on from the one and no longer on the other.</summary>
internal sealed class FeedSpan
{
    public FeedSpan(FeedRow row, TreeYear year)
    {
        Row = row;
        FromDays = CareClock.Days(row.From, year, Side.Opening);
        UntilDays = row.Until is null
            ? year.InEveryDraw(double.PositiveInfinity)
            : CareClock.Days(row.Until, year, row.Feed is null ? Side.Opening : Side.Closing);
        (From, Until) = (Percentiles.Likely(FromDays), Percentiles.Likely(UntilDays));
    }

    public FeedRow Row { get; }
    public double[] FromDays { get; }
    public double[] UntilDays { get; }
    public double From { get; }
    public double Until { get; }

    public bool IsOn(double day) => From <= day && day < Until;
}
