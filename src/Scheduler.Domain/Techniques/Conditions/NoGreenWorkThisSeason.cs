using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>No root work beyond the light kind in a season of pinching, cutting back or leaf work.</summary>
public sealed class NoGreenWorkThisSeason : Condition
{
    public override string Id => "no-green-work-this-season";

    private static readonly string[] Green =
    [
        "tip-pinch", "cut-back", "early-clip", "outer-leaf-removal", "leaf-thinning", "partial-defoliation", "full-defoliation",
        "candle-pinch", "decandling", "conifer-tips"
    ];

    public override Outcome Test(TreeYear year) => Green.Any(technique => year.Log.Last(technique) is not null)
        ? Outcome.Bar("too-soon-since-heavy-work", "Tips or leaves were worked this season; root work waits for next spring.", new SeasonTrigger("next-spring"))
        : Outcome.Pass;
}
