using Scheduler.Domain.Planning;

namespace Scheduler.Domain.Tests.Planning;

/// <summary>Invented planning problems from a seed: 300 visits to 60 trees in 40 days, about half of them free.</summary>
internal static class MadePlan
{
    public const int Days = 40;
    public const int Visits = 300;

    /// <param name="load">Minutes wanted for each free minute.</param>
    public static (List<PlanJob> Jobs, int[] MinutesFree) Of(int seed, double load, int count = Visits)
    {
        var random = new Random(seed);
        int[] lengths = [3, 5, 10, 15, 20, 25, 30, 40, 50, 60, 75, 90];
        var days = Enumerable.Range(0, Days).Select(day => random.NextDouble() < 0.35 ? 0 : random.Next(2, 9)).ToArray();
        var sizes = Enumerable.Range(0, count).Select(_ => lengths[random.Next(lengths.Length)]).ToArray();
        var unit = sizes.Sum() / load / days.Sum();
        var free = days.Select(weight => (int)Math.Round(weight * unit)).ToArray();
        var jobs = new List<PlanJob>();
        for (var job = 0; job < count; job++)
        {
            var from = random.Next(0, Days - 2);
            var to = Math.Min(Days - 1, from + random.Next(2, 25));
            var allowed = Enumerable.Range(from, to - from + 1).Where(day => free[day] > 0 && random.NextDouble() > 0.1).ToList();
            jobs.Add(new PlanJob($"job-{job:000}", $"tree-{random.Next(60)}", sizes[job], Math.Round(1 + 9 * random.NextDouble(), 2), allowed)
            {
                Kind = (WorkKind)random.Next(3),
                IsHeavy = sizes[job] >= 50 && random.NextDouble() < 0.3
            });
        }
        return (jobs, free);
    }

    public static double Worth(IEnumerable<PlanJob> jobs, PlanOutcome plan) => jobs.Where(job => plan.DayOf.ContainsKey(job.Id)).Sum(job => job.Worth);
}
