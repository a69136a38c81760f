using CsCheck;
using NodaTime;
using Scheduler.Domain.Planning;

namespace Scheduler.Domain.Tests.Planning;

/// <summary>Daily looks dealt out over made weeks: one free day more or less must leave all others where they are.</summary>
public class VisitDealTests
{
    private static readonly LocalDate Today = new(2026, 4, 13);
    private const int Days = 40;

    private sealed record Window(string Id, LocalDate Opens, LocalDate Closes, int Visits, int Minutes);

    [Fact]
    public void Shares_CoverTheWindowInOrderAndHoldAUsualDayEach() => Gen.Select(Gen.Int[1, 60], Gen.Int[1, 6], Gen.Int[1, 127]).Sample((length, visits, week) =>
    {
        var closes = Today.PlusDays(length - 1);
        var deal = new VisitDeal(Today, closes, visits, date => IsOf(week, date));
        var usual = Enumerable.Range(0, length).Select(Today.PlusDays).Count(date => IsOf(week, date));
        Assert.Equal(Today, deal.Share(1).From);
        if (length >= visits)
            Assert.Equal(closes, deal.Share(visits).To);
        for (var visit = 1; visit <= visits && usual >= visits; visit++)
        {
            var (from, to) = deal.Share(visit);
            Assert.Contains(Enumerable.Range(0, Period.DaysBetween(from, to) + 1).Select(from.PlusDays), date => IsOf(week, date));
            if (visit > 1)
                Assert.Equal(deal.Share(visit - 1).To.PlusDays(1), from);
        }
    }, iter: 500);

    [Fact]
    public void OneFreeDayLess_MovesOnlyTheVisitsThatStoodOnIt() => Gen.Select(Gen.Int[1, 10_000], Gen.Int[0, Days - 1]).Sample((seed, day) =>
    {
        var (windows, free, week) = Made(seed);
        var before = Plan(windows, week, free, []);
        var less = (int[])free.Clone();
        less[day] = 0;
        var after = Plan(windows, week, less, before);
        Assert.All(before.Where(place => place.Value != day), place => Assert.Equal(place.Value, after.GetValueOrDefault(place.Key, -1)));
        Valid(windows, less, after);
    }, iter: 300);

    [Fact]
    public void OneFreeDayMore_MovesNothingThatHasItsDay() => Gen.Select(Gen.Int[1, 10_000], Gen.Int[0, Days - 1]).Sample((seed, day) =>
    {
        var (windows, free, week) = Made(seed);
        var without = (int[])free.Clone();
        without[day] = 0;
        var before = Plan(windows, week, without, []);
        var after = Plan(windows, week, [.. without.Select((minutes, place) => place == day ? 600 : minutes)], before);
        Assert.All(before, place => Assert.Equal(place.Value, after.GetValueOrDefault(place.Key, -1)));
        Assert.True(after.Count >= before.Count);
    }, iter: 300);

    [Fact]
    public void VisitThatLostItsOnlyDay_GoesBetweenItsNeighbors()
    {
        // Saturdays of three weeks, one visit each; the second is taken away and a Wednesday after it comes in its stead.
        var deal = new VisitDeal(new(2026, 4, 13), new(2026, 5, 3), 3, date => date.DayOfWeek == IsoDayOfWeek.Saturday);
        LocalDate first = new(2026, 4, 18), last = new(2026, 5, 2), wednesday = new(2026, 4, 22);
        var standing = new Dictionary<int, LocalDate> { [1] = first, [2] = new(2026, 4, 25), [3] = last };
        Assert.Equal([wednesday], deal.Days(2, [first, wednesday, last], standing));
        // A visit that stands keeps its day among those of its share.
        Assert.Equal([first, wednesday], deal.Days(1, [first, wednesday, last], standing));
    }

    // Time enough on every day, so that nothing has to give way to anything.
    private static (List<Window> Windows, int[] Free, int Week) Made(int seed)
    {
        var random = new Random(seed);
        var week = random.Next(1, 128);
        var free = Enumerable.Range(0, Days).Select(day => IsOf(week, Today.PlusDays(day)) || random.Next(12) == 0 ? 600 : 0).ToArray();
        var windows = Enumerable.Range(0, 12).Select(number =>
        {
            var from = random.Next(-6, Days - 4);
            return new Window($"window-{number}", Today.PlusDays(from), Today.PlusDays(from + random.Next(2, 24)), random.Next(1, 6), random.Next(5, 45));
        }).ToList();
        return (windows, free, week);
    }

    private static Dictionary<string, int> Plan(List<Window> windows, int week, int[] free, Dictionary<string, int> before)
    {
        var jobs = new List<PlanJob>();
        foreach (var window in windows)
        {
            var deal = new VisitDeal(window.Opens, window.Closes, window.Visits, date => IsOf(week, date));
            List<LocalDate> open = [.. Enumerable.Range(0, Days).Where(day => free[day] > 0).Select(Today.PlusDays).Where(date => date >= window.Opens && date <= window.Closes)];
            var standing = before.Where(place => place.Key.StartsWith(window.Id + "/", StringComparison.Ordinal))
                .ToDictionary(place => int.Parse(place.Key.Split('/')[1], System.Globalization.CultureInfo.InvariantCulture), place => Today.PlusDays(place.Value));
            for (var visit = 1; visit <= window.Visits; visit++)
            {
                jobs.Add(new PlanJob($"{window.Id}/{visit}", window.Id, window.Minutes, Math.Pow(0.7, visit),
                    [.. deal.Days(visit, open, standing).Select(date => Period.DaysBetween(Today, date))])
                { WindowId = window.Id });
            }
        }
        return DayPlanner.Plan(jobs, free, before).DayOf.ToDictionary();
    }

    private static void Valid(List<Window> windows, int[] free, Dictionary<string, int> places)
    {
        foreach (var window in windows)
        {
            var days = places.Where(place => place.Key.StartsWith(window.Id + "/", StringComparison.Ordinal)).Select(place => place.Value).ToList();
            Assert.Equal(days.Count, days.Distinct().Count());
            Assert.All(days, day => Assert.True(free[day] > 0 && Today.PlusDays(day) >= window.Opens && Today.PlusDays(day) <= window.Closes));
        }
    }

    private static bool IsOf(int week, LocalDate date) => (week >> ((int)date.DayOfWeek - 1) & 1) != 0;
}
