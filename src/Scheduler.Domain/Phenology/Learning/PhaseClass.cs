namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// What kind of phase a free-text name speaks of. Networks name phases in their own ways ("budbreak_50pct", "bud burst");
/// thresholds of one class are near enough to start from when a name was never seen before.
/// </summary>
public enum PhaseClass { Bud, Leaf, Flower, Autumn }

/// <summary>Reads the class from a phase's name.</summary>
public static class PhaseClasses
{
    public static PhaseClass Of(string phase)
    {
        if (Has(phase, "colo", "fall", "senesc"))
            return PhaseClass.Autumn;
        if (Has(phase, "flower", "bloom", "blossom"))
            return PhaseClass.Flower;
        return Has(phase, "bud", "swell", "break", "burst") ? PhaseClass.Bud : PhaseClass.Leaf;
    }

    private static bool Has(string phase, params ReadOnlySpan<string> parts)
    {
        foreach (var part in parts)
        {
            if (phase.Contains(part, StringComparison.OrdinalIgnoreCase))
                return true;
        }
        return false;
    }
}
