using System.Globalization;
using NodaTime;
using Scheduler.Domain.Trees;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Techniques;

/// <summary>A hold that delays open work, and the first day without any of its holds as far as the forecast reaches.</summary>
internal sealed record Held(string Hold, LocalDate Until);

/// <summary>
/// What the forecast and the bench say against open work. Days beyond the forecast never hold.
/// </summary>
internal sealed class WeatherHolds(TreeYear year)
{
    private const int LongestLookDays = 16;
    private const string CutBack = "cut-back";
    private const string HeatOnLeafWork = "heat-on-leaf-work";
    private readonly Thresholds _limits = year.Thresholds;

    public static IReadOnlyCollection<string> Ids { get; } =
        ["frost-soon", "hard-frost-soon", HeatOnLeafWork, "extreme-heat", "dry-root-ball", "frozen-wood", "wind", "soaking-rain", "rain-on-cuts", "do-not-touch"];

    public Held? Of(Technique technique, IReadOnlyList<HoldRule> rules) => Of(That(technique, rules));

    /// <summary>Sentences on the part of the work that waits while the rest may be done.</summary>
    public IEnumerable<string> Limits(IReadOnlyList<HoldRule> rules)
    {
        foreach (var part in rules)
        {
            if (part.Only is { } only && part.For.Fits(year) && Of([part.Hold]) is { } held)
                yield return $"{only} wait until {held.Until.ToString("d MMMM", CultureInfo.InvariantCulture)}. {year.Craft.Holds.GetValueOrDefault(held.Hold)}";
        }
    }

    private Held? Of(List<string> holds)
    {
        if (FirstOn(holds, 0) is not { } first)
            return null;
        var day = 1;
        while (day < LongestLookDays && FirstOn(holds, day) is not null)
            day++;
        var until = year.Today.PlusDays(day);
        return new Held(first, year.Tree.DoNotTouchUntil > until ? year.Tree.DoNotTouchUntil.Value : until);
    }

    /// <summary>The hold that bars a day to come; null when none does.</summary>
    public string? On(Technique technique, IReadOnlyList<HoldRule> rules, LocalDate date)
    {
        var day = Period.DaysBetween(year.Today, date);
        return year.Tree.DoNotTouchUntil > date ? "do-not-touch" : day < LongestLookDays ? FirstOn(That(technique, rules), day) : null;
    }

    // Cutting back bares the inside only of a dense crown.
    private List<string> That(Technique technique, IReadOnlyList<HoldRule> rules)
    {
        var baresNothing = technique.Id == CutBack && !(year.Seen.LastDensity >= _limits.Dense.Value);
        return [.. rules.Where(rule => rule.Only is null && rule.For.Fits(year) && !(baresNothing && rule.Hold == HeatOnLeafWork)).Select(rule => rule.Hold)];
    }

    private string? FirstOn(List<string> holds, int day)
    {
        if (year.Tree.DoNotTouchUntil > year.Today.PlusDays(day))
            return "do-not-touch";
        foreach (var hold in holds)
        {
            if (IsOn(hold, day))
                return hold;
        }
        return null;
    }

    private bool IsOn(string hold, int day) => hold switch
    {
        "frost-soon" => !year.IsIndoors && year.Nights.LowestC(day, (int)_limits.FrostSoonNights.Value) <= _limits.FrostSoonC.Value,
        "hard-frost-soon" => !year.IsIndoors && !year.Garden.FrostFreeShelter
            && year.Nights.LowestC(day, (int)_limits.HardFrostNights.Value) <= _limits.HardFrostC.Value,
        HeatOnLeafWork => HottestC(day, (int)_limits.HeatOnLeafWorkDays.Value) >= LeafHeatC,
        "extreme-heat" => HottestC(day, (int)_limits.ExtremeHeatDays.Value) >= _limits.ExtremeHeatC.Value,
        // Water can be given today, so dryness holds for today only; missing water holds for the week.
        "dry-root-ball" => day == 0 && (year.Garden.SoilDry == true || year.Seen.DrySoil) || day < 7 && year.Garden.WaterAssured == false,
        "frozen-wood" => !year.IsIndoors
            && (day == 0 && year.Garden.WoodFrozen == true || year.Nights.LowestC(day, (int)_limits.FrozenWoodNights.Value) < _limits.FrozenWoodC.Value),
        // Nobody measures how long leaves stay wet; rain stands for it.
        "rain-on-cuts" => !year.IsIndoors && Most(day, (int)_limits.RainOnCutsDays.Value, weather => weather.PrecipMm) >= _limits.RainOnCutsMm.Value,
        "wind" => !year.Garden.WindShelter && year.Tree.Placement == Placement.Open
            && StrongestGustKmh(day, (int)_limits.WindDays.Value) >= _limits.WindKmh.Value,
        "soaking-rain" => year.Tree.Placement is Placement.Open or Placement.Sheltered && IsInSoakingRain(day),
        _ => throw new ArgumentOutOfRangeException(nameof(hold), hold, "No such hold.")
    };

    private double LeafHeatC => (year.Species.Attributes.Contains("shade-sensitive") ? _limits.HeatOnShadeSensitiveC : _limits.HeatOnLeafWorkC).Value;

    private double? HottestC(int fromDay, int days) => Most(fromDay, days, day => day.MaxC);

    private double? StrongestGustKmh(int fromDay, int days) => Most(fromDay, days, day => day.GustKmh);

    private double? Most(int fromDay, int days, Func<DayWeather, double?> value)
    {
        var from = year.Today.PlusDays(fromDay);
        var to = from.PlusDays(days - 1);
        double? most = null;
        foreach (var day in year.Garden.Days)
        {
            if (day.Date >= from && day.Date <= to && value(day) is { } now && !(now <= most))
                most = now;
        }
        return most;
    }

    // More than so many days in a row, this day among them.
    private bool IsInSoakingRain(int day)
    {
        var date = year.Today.PlusDays(day);
        var run = 0;
        foreach (var weather in year.Garden.Days)
        {
            run = weather.PrecipMm >= _limits.SoakingRainMm.Value ? run + 1 : 0;
            if (run > _limits.SoakingRainRunDays.Value && weather.Date >= date && weather.Date.PlusDays(-run) < date)
                return true;
        }
        return false;
    }
}
