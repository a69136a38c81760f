using CsCheck;
using Scheduler.Domain.Planning;

namespace Scheduler.Domain.Tests.Planning;

public class DayPlannerTests
{
    private static PlanJob Job(string id, int minutes, params int[] days) => new(id, id, minutes, 1, days);

    [Fact]
    public void Plan_NeverOverfillsADayNorLeavesAJobsDays() => Gen.Select(Gen.Int[1, 1000], Gen.Double[0.5, 2]).Sample((seed, load) =>
    {
        var (jobs, free) = MadePlan.Of(seed, load, 60);
        var plan = DayPlanner.Plan(jobs, free);
        foreach (var day in jobs.Where(job => plan.DayOf.ContainsKey(job.Id)).GroupBy(job => plan.DayOf[job.Id]))
        {
            Assert.True(day.Sum(job => job.Minutes) <= free[day.Key]);
            Assert.True(day.Count(job => job.IsHeavy) <= 1);
            Assert.All(day, job => Assert.Contains(day.Key, job.Days));
            Assert.All(day.GroupBy(job => job.TreeId), tree =>
                Assert.False(tree.Any(job => job.Kind == WorkKind.Roots) && tree.Any(job => job.Kind == WorkKind.Leaves)));
        }
        Assert.Equal(jobs.Count, plan.DayOf.Count + plan.Unplaced.Count);
    }, iter: 200);

    [Fact]
    public void OneMoreFreeDay_MovesNoJobThatHadAPlace() => Gen.Select(Gen.Int[1, 1000], Gen.Int[0, MadePlan.Days - 1]).Sample((seed, added) =>
    {
        var (jobs, free) = MadePlan.Of(seed, 1.2, 80);
        var without = (int[])free.Clone();
        without[added] = 0;
        var before = DayPlanner.Plan(jobs, without);
        var after = DayPlanner.Plan(jobs, free, before.DayOf);
        Assert.True(MadePlan.Worth(jobs, after) >= MadePlan.Worth(jobs, before) - 1e-9);
        // A job moves only to let in one that had no place.
        var moved = before.DayOf.Count(place => after.DayOf.GetValueOrDefault(place.Key, -1) != place.Value);
        var letIn = after.DayOf.Keys.Count(id => !before.DayOf.ContainsKey(id));
        Assert.True(moved <= 3 * letIn, $"{moved} moved for {letIn}");
    }, iter: 100);

    [Fact]
    public void AFreeDayTakenAway_MovesOnlyWhatStoodThere()
    {
        var jobs = Enumerable.Range(0, 20).Select(number => Job($"job-{number}", 30, [.. Enumerable.Range(0, 10)])).ToList();
        int[] free = [.. Enumerable.Repeat(90, 10)];
        var before = DayPlanner.Plan(jobs, free);
        Assert.Empty(before.Unplaced);
        var without = (int[])free.Clone();
        without[4] = 0;
        var after = DayPlanner.Plan(jobs, without, before.DayOf);
        Assert.Empty(after.Unplaced);
        Assert.All(before.DayOf.Where(place => place.Value != 4), place => Assert.Equal(place.Value, after.DayOf[place.Key]));
    }

    [Fact]
    public void SamePlanAgain_IsTheSame()
    {
        var (jobs, free) = MadePlan.Of(7, 1.0);
        var first = DayPlanner.Plan(jobs, free);
        Assert.Equal(first.DayOf, DayPlanner.Plan(jobs, free, first.DayOf).DayOf);
    }

    [Fact]
    public void JobWithoutRoom_SaysWhatIsMissingAndWhere()
    {
        var plan = DayPlanner.Plan([Job("long", 50, 0, 1), Job("never", 5)], [20, 35]);
        Assert.Equal(["long", "never"], plan.Unplaced.Select(one => one.Job.Id));
        Assert.Equal((UnplacedCause.TooLittleTime, 1, 15), (plan.Unplaced[0].Cause, plan.Unplaced[0].Day, plan.Unplaced[0].MissingMinutes));
        Assert.Equal(UnplacedCause.NoFreeDay, plan.Unplaced[1].Cause);
    }

    [Fact]
    public void HeavyJobs_TakeADayEach()
    {
        var plan = DayPlanner.Plan([Job("one", 10, 0) with { IsHeavy = true }, Job("two", 10, 0) with { IsHeavy = true }], [100]);
        Assert.Equal(UnplacedCause.HeavyWorkThatDay, Assert.Single(plan.Unplaced).Cause);
    }
}
