using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Techniques;

/// <summary>How free days are filled (config/planning.yaml). The name of a figure says its unit; worths count in proportion only.</summary>
public sealed record PlanningRules
{
    public required Figure HorizonDays { get; init; }
    public required Figure MovingPercent { get; init; }
    public required Figure UnknownMinutes { get; init; }
    public required Figure LearnFromSessions { get; init; }
    public required Figure LearnLastSessions { get; init; }
    public required Figure WorthNone { get; init; }
    public required Figure WorthLight { get; init; }
    public required Figure WorthMedium { get; init; }
    public required Figure WorthHeavy { get; init; }
    public required Figure WorthCare { get; init; }
    public required Figure NextVisitPercent { get; init; }
    public required Figure ClosingDays { get; init; }
    public required Figure ClosingPercent { get; init; }
    public required Figure WetDayMm { get; init; }
    public required Figure HeavyFrostC { get; init; }
    public required Figure HeavyHeatC { get; init; }
    public required Figure HeavyLookDays { get; init; }
    public required Figure CalmUrgentDays { get; init; }
    public required Figure CalmAheadPercent { get; init; }
    public required Figure CalmBandPercent { get; init; }
    public required Figure CalmMostDays { get; init; }
    /// <summary>Steps of a day in order.</summary>
    public required IReadOnlyList<DayStep> Order { get; init; }
    public required IReadOnlyList<string> RootSteps { get; init; }
    public required IReadOnlyList<string> LeafSteps { get; init; }
    public required IReadOnlyList<string> WoundSteps { get; init; }
    /// <summary>Techniques that follow from the forecast.</summary>
    public required IReadOnlyList<string> CareWork { get; init; }

    /// <summary>Place of the work in <see cref="Order"/>; what is named nowhere comes last.</summary>
    public int StepOf(WindowKey key)
    {
        ArgumentNullException.ThrowIfNull(key);
        var whole = Order.Count;
        for (var step = 0; step < Order.Count; step++)
        {
            if (key.Mode is not null && Order[step].Work.Contains($"{key.Technique}/{key.Mode}"))
                return step;
            if (Order[step].Work.Contains(key.Technique))
                whole = step;
        }
        return whole;
    }

    public bool IsRootWork(WindowKey key) => IsOf(RootSteps, key);

    public bool IsLeafWork(WindowKey key) => IsOf(LeafSteps, key);

    public bool LeavesWounds(WindowKey key) => IsOf(WoundSteps, key);

    public double WorthOf(int load) => (load switch { <= 0 => WorthNone, 1 => WorthLight, 2 => WorthMedium, _ => WorthHeavy }).Value;

    private bool IsOf(IReadOnlyList<string> steps, WindowKey key) => StepOf(key) is var step && step < Order.Count && steps.Contains(Order[step].Step);
}

/// <summary>One step of a working day.</summary>
/// <param name="Work">Technique ids, or technique/mode.</param>
public sealed record DayStep(string Step, IReadOnlyList<string> Work);
