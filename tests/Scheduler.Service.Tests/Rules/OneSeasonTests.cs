using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Domain.Trees;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Tests.Rules;

/// <summary>Answers, windows and promises of one season say the same of work that excludes other work.</summary>
public class OneSeasonTests
{
    private static readonly LocalDate Swelling = new(2025, 3, 25);

    [Theory]
    [InlineData(47)]
    [InlineData(-43)]
    public void OpenRootWork_TakesThePinchOffAdviceAndCalendar(double latitude)
    {
        var maple = Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender) with { Requests = [new TechniqueRequest("repotting")] };
        var made = new Made(maple, latitude, Swelling).Noted(seen => seen with { Bbch = 1 });
        Assert.Equal(Verdict.DoNow, made.Advice("repotting").Verdict);
        Assert.Equal((Verdict.NotAllowed, "roots-rebuilding"), (made.Advice("tip-pinch").Verdict, made.Advice("tip-pinch").Reasons[0].Id));
        var set = made.Windows();
        var year = GrowthYear.Of(made.Today, Hemisphere.OfLatitude(latitude)).Year;
        Assert.DoesNotContain(set.Windows, window => window.Key.Technique == "tip-pinch" && window.Key.Year == year);
        Assert.Contains(set.Refusals, refusal => refusal.Technique == "tip-pinch" && refusal.Year == year && refusal.Reasons[0].Id == "roots-rebuilding");
        Assert.Contains(set.Windows, window => window.Key is { Technique: "repotting", Mode: "normal" } && window.State == WindowState.Open);
    }

    [Fact]
    public void MediumJobs_TellHowManyOfThemFit()
    {
        var maple = Trees.Tree("acer-palmatum", TreeStage.Ramification, Goal.Slender, Goal.Light) with { Health = Health.Sound };
        var made = new Made(maple, 47, new LocalDate(2025, 6, 10)).Noted(seen => seen with { Hardened = true, Density = 3, LeafCount = 6, BaseFirm = true });
        string[] medium = ["outer-leaf-removal", "cut-back", "structural-pruning"];
        Assert.All(medium, technique => Assert.Equal(Verdict.DoNow, made.Advice(technique).Verdict));
        Assert.All(medium, technique => Assert.Contains(made.Advice(technique).Cautions, caution => caution.EndsWith("it bears only 2 this season.", StringComparison.Ordinal)));
        Assert.All(medium, technique => Assert.Contains(made.Windows().Windows, window => window.Key.Technique == technique && window.State == WindowState.Open));
        var two = made.Logged("outer-leaf-removal", 1).Logged("cut-back", 1);
        Assert.Equal((Verdict.NotAllowed, "too-soon-since-heavy-work"), (two.Advice("structural-pruning", "live-wood").Verdict, two.Advice("structural-pruning", "live-wood").Reasons[0].Id));
        Assert.DoesNotContain(two.Windows().Windows, window => window.Key is { Technique: "structural-pruning", Mode: "live-wood", Year: 2025 });
    }

    [Fact]
    public void WorkThatUsesUpTheSeasonsShare_SaysWhatItCosts()
    {
        var pine = Trees.Tree("pinus-thunbergii", TreeStage.Refinement, Goal.Slender, Goal.Light) with { Health = Health.Vigorous };
        var made = new Made(pine, 40, new LocalDate(2025, 12, 10));
        const string Cost = "Done now, it leaves no room for decandling this season.";
        // One medium job still leaves room for the heavy one of early summer, a second does not.
        Assert.Equal(Verdict.DoNow, made.Advice("structural-pruning").Verdict);
        Assert.DoesNotContain(Cost, made.Advice("structural-pruning").Cautions);
        var plucked = made.Logged("needle-plucking", 1);
        Assert.Equal(Verdict.DoNow, plucked.Advice("structural-pruning").Verdict);
        Assert.Contains(Cost, plucked.Advice("structural-pruning").Cautions);
        Assert.Equal(Verdict.Wait, plucked.Advice("decandling").Verdict);
    }

    [Fact]
    public void PromisedWork_ThatTheTreeMustNotHave_IsLetGo()
    {
        var climate = new MadeClimate(47, new LocalDate(2025, 5, 20));
        var maple = Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender);
        var pinch = Trees.Work("tip-pinch", climate.Today.PlusDays(-16)) with { Id = new Guid(9, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9) };
        Promise Thinning(Tree tree) => PromiseFinder.Find(Trees.Craft, Trees.Facts(tree, climate.Site(), [pinch]), climate.Garden()).First(promise => promise.Technique == "leaf-thinning");
        Assert.NotEqual(PromiseState.Dropped, Thinning(maple).State);
        Assert.Equal(PromiseState.Dropped, Thinning(maple with { Health = Health.Weak }).State);
    }
}
