using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <content>Wood, wire and the seasons of rest: what structure work asks for.</content>
public sealed partial class TreeYear
{
    /// <summary>Event that intervals of wire checks count from: the last look, or the last cut that made the wood swell.</summary>
    public const string WireLook = "wire-look";

    private WireState? _wire;

    /// <summary>Wire on the tree as the log and the owner's looks tell it.</summary>
    public WireState Wire => _wire ??= WireState.Of(this);

    /// <summary>The place has a winter to rest in: frost comes, or enough chill for buds to swell after it.</summary>
    public bool HasDormancy => !Group.GrowsWheneverWarm && (FrostDay is not null || !Outlook.Season.HasWeather || Band(1).IsExpected);

    /// <summary>Dormant: leaf fall is over, or no bud swells yet. Groups that grow whenever it is warm never are.</summary>
    public Truth Dormant()
    {
        if (!HasDormancy)
            return Truth.No;
        if (Reached(97) == Truth.Yes)
            return Truth.Yes;
        return Reached(1) switch { Truth.Yes => Truth.No, Truth.No => Truth.Yes, _ => Truth.Unknown };
    }

    /// <summary>From the first day of autumn on (1 September or 1 March by the weather services' seasons), until the year turns.</summary>
    public bool IsAutumn => IsCurrent && Today >= Year.Next.ChillStart;

    /// <summary>Logged moves since the last midsummer: the first goes into the winter place, the second out of it.</summary>
    public int WinterMoves
    {
        get
        {
            var midsummer = Year.DateOf(Year.MidsummerDay);
            var from = Today >= midsummer ? midsummer : midsummer.PlusYears(-1);
            return Log.Days("winter-storage").Where(day => day >= from).Distinct().Count();
        }
    }

    /// <summary>It was in its winter place and has left it.</summary>
    public bool IsOutAgain => WinterMoves > 0 && WinterMoves % 2 == 0;

    /// <summary>Days have shortened too far to force growth: late summer has begun.</summary>
    public bool IsLateSeason => IsCurrent && (IsAutumn || TodayDay >= BackstopDay);

    /// <summary>Halfway from the turn of the year to the first swelling of buds.</summary>
    public double MidDormancyDay(int draw) => (Year.DayOf(Year.Turn) + PhaseDay(draw, 1)) / 2;

    /// <summary>Big cuts and root work may share a spring: vigorous deciduous trees in the building stages, unless the owner says never.</summary>
    public bool MayCutAndRepot => Group is { DormancyCut: true, Conifer: false } && Tree.Stage <= TreeStage.BranchBuilding
        && Health == Health.Vigorous && Setting("15") != "no";

    /// <summary>The owner asks for root work because roots rot: the one emergency that lets a failing tree be repotted.</summary>
    public bool HasRottingRoots => IsRequested("repotting", "rot");

    /// <summary>Weak or failing, or in a season of root work beyond the light kind.</summary>
    public bool NeedsRelief => IsRecovering || RootWork is Extent.Normal or Extent.Hard;

    /// <summary>Whole days since an event that the log or the owner's looks date; null: not known, or not yet.</summary>
    public int? DaysSince(string from)
    {
        if (from is "today" or "this-work")
            return 0;
        // Wire that nobody is known to have looked at is due.
        if (from == WireLook && Wire is { IsOn: true, LastLook: null })
            return Year.Days;
        var date = from == WireLook ? Wire.LastLook
            : from.StartsWith("work:", StringComparison.Ordinal) ? Log.Last(from["work:".Length..])?.Date
            : null;
        return date is { } day ? TodayDay - Year.DayOf(day) : null;
    }

    /// <summary>Days of rest left after work that is so old; null: rested.</summary>
    public int? RestLeft(LocalDate? since, Figure rest) =>
        since is { } day && (int)rest.Value - Period.DaysBetween(day, Today) is > 0 and var left ? left : null;

    /// <summary>Mean axis day of work in the growth years before this one, first day of each year; null: it was never logged.</summary>
    public double? UsualDay(string key)
    {
        var days = Log.Days(key).Where(day => day < Year.Turn).GroupBy(day => GrowthYear.Of(day, Year.Hemisphere))
            .Select(year => (double)year.Key.DayOf(year.Min())).ToList();
        return days.Count == 0 ? null : Math.Round(days.Average());
    }

    // Work that comes in modes is planned mode by mode.
    private double[]? PlanOfAMode(string technique) =>
        _planned.Keys.FirstOrDefault(key => key.StartsWith(technique + "/", StringComparison.Ordinal)) is { } mode ? PlanOf(mode) : null;
}
