using System.Globalization;
using System.Text;
using NodaTime;
using NodaTime.Text;
using Scheduler.Benchmarks.Replay;
using Scheduler.Domain.Tests.Phenology.Support;
using Scheduler.Service.Tests.Catalog;
using Scheduler.Service.Tests.Feeds;
using Xunit.Abstractions;

namespace Scheduler.Service.Tests.MainJob;

/// <summary>
/// A spring and summer of Harvard Forest lived through again, a planning and a feed each day: the dates keep calm, and calendars that
/// poll once a day are never led astray. The bars are those of the project's own aims; the contributor guide has whole seasons.
/// </summary>
public class SeasonReplayTests(ITestOutputHelper output)
{
    private const int Year = 2000;
    private const int ForecastDays = 10;
    private const int KeptDays = 30;
    private const double MostMovesPerWindow = 3.5;

    [ReferenceFact]
    public async Task Season_KeepsCalmAndItsFeedNeverBreaks()
    {
        await using var replay = new SeasonReplay(ReferencePhenology.Weather("harvard_forest", "harvard_forest"), Year, ForecastDays, ShippedCatalog.Content);
        var book = new ReplayBook();
        var settings = FeedVariants.Ends("PT15H").ToDictionary(variant => variant.Name);
        var courses = settings.Keys.ToDictionary(name => name, _ => new FeedCourse());
        await foreach (var day in replay.LiveAsync(new LocalDate(Year, 2, 15), new LocalDate(Year, 7, 15), settings))
        {
            book.Add(day);
            foreach (var (name, course) in courses)
                course.Add(day.Date, day.Feeds[name]);
        }
        var figures = book.Figures(Year);
        var checks = courses[FeedVariants.Usual];
        foreach (var (name, course) in courses)
        {
            output.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{name}: {course.Events} events on {course.Days} days, {course.Changes} changes, {course.SameDays} days without any, {course.Cancelled} called off, {course.Faults.Count} faults"));
        }
        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{figures.Windows} windows, {figures.MovesPerWindow:f2} date changes each ({figures.FoundMovesPerWindow:f2} without the rule), {figures.Inside:f2} of {figures.Judged} inside, {figures.Short.Count()} with short notice; {checks.Events} events on {checks.Days} days, {checks.Changes} changes, {checks.SameDays} days without any"));
        Assert.InRange(figures.Judged, 60, int.MaxValue);
        Assert.InRange(figures.Inside, 0.8, 1);
        Assert.InRange(figures.MovesPerWindow, 0.1, MostMovesPerWindow);
        Assert.True(figures.MovesPerWindow < figures.FoundMovesPerWindow / 3);
        Assert.Equal(0, figures.ShortThoughCalm);
        var faults = courses.SelectMany(course => course.Value.Faults.Select(fault => $"{course.Key}: {fault}")).ToList();
        Assert.True(faults.Count == 0, string.Join('\n', faults.Take(20)));
        Assert.All(courses, course => Assert.True(course.Value.Changes > 20 && course.Value.SameDays > 0, $"{course.Key}: nothing moved"));
        Assert.True(checks.Changes > 100 && checks.Events > 100, "nothing moved");
    }

    /// <summary>Follows one feed from day to day and takes down what a calendar could not bear.</summary>
    private sealed class FeedCourse
    {
        private readonly Dictionary<string, Shown> _seen = [];
        private Dictionary<string, Shown> _last = [];
        private byte[] _bytes = [];

        public List<string> Faults { get; } = [];
        public int Days { get; private set; }
        public int Changes { get; private set; }
        public int SameDays { get; private set; }
        public int Cancelled { get; private set; }
        public int Events => _seen.Count;

        private sealed record Shown(string Text, string Content, int Sequence, string Status, string Stamp, string Modified, LocalDate LastDay, LocalDate? CancelledOn);

        public void Add(LocalDate today, byte[] bytes)
        {
            var now = FeedSamples.Events(Encoding.UTF8.GetString(bytes)).ToDictionary(one => one.Key, one => Read(one.Value));
            if (Days++ > 0)
            {
                if (bytes.AsSpan().SequenceEqual(_bytes))
                    SameDays++;
                else if (now.Count == _last.Count && now.All(one => _last.TryGetValue(one.Key, out var was) && was.Text == one.Value.Text))
                    Faults.Add($"{today}: other bytes for the same events");
                foreach (var (uid, was) in _last.Where(one => !now.ContainsKey(one.Key)))
                    Left(today, uid, was);
            }
            foreach (var (uid, shown) in now.ToList())
            {
                var cancelled = shown.Status == "CANCELLED" ? _last.GetValueOrDefault(uid)?.CancelledOn ?? today : (LocalDate?)null;
                now[uid] = shown with { CancelledOn = cancelled };
                if (_seen.TryGetValue(uid, out var was))
                    Compare(today, uid, was, shown);
                _seen[uid] = now[uid];
            }
            (_last, _bytes) = (now, bytes);
        }

        private void Compare(LocalDate today, string uid, Shown was, Shown now)
        {
            if (was.Text == now.Text)
                return;
            Changes++;
            if (now.Status == "CANCELLED" && was.Status != now.Status)
                Cancelled++;
            if (was.Content == now.Content)
                Faults.Add($"{today} {uid}: new stamps for the same content");
            if (now.Sequence <= was.Sequence)
                Faults.Add($"{today} {uid}: changed, and the sequence went from {was.Sequence} to {now.Sequence}");
            if (string.CompareOrdinal(now.Modified, was.Modified) <= 0 || string.CompareOrdinal(now.Stamp, was.Stamp) <= 0)
                Faults.Add($"{today} {uid}: changed with the old stamps");
        }

        // An event may leave a month after it was over or called off, never before.
        private void Left(LocalDate today, string uid, Shown was)
        {
            var isOld = was.LastDay < today.PlusDays(-KeptDays);
            if (!isOld && !(was.CancelledOn <= today.PlusDays(-KeptDays + 1)))
                Faults.Add($"{today} {uid}: left the feed as {was.Status}, over on {was.LastDay}");
        }

        private static Shown Read(string text)
        {
            var lines = text.Split("\r\n").TakeWhile(line => line != "BEGIN:VALARM").Concat(text.Split("\r\n")).ToList();
            string Value(string name) => lines.First(line => line.StartsWith(name, StringComparison.Ordinal)).Split(':', 2)[1];
            var end = Value("DTEND");
            var day = LocalDatePattern.CreateWithInvariantCulture("uuuuMMdd").Parse(end[..8]).Value;
            // A day is an end that no longer belongs to the event.
            var lastDay = end.Length == 8 ? day.PlusDays(-1) : day;
            var content = string.Join('\n', text.Split("\r\n").Where(line => !Stamps.Any(name => line.StartsWith(name, StringComparison.Ordinal))));
            return new Shown(text, content, int.Parse(Value("SEQUENCE"), CultureInfo.InvariantCulture), Value("STATUS"), Value("DTSTAMP"), Value("LAST-MODIFIED"), lastDay, null);
        }

        private static readonly string[] Stamps = ["SEQUENCE:", "DTSTAMP:", "LAST-MODIFIED:"];
    }
}
