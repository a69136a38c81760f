using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Domain.Trees;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Tests.Rules;

/// <summary>Promises of the shipped techniques in an invented climate.</summary>
public class PromiseFinderTests
{
    private static readonly LocalDate Pinched = new(2025, 5, 4);
    private static readonly MadeClimate May = new(47, new LocalDate(2025, 5, 6));
    private static readonly Tree Maple = Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender);
    private static readonly WorkRecord Pinch = Work("tip-pinch", Pinched);

    [Fact]
    public void NothingLogged_PromisesNothing() => Assert.Empty(Find(Maple, May, []));

    [Fact]
    public void Pinch_PromisesADensityScoreAfterItsHeat()
    {
        var score = One(Find(Maple, May, [Pinch]), "score-density");
        Assert.Equal((FollowUpKind.Look, PromiseState.Waiting, Pinch.Id), (score.Kind, score.State, score.Work.Id));
        Assert.True(score.Due.Early <= score.Due.Likely && score.Due.Likely < score.Due.Late);
        // 120 degree-days above 5 C at the 13-15 C of early May here.
        Assert.InRange(Period.DaysBetween(Pinched, score.Due.Likely!.Value), 8, 25);
        Assert.StartsWith("Promised by the tip pinch of 4 May 2025: Score", score.Because, StringComparison.Ordinal);
    }

    [Fact]
    public void WarmerSeason_MovesThePromiseEarlierUnderTheSameId()
    {
        var usual = One(Find(Maple, May, [Pinch]), "score-density");
        var warm = One(Find(Maple, May with { WarmerC = 4 }, [Pinch]), "score-density");
        Assert.Equal(usual.Id, warm.Id);
        Assert.True(warm.Due.Likely < usual.Due.Likely, $"{warm.Due} {usual.Due}");
    }

    [Fact]
    public void South_PromisesTheSameHalfAYearLater()
    {
        var days = 184;
        var north = One(Find(Maple, May, [Pinch]), "score-density");
        var southern = new MadeClimate(-47, May.Today.PlusDays(days));
        var south = One(Find(Maple, southern, [Pinch with { Date = Pinched.PlusDays(days) }]), "score-density");
        Assert.InRange(Period.DaysBetween(north.Due.Likely!.Value, south.Due.Likely!.Value), days - 5, days + 5);
        var nextRoots = One(Find(Maple, southern, [Work("repotting", new LocalDate(2025, 8, 20)) with { Extent = Extent.Normal }]), "next-root-work");
        Assert.Equal(2028, GrowthYear.Of(nextRoots.Due.Early!.Value, Hemisphere.South).Year);
    }

    [Fact]
    public void Look_OnceDue_IsDueThenOverdueThenLetGo()
    {
        Assert.Equal(PromiseState.Waiting, One(Find(Maple, May with { Today = Pinched }, [Pinch]), "look").State);
        Assert.Equal(PromiseState.Due, One(Find(Maple, May with { Today = Pinched.PlusDays(1) }, [Pinch]), "look").State);
        Assert.Equal(PromiseState.Overdue, One(Find(Maple, May with { Today = Pinched.PlusDays(2) }, [Pinch]), "look").State);
        Assert.Equal(PromiseState.Dropped, One(Find(Maple, May with { Today = Pinched.PlusDays(40) }, [Pinch]), "look").State);
    }

    [Fact]
    public void DensityScore_InItsTime_KeepsThePromise_BeforeItDoesNot()
    {
        var later = May with { Today = new LocalDate(2025, 6, 5) };
        var due = One(Find(Maple, later, [Pinch]), "score-density");
        Assert.Equal(PromiseState.Overdue, due.State);
        var early = Trees.Seen(Pinched.PlusDays(1)) with { Density = 1 };
        Assert.Equal(PromiseState.Overdue, One(Find(Maple, later, [Pinch], [early]), "score-density").State);
        var other = Trees.Seen(due.Due.Late!.Value) with { Hardened = true };
        Assert.Equal(PromiseState.Overdue, One(Find(Maple, later, [Pinch], [other]), "score-density").State);
        var scored = other with { Density = 1 };
        var kept = One(Find(Maple, later, [Pinch], [scored]), "score-density");
        Assert.Equal((PromiseState.Done, scored.Date), (kept.State, kept.DoneOn));
        // It was to be thinned if dense, and is not.
        Assert.Equal(PromiseState.Dropped, One(Find(Maple, later, [Pinch], [scored]), "thin-if-dense").State);
        Assert.NotEqual(PromiseState.Dropped, One(Find(Maple, later, [Pinch], [scored with { Density = 2 }]), "thin-if-dense").State);
    }

    [Fact]
    public void LaterPinch_OfTheWholeTree_TakesThePromiseOver_OfAnotherZoneDoesNot()
    {
        var top = Pinch with { CrownZone = CrownZone.Top };
        var again = Work("tip-pinch", Pinched.PlusDays(2));
        var taken = Find(Maple, May, [top, again]).Where(promise => promise.What == "score-density").ToDictionary(promise => promise.Work.Id);
        Assert.Equal((PromiseState.Dropped, PromiseState.Waiting), (taken[top.Id].State, taken[again.Id].State));
        var zones = Find(Maple, May, [top, again with { CrownZone = CrownZone.Lower }]).Where(promise => promise.What == "score-density");
        Assert.All(zones, promise => Assert.Equal(PromiseState.Waiting, promise.State));
    }

    [Fact]
    public void StagedDecandling_PromisesItsSecondVisitUntilItIsLogged()
    {
        var pine = Trees.Tree("pinus-thunbergii", TreeStage.Refinement, Goal.Slender);
        var first = Work("decandling", new LocalDate(2025, 6, 20)) with { Mode = "stage-1" };
        var july = new MadeClimate(47, new LocalDate(2025, 7, 20)) { MeanC = 13 };
        var stage = One(Find(pine, july, [first]), "stage-2");
        Assert.Equal((new LocalDate(2025, 6, 30), new LocalDate(2025, 7, 4), PromiseState.Overdue), (stage.Due.Early!.Value, stage.Due.Late!.Value, stage.State));
        var sameAgain = first with { Id = Guid.NewGuid(), Date = first.Date.PlusDays(3), CrownZone = CrownZone.Lower };
        Assert.Equal(PromiseState.Overdue, Find(pine, july, [first, sameAgain]).First(promise => promise.What == "stage-2" && promise.Work.Id == first.Id).State);
        var second = Work("decandling", new LocalDate(2025, 7, 2)) with { Mode = "stage-2" };
        Assert.Equal(PromiseState.Done, One(Find(pine, july, [first, second]), "stage-2").State);
    }

    [Fact]
    public void SecondSpringOfPinching_PromisesTheEasyYear()
    {
        var before = Work("tip-pinch", new LocalDate(2024, 5, 2));
        var easy = Find(Maple, May, [before, Pinch]).Where(promise => promise.What == "easy-year").ToList();
        // The spring before had none before it: nothing is promised by it, and the second announces the spring after next.
        Assert.Equal(Pinch.Id, Assert.Single(easy).Work.Id);
        Assert.Equal((FollowUpKind.Rest, PromiseState.Waiting), (easy[0].Kind, easy[0].State));
        Assert.Equal(2027, easy[0].Due.Likely!.Value.Year);
    }

    [Fact]
    public void AutumnRepotting_PromisesLeavesOfTheComingSpring()
    {
        var work = Work("repotting", new LocalDate(2025, 10, 10)) with { Extent = Extent.Normal };
        var october = Find(Maple, new MadeClimate(47, new LocalDate(2025, 10, 12)), [work]);
        Assert.Equal(2026, One(october, "leaves-separate").Due.Likely!.Value.Year);
        var december = Find(Maple, new MadeClimate(47, new LocalDate(2025, 12, 12)), [work]);
        Assert.Equal(2026, One(december, "leaves-separate").Due.Likely!.Value.Year);
        Assert.Equal(One(october, "leaves-separate").Id, One(december, "leaves-separate").Id);
        Assert.Equal(new LocalDate(2025, 11, 7), One(october, "feed-again").Due.Likely);
    }

    [Fact]
    public void WorkOfASeasonThatIsOver_PromisesOnlyWhatReachesIntoThisOne()
    {
        var winter = May with { Today = new LocalDate(2026, 2, 1) };
        Assert.Empty(Find(Maple, winter, [Pinch]));
        var roots = Find(Maple, winter, [Work("repotting", new LocalDate(2024, 3, 10)) with { Extent = Extent.Normal }]);
        var next = Assert.Single(roots);
        Assert.Equal(("next-root-work", PromiseState.Waiting, 2027), (next.What, next.State, next.Due.Early!.Value.Year));
    }

    [Theory]
    [InlineData("2024-12-03")]
    [InlineData("2025-01-20")]
    [InlineData("2024-11-20")]
    public void WinterCut_PromisesALookAtStrongBudsInSpring(string day)
    {
        var cut = Work("structural-pruning", NodaTime.Text.LocalDatePattern.Iso.Parse(day).Value) with { Mode = "live-wood" };
        var inWinter = One(Find(Maple, new MadeClimate(47, new LocalDate(2025, 1, 25)), [cut]), "strong-buds");
        Assert.Equal((PromiseState.Waiting, "bud-thinning"), (inWinter.State, inWinter.Technique));
        Assert.InRange(inWinter.Due.Likely!.Value, new LocalDate(2025, 3, 20), new LocalDate(2025, 5, 15));
        // It is still told when the tree is no longer dormant.
        var due = One(Find(Maple, new MadeClimate(47, inWinter.Due.Likely!.Value.PlusDays(3)), [cut]), "strong-buds");
        Assert.Contains(due.State, new[] { PromiseState.Due, PromiseState.Overdue });
        Assert.InRange(Math.Abs(Period.DaysBetween(inWinter.Due.Likely!.Value, due.Due.Likely!.Value)), 0, 10);
    }

    [Fact]
    public void SummerCut_PromisesItSomeWeeksOn()
    {
        var cut = Work("structural-pruning", new LocalDate(2025, 6, 20)) with { Mode = "live-wood" };
        var buds = One(Find(Maple, new MadeClimate(47, new LocalDate(2025, 6, 22)), [cut]), "strong-buds");
        Assert.InRange(Period.DaysBetween(cut.Date, buds.Due.Likely!.Value), 5, 25);
    }

    [Fact]
    public void WinterPlace_ChecksEndWithTheMoveOut_AndLapse()
    {
        var moved = Work("winter-storage", new LocalDate(2024, 12, 10));
        Assert.Equal(PromiseState.Due, One(Find(Maple, new MadeClimate(47, new LocalDate(2024, 12, 24)), [moved]), "water-check").State);
        Assert.Equal(PromiseState.Dropped, One(Find(Maple, new MadeClimate(47, new LocalDate(2025, 2, 20)), [moved]), "water-check").State);
        var back = Work("winter-storage", new LocalDate(2025, 4, 2));
        Assert.DoesNotContain(Find(Maple, new MadeClimate(47, new LocalDate(2025, 4, 20)), [moved, back]), promise => promise.What is "water-check" or "pest-check");
    }

    [Fact]
    public void Dismissed_IsDropped()
    {
        var id = One(Find(Maple, May, [Pinch]), "score-density").Id;
        var facts = Trees.Facts(Maple, May.Site(), [Pinch]) with { DismissedPromises = new HashSet<Guid> { id } };
        var all = PromiseFinder.Find(Trees.Craft, facts, May.Garden());
        Assert.Equal(id, Assert.Single(all, promise => promise.State == PromiseState.Dropped).Id);
    }

    [Fact]
    public void NoWeather_PromisesDaysAndLeavesHeatOpen()
    {
        var site = new SiteWeather(47, May.Today, TemperatureSeries.From([]));
        var all = PromiseFinder.Find(Trees.Craft, Trees.Facts(Maple, site, [Pinch]), new GardenFacts { Today = May.Today, Latitude = 47, Days = [] });
        Assert.Equal(Pinched.PlusDays(1), One(all, "look").Due.Likely);
        var score = One(all, "score-density");
        Assert.Equal((PromiseState.Waiting, (LocalDate?)null), (score.State, score.Due.Likely));
    }

    private static WorkRecord Work(string technique, LocalDate date) => Trees.Work(technique, date) with { Id = Guid.NewGuid() };

    private static IReadOnlyList<Promise> Find(Tree tree, MadeClimate climate, IReadOnlyList<WorkRecord> work, IReadOnlyList<Observation>? seen = null) =>
        PromiseFinder.Find(Trees.Craft, Trees.Facts(tree, climate.Site(), work, seen), climate.Garden());

    private static Promise One(IEnumerable<Promise> promises, string what) => promises.First(promise => promise.What == what);
}
