using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>In branch building only a strong, dense top that shades the branches below. The tree as a whole is not that.</summary>
public sealed class StrongTopShades : Condition
{
    public override string Id => "strong-top-shades";

    public override Outcome Test(TreeYear year)
    {
        var strongest = year.IsBasallyDominant ? CrownZone.Lower : CrownZone.Top;
        return year.Part.CrownZone == strongest && year.Seen.LastDensity >= year.Thresholds.Dense.Value && !year.Seen.WeakOnly
            ? Outcome.Limit("Only strong shoots at the top that shade the branches below.")
            : Outcome.Bar("leaves-are-fuel");
    }
}
