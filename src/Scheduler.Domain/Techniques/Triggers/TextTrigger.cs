namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>Something only the owner will see, in words.</summary>
public sealed record TextTrigger(string Text) : Trigger
{
    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["text"] = Text };
    public override string Words => Text;
    public override double DayOf(TreeYear year, int draw, Side side) => double.NaN;
    public override Truth Today(TreeYear year, Side side) => Truth.Unknown;
}
