using NodaTime;
using Scheduler.Domain.Techniques;

namespace Scheduler.Domain.Planning;

/// <summary>On which days the forecast holds a tree's work.</summary>
public sealed class HoldDays
{
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
        return _rules.LeavesWounds(window.Key) && !_year.IsIndoors && IsWet(date) ? "soaking-rain" : null;
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
