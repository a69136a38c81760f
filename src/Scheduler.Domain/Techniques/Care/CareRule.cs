namespace Scheduler.Domain.Techniques.Care;

/// <summary>One kind of care: what it says today, and the dated acts it asks for.</summary>
internal abstract class CareRule(Technique technique, TreeYear year)
{
    protected Technique Technique { get; } = technique;
    protected TreeYear Year { get; } = year;

    public abstract CareFinding Today();

    /// <summary>Acts worth an event, worked out one after the other as they are asked for. Watering and scouting have none.</summary>
    public virtual IEnumerable<WorkWindow> Windows() => [];

    protected Judgement Judged(Verdict verdict, IReadOnlyList<Reason> reasons) =>
        new() { Technique = Technique, Mode = Technique.Modes[0], Year = Year, Verdict = verdict, Reasons = reasons };

    protected static string Degrees(double valueC) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{valueC:0.#} C");
}
