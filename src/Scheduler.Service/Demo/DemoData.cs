using Scheduler.Domain.Trees;
using Scheduler.Service.Feeds;
using Scheduler.Service.Gardens;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Demo;

/// <summary>The invented demonstration as its file describes it (<c>demo-data/gardens.json</c>).</summary>
internal sealed record DemoData(string About, string Account, DemoFeed Feed, IReadOnlyList<DemoGarden> Gardens, IReadOnlyList<DemoTree> Trees)
{
    public static DemoData Read() => Json.Read<DemoData>(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "demo-data", "gardens.json")));
}

internal sealed record DemoFeed(string Name, FeedContent Content, IReadOnlyList<string> Reminders);

internal sealed record DemoGarden(
    string Name, double Latitude, double Longitude, double ElevationM, string TimeZone, IReadOnlyList<WorkDay> WorkDays, bool WaterAssured, bool FrostFreeShelter);

internal sealed record DemoTree(
    string Name, string Species, string? Cultivar, TreeStage Stage, IReadOnlyList<Goal> Goals, TreeSize Size, Health Health, Placement? Placement,
    string? Notes, IReadOnlyList<DemoWork> Work);

/// <param name="SpringsAgo">1: the spring before the one that today's growth year belongs to.</param>
/// <param name="DaysAfterHeatStart">Days after 1 January (1 July in the south); 75 when left out, about bud swell.</param>
internal sealed record DemoWork(string Technique, int SpringsAgo, int? DaysAfterHeatStart, Extent? Extent, string? Result);
