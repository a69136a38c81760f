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
    public void OneMoreFreeDay_MovesOnlyWhatLetsAnotherIn() => Gen.Select(Gen.Int[1, 1000], Gen.Int[0, MadePlan.Days - 1]).Sample((seed, added) =>
    {
        var (jobs, free) = MadePlan.Of(seed, 1.2, 80);
        var without = (int[])free.Clone();
        without[added] = 0;
        var before = DayPlanner.Plan(jobs, without);
        var after = DayPlanner.Plan(jobs, free, before.DayOf);
        Assert.True(MadePlan.Worth(jobs, after) >= MadePlan.Worth(jobs, before) - 1e-9);
        OldPlacesAreTaken(jobs, free, before, after);
        if (!after.DayOf.Keys.Except(before.DayOf.Keys).Any())
            Assert.Equal(before.DayOf, after.DayOf);
    }, iter: 200);

    [Fact]
    public void OneFreeDayLess_MovesOnlyWhatStoodThereOrLetsThatIn() => Gen.Select(Gen.Int[1, 1000], Gen.Int[0, MadePlan.Days - 1]).Sample((seed, taken) =>
    {
        var (jobs, free) = MadePlan.Of(seed, 0.8, 80);
        var before = DayPlanner.Plan(jobs, free);
        var without = (int[])free.Clone();
        without[taken] = 0;
        var after = DayPlanner.Plan(jobs, without, before.DayOf);
        OldPlacesAreTaken(jobs, without, before, after);
        if (before.DayOf.Values.All(day => day != taken))
            Assert.Equal(before.DayOf, after.DayOf);
    }, iter: 200);

    [Fact]
    public void FreeDaysElsewhere_MoveNothingOfThisMonth()
    {
        // Two sets of jobs that share no day: what happens to the days of one is nothing to the other.
        var early = Enumerable.Range(0, 30).Select(number => Job($"early-{number}", 20 + number % 5 * 10, [.. Enumerable.Range(0, 10)]));
        var late = Enumerable.Range(0, 30).Select(number => Job($"late-{number}", 20 + number % 7 * 10, [.. Enumerable.Range(10, 10)])).ToList();
        var jobs = early.Concat(late).ToList();
        int[] free = [.. Enumerable.Repeat(90, 20)];
        var before = DayPlanner.Plan(jobs, free);
        Assert.NotEmpty(before.Unplaced);
        foreach (var minutes in new[] { 0, 300 })
        {
            var changed = (int[])free.Clone();
            changed[3] = minutes;
            var after = DayPlanner.Plan(jobs, changed, before.DayOf);
            Assert.NotEqual(before.DayOf.Count, after.DayOf.Count);
            Assert.All(late, job => Assert.Equal(before.DayOf.GetValueOrDefault(job.Id, -1), after.DayOf.GetValueOrDefault(job.Id, -1)));
        }
    }

    // Whatever moved could not have stayed: its old day has no place for it any more.
    private static void OldPlacesAreTaken(List<PlanJob> jobs, int[] free, PlanOutcome before, PlanOutcome after)
    {
        foreach (var job in jobs.Where(job => before.DayOf.ContainsKey(job.Id)))
        {
            var day = before.DayOf[job.Id];
            if (after.DayOf.GetValueOrDefault(job.Id, -1) == day)
                continue;
            var there = jobs.Where(other => after.DayOf.GetValueOrDefault(other.Id, -1) == day).ToList();
            Assert.True(
                there.Sum(other => other.Minutes) + job.Minutes > free[day]
                || job.IsHeavy && there.Exists(other => other.IsHeavy)
                || there.Exists(other => other.TreeId == job.TreeId && other.Kind != job.Kind && other.Kind != WorkKind.Other && job.Kind != WorkKind.Other),
                $"{job.Id} left day {day} without need");
        }
    }

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
