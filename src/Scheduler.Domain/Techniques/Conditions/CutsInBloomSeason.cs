using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Conditions;

/// <summary>Group of old-wood flowers and azaleas: no cut where it would cost the bloom, and none on stone fruit in wet dormancy.</summary>
public sealed class CutsInBloomSeason : Condition
{
    public override string Id => "cuts-in-bloom-season";

    public override Outcome Test(TreeYear year)
    {
        // Where only a look can tell whether it still rests, it counts as resting.
        var dormant = year.Dormant() is var rest && rest == Truth.Yes || rest == Truth.Unknown && year.Outlook.Season.HasWeather;
        if (year.Species.Attributes.Contains("prunus") && dormant)
            return Outcome.Bar("wound-infection", "Cuts over about 5 mm let silver leaf and canker in while it rests and is wet.", new PhaseTrigger(69));
        if (!year.Goals.Contains(Goal.Flowers))
            return Outcome.Pass;
        var budsSet = dormant || (year.AnswersLike == "AZA" ? year.IsLateSeason : year.IsAutumn);
        return budsSet
            ? Outcome.Bar("would-cost-bloom", "The wood carries the flower buds of the coming bloom.", new PhaseTrigger(69))
            : Outcome.Pass;
    }
}
