using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Trees;
using Scheduler.Service.Gardens;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Today;
using Scheduler.Service.Plans;
using Scheduler.Service.Trees;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Pages.Trees;

/// <summary>The owner's trees, as asked for.</summary>
/// <param name="Count">How many there are before filtering.</param>
public sealed record TreesView(IReadOnlyList<(Guid Id, string Name)> Gardens, IReadOnlyList<TreeRow> Rows, int Count, TreesQuery Query, LocalDate Today);

/// <param name="Sort"><c>name</c>, <c>species</c> or <c>next</c>.</param>
public sealed record TreesQuery(string? Text, Guid? Garden, string? Now, string Sort);

/// <param name="Open">Windows open now.</param>
/// <param name="Next">What comes or closes first; null: nothing is in sight.</param>
public sealed record TreeRow(Tree Tree, Guid GardenId, string GardenName, string Species, int Open, (string Title, LocalDate Date, bool IsOpen)? Next);

/// <param name="IsStart">It is the first tree of a new garden.</param>
public sealed record NewTreeView(GardenAnswer Garden, FormState Form, bool IsStart);

public sealed record EditTreeView(Tree Tree, FormState Form);

/// <summary>Everything about one tree.</summary>
/// <param name="Phases">This season of this tree.</param>
/// <param name="HistoryCount">Entries that fit, of which a long log shows the first ones only.</param>
public sealed record TreeView(
    Storage.StoredTree Stored, Species Species, Garden Garden, HardinessAnswer? Hardiness, LocalDate Today, DateTimeZone Zone, IReadOnlyList<PhaseForecast> Phases, AdviceAnswer Advice,
    IReadOnlyDictionary<string, string> Techniques, IReadOnlyList<PromiseAnswer> Promises, IReadOnlyList<HistoryEntry> History, int HistoryCount, HistoryQuery HistoryQuery,
    IReadOnlyList<(string Value, string Text)> WorkChoices, FormState Work, FormState Seen, WeatherStatus Weather)
{
    public Tree Tree => Stored.Tree;
    public TodayNotice? Notice { get; init; }
}

/// <summary>Which part of the log is shown, and in which order.</summary>
/// <param name="Kind"><c>work</c> or <c>seen</c>; null: both.</param>
public sealed record HistoryQuery(string? Kind, bool IsOldestFirst, bool IsWhole)
{
    public static readonly HistoryQuery Usual = new(null, false, false);

    public static HistoryQuery Of(string? kind, string? order, string? all) => new(kind is "work" or "seen" ? kind : null, order == "oldest", all is not null);

    public IReadOnlyList<HistoryEntry> Of(IEnumerable<HistoryEntry> all)
    {
        var fitting = all.Where(entry => Kind is null || (Kind == "work") == (entry.Work is not null));
        return [.. IsOldestFirst ? fitting.OrderBy(entry => entry.Date) : fitting.OrderByDescending(entry => entry.Date)];
    }
}

/// <summary>One line of a tree's log: work done, or something seen.</summary>
public sealed record HistoryEntry(LocalDate Date, WorkRecord? Work, Observation? Seen)
{
    public Guid Id => Work?.Id ?? Seen!.Id;
}
