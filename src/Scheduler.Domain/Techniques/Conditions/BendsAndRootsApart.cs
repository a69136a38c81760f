using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>No heavy bend for weeks after root work; a vigorous tree needs fewer.</summary>
public sealed class BendsAndRootsApart : Condition
{
    public override string Id => "bends-and-roots-apart";

    public override Outcome Test(TreeYear year)
    {
        var rest = year.Health == Health.Vigorous ? year.Thresholds.BendRestVigorousDays : year.Thresholds.BendRestDays;
        var since = year.RootWork is null or Extent.None ? (NodaTime.LocalDate?)null : year.Log.Last("repotting")?.Date ?? year.Today;
        return year.RestLeft(since, rest) is { } left
            ? Outcome.Bar("fresh-roots", $"No heavy bend for {(int)rest.Value / 7} weeks after root work.", new DaysTrigger(left, left))
            : Outcome.Pass;
    }
}
