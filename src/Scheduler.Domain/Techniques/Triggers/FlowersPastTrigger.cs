namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>
/// A share of the flowers is past [%], as seen. By the clock it lies between full bloom and the last petals; halfway is
/// an estimate.
/// </summary>
public sealed record FlowersPastTrigger(double Percent) : Trigger
{
    private const int FullBloom = 65;
    private const int PetalsDown = 69;

    public override IReadOnlyDictionary<string, object> Fields => new Dictionary<string, object> { ["flowersPastPercent"] = Percent };
    public override string Words => $"{Percent} % of the flowers are past";

    public override double DayOf(TreeYear year, int draw, Side side) => (year.PhaseDay(draw, FullBloom) + year.PhaseDay(draw, PetalsDown)) / 2;

    public override Truth Today(TreeYear year, Side side)
    {
        if (year.Reached(PetalsDown) == Truth.Yes || year.Seen.FlowersPastPercent >= Percent)
            return Truth.Yes;
        if (year.Seen.LastOn(seen => seen.FlowersPastPercent < Percent) == year.Today || year.Reached(FullBloom) == Truth.No)
            return Truth.No;
        return Truth.Unknown;
    }
}
