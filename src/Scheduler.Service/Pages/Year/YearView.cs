using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Service.Pages.Charts;
using Scheduler.Service.Plans;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Pages.Year;

/// <summary>All windows of a calendar year.</summary>
/// <param name="Years">Those that hold windows.</param>
/// <param name="Rows">After filter and order.</param>
/// <param name="Count">Before the filter.</param>
public sealed record YearView(
    Guid GardenId, IReadOnlyList<(Guid Id, string Name)> Gardens, LocalDate Today, DateTimeZone Zone, YearQuery Query, IReadOnlyList<int> Years, DayAxis Axis,
    IReadOnlyList<YearRow> Rows, int Count, IReadOnlyList<(string Id, string Name)> Trees, IReadOnlyList<(string Id, string Name)> Techniques, WeatherStatus Weather);

/// <summary>One window on the year's axis. Where no close is in sight, it lasts to the end of the year.</summary>
public sealed record YearRow(StoredWindow Stored, LocalDate Early, LocalDate Opens, LocalDate? Closes, LocalDate? Late)
{
    public WorkWindow Window => Stored.Body.Window;
    public string TreeName => Stored.Body.TreeName;
    public Guid TreeId => Stored.Key.TreeId;

    /// <summary>Null: it has no date.</summary>
    public static YearRow? Of(StoredWindow stored)
    {
        ArgumentNullException.ThrowIfNull(stored);
        var window = stored.Body.Window;
        return window.Opens.Likely is { } opens
            ? new YearRow(stored, window.Opens.Early ?? opens, opens, window.Closes.Likely, window.Closes.Likely is null ? null : window.Closes.Late ?? window.Closes.Likely)
            : null;
    }
}

/// <param name="State">Null: all that is open or to come or done.</param>
/// <param name="Sort"><c>tree</c>, <c>opens</c> or <c>closes</c>.</param>
/// <param name="As"><c>chart</c> or <c>table</c>.</param>
public sealed record YearQuery(int Year, string? Tree, string? Technique, string? State, string Sort, string As)
{
    public bool IsFiltered => Tree is not null || Technique is not null || State is not null || Sort != "tree";

    public string With(string shownAs, Guid garden) =>
        $"/year?garden={garden}&year={Year}&tree={Tree}&technique={Uri.EscapeDataString(Technique ?? "")}&state={State}&sort={Sort}&as={shownAs}";
}
