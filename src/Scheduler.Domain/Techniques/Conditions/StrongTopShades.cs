namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>In branch building only a strong, dense top that shades the branches below. The tree as a whole is not that.</summary>
public sealed class StrongTopShades : Condition
{
    public override string Id => "strong-top-shades";

    public override Outcome Test(TreeYear year) => Outcome.Bar("leaves-are-fuel");
}
