using NodaTime;
using Scheduler.Domain.Trees;
using Scheduler.Service.Feeds;

namespace Scheduler.Service.Tests.Feeds;

/// <summary>Feeds of every content, gathering, span and timing.</summary>
internal static class FeedVariants
{
    public const string Usual = "windows each window days";

    private static readonly string[] Farthest = [Usual, "both technique opening 07:30"];

    /// <summary>The usual feed and the one that differs from it in everything, for tests that cannot afford all of them.</summary>
    public static IEnumerable<FeedSettings> Ends(params string[] reminders) => Farthest.Select(name => All(reminders).Single(variant => variant.Name == name));

    /// <summary>Named by what sets them apart.</summary>
    public static IEnumerable<FeedSettings> All(params string[] reminders) =>
        from content in Enum.GetValues<FeedContent>()
        from gathered in Enum.GetValues<FeedGathering>()
        from span in Enum.GetValues<FeedSpan>()
        from at in new LocalTime?[] { null, new LocalTime(7, 30) }
        select FeedBench.Settings(reminders) with
        {
            Name = $"{Ids.Of(content)} {Ids.Of(gathered)} {Ids.Of(span)} {(at is null ? "days" : "07:30")}",
            Content = content,
            Gathered = gathered,
            Span = span,
            At = at
        };
}
