using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Care;

namespace Scheduler.Domain.Planning;

/// <summary>On which days the forecast holds a tree's work.</summary>
public sealed class HoldDays
{
    private const string FrostAfter = "frost-after-heavy-work";
    private const string HeatAfter = "heat-after-heavy-work";
    private const int Heavy = 3;
    private readonly TreeYear _year;
    private readonly WeatherHolds _holds;
    private readonly PlanningRules _rules;

    public HoldDays(Craft craft, TreeFacts tree, GardenFacts garden)
    {
        ArgumentNullException.ThrowIfNull(craft);
        ArgumentNullException.ThrowIfNull(tree);
        _year = new TreeYear(craft, tree, garden, new BenchNights(garden, craft.Thresholds), tree.Current);
        _holds = new WeatherHolds(_year);
        _rules = craft.Planning;
    }

    /// <summary>Holds that only the plan knows; techniques cannot name them.</summary>
    public static IReadOnlyCollection<string> OfThePlan { get; } = [FrostAfter, HeatAfter];

    /// <summary>Id of the hold that bars the day; null when none does. Days beyond the forecast are free.</summary>
    public string? On(WorkWindow window, LocalDate date)
    {
        ArgumentNullException.ThrowIfNull(window);
        if (window.State == WindowState.Held && date < window.HeldUntil)
            return window.Hold;
        var technique = _year.Craft.Find(window.Key.Technique);
        var mode = technique?.Modes.FirstOrDefault(mode => mode.Id == window.Key.Mode);
        if (technique is not null && mode is not null && _holds.On(technique, mode.Holds, date) is { } hold)
            return hold;
        if (technique is not null && mode is not null && (LoadBudget.LoadOf(technique, mode).Whole >= Heavy || _rules.IsRootWork(window.Key)) && AfterHeavy(window, date) is { } hard)
            return hard;
        return _rules.LeavesWounds(window.Key) && !_year.IsIndoors && IsWet(date) ? "rain-on-cuts" : null;
    }

    // Heavy work is not set on the eve of heat or of frost. At rest only fresh roots mind the frost; wood has its own hold.
    private string? AfterHeavy(WorkWindow window, LocalDate date)
    {
        if (_year.IsIndoors)
            return null;
        var days = (int)_rules.HeavyLookDays.Value;
        var isTender = _rules.IsRootWork(window.Key) || !CareClock.IsAtRest(_year);
        if (isTender && _year.Nights.LowestC(Period.DaysBetween(_year.Garden.Today, date), days) < _rules.HeavyFrostC.Value)
            return FrostAfter;
        return _year.Garden.Days.Any(day => day.Date >= date && day.Date < date.PlusDays(days) && day.MaxC >= _rules.HeavyHeatC.Value)
            ? HeatAfter : null;
    }

    private bool IsWet(LocalDate date)
    {
        foreach (var day in _year.Garden.Days)
        {
            if (day.Date == date)
                return day.PrecipMm >= _rules.WetDayMm.Value;
        }
        return false;
    }
}
