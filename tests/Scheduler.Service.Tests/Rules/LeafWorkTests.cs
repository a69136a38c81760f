using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules;

/// <summary>
/// Leaf work on trees for which all else is in favor: which trees, how late, how often, and only one job at a time
/// (common practice, estimates).
/// </summary>
public class LeafWorkTests
{
    private static readonly string[] Jobs = ["outer-leaf-removal", "leaf-thinning", "partial-defoliation", "full-defoliation"];

    [Theory]
    [InlineData(47)]
    [InlineData(-43)]
    public void HardenedDenseElm_HasItsOuterLeavesTakenFirst(double latitude)
    {
        var advice = Advise(Elm, Summer(latitude));
        Assert.Equal(Verdict.DoNow, advice.Advice("outer-leaf-removal").Verdict);
        Assert.Contains(advice.Advice("outer-leaf-removal").Amount, entry => Equals(entry.GetValueOrDefault("crownZone"), "inner") && Equals(entry["take"], "none"));
        foreach (var later in new[] { "leaf-thinning", "partial-defoliation" })
        {
            var answer = advice.Advice(later);
            Assert.Equal((Verdict.Leave, "one-leaf-job-at-a-time"), (answer.Verdict, answer.Reasons[0].Id));
            Assert.Equal("200 degree-days above 5 C since the outer leaf removal", answer.BarredUntil!.Words);
        }
    }

    [Fact]
    public void ThinningAfterAPinch_GoesBeforeOuterLeaves()
    {
        var season = Summer();
        var advice = Advise(Elm, season, [Trees.Work("tip-pinch", season.Today.PlusDays(-60))]);
        Assert.Equal(Verdict.DoNow, advice.Advice("leaf-thinning").Verdict);
        Assert.Equal("one-leaf-job-at-a-time", advice.Advice("outer-leaf-removal").Reasons[0].Id);
    }

    [Fact]
    public void RequestedJob_GoesFirst() =>
        Assert.Equal(Verdict.DoNow, Advise(Asking("partial-defoliation"), Summer()).Advice("partial-defoliation").Verdict);

    [Fact]
    public void FullDefoliation_AskedForTooLate_FallsBackToPartOfTheLeaves()
    {
        var season = Summer(daysToFrost: 85);
        var advice = Advise(Asking("full-defoliation"), season, [Fed(season)]);
        var full = advice.Advice("full-defoliation");
        Assert.Equal(Verdict.Missed, full.Verdict);
        Assert.Contains(full.Reasons, reason => reason.Id == "too-late-to-harden");
        Assert.Equal("partial-defoliation", full.Fallback!.Techniques[0]);
        Assert.Equal(Verdict.DoNow, advice.Advice("partial-defoliation").Verdict);
        Assert.Equal("one-leaf-job-at-a-time", advice.Advice("outer-leaf-removal").Reasons[0].Id);
    }

    [Fact]
    public void FullDefoliation_OfAFedVigorousElm_NeedsTipsAtRest()
    {
        var season = Summer();
        Assert.Equal(Verdict.Ask, Full(null).Verdict);
        Assert.Equal(Verdict.Wait, Full(true).Verdict);
        Assert.Equal(Verdict.DoNow, Full(false).Verdict);

        TechniqueAdvice Full(bool? moving) => Advise(Asking("full-defoliation"), season, [Fed(season)], [Trees.Seen(season.Today) with { TipsMoving = moving }])
            .Advice("full-defoliation");
    }

    [Fact]
    public void TwoHeavyJobs_AskedForAndOpenOnOneDay_AreNotBothDone()
    {
        var season = Summer();
        IReadOnlyList<Observation> atRest = [Trees.Seen(season.Today) with { TipsMoving = false }];
        var bend = new TechniqueRequest("wiring", "heavy-bend");
        Assert.Equal(Verdict.DoNow, Bend(Advise(Elm with { Requests = [bend] }, season, [Fed(season)], atRest)).Verdict);
        var both = Advise(Elm with { Requests = [bend, new TechniqueRequest("full-defoliation")] }, season, [Fed(season)], atRest);
        var full = both.Advice("full-defoliation");
        Assert.Single(new[] { full.Verdict, Bend(both).Verdict }, verdict => verdict == Verdict.DoNow);
        var other = full.Verdict == Verdict.DoNow ? (Bend(both).Verdict, Bend(both).Reasons[0].Id) : (full.Verdict, full.Reasons[0].Id);
        Assert.Equal((Verdict.NotAllowed, "too-soon-since-heavy-work"), other);

        static PartAdvice Bend(IReadOnlyList<TechniqueAdvice> advice) => advice.Advice("wiring").Parts.First(part => part.Mode == "heavy-bend");
    }

    [Theory]
    [InlineData(TreeStage.Ramification, 1, false)]
    [InlineData(TreeStage.Ramification, 2, true)]
    [InlineData(TreeStage.Refinement, 2, false)]
    [InlineData(TreeStage.Refinement, 3, true)]
    public void FullDefoliation_RestsBetweenYears(TreeStage stage, int yearsAgo, bool allowed)
    {
        var season = Summer();
        var answer = Advise(Asking("full-defoliation") with { Stage = stage }, season,
            [Fed(season), Trees.Work("full-defoliation", season.Today.PlusYears(-yearsAgo))], [Trees.Seen(season.Today) with { TipsMoving = false }]).Advice("full-defoliation");
        Assert.Equal(allowed ? Verdict.DoNow : Verdict.NotAllowed, answer.Verdict);
        if (!allowed)
            Assert.Contains(answer.Reasons, reason => reason.Id == "too-soon-since-heavy-work");
    }

    [Theory]
    [InlineData("outer-leaf-removal", 46, 44)]
    [InlineData("partial-defoliation", 80, 74)]
    public void LeafWork_ClosesByCountBackFromFrost(string job, int stillDays, int lateDays)
    {
        Assert.Equal(Verdict.DoNow, Advise(Asking(job), Summer(daysToFrost: stillDays)).Advice(job).Verdict);
        var late = Advise(Asking(job), Summer(daysToFrost: lateDays)).Advice(job);
        Assert.Equal(Verdict.Missed, late.Verdict);
        Assert.Contains(late.Reasons, reason => reason.Id == "too-late-to-harden");
    }

    [Theory]
    [InlineData("pinus-thunbergii", "not-for-this-group", "not-for-this-group", "not-for-this-group", "not-for-this-group")]
    [InlineData("juniperus-chinensis", "not-for-this-group", "not-for-this-group", "not-for-this-group", "not-for-this-group")]
    [InlineData("larix", "not-for-this-group", "not-for-this-group", "not-for-this-group", "not-for-this-group")]
    [InlineData("rhododendron-indicum", "evergreen-leaf-store", "evergreen-leaf-store", "evergreen-leaf-store", "evergreen-leaf-store")]
    [InlineData("acer-palmatum", null, null, null, "off-by-setting")]
    [InlineData("fagus-sylvatica", null, null, null, "no-second-flush")]
    [InlineData("malus", null, null, null, "would-cost-bloom")]
    [InlineData("punica-granatum", null, null, null, "would-cost-bloom")]
    [InlineData("olea-europaea", null, null, null, "other-technique-does-this")]
    [InlineData("carpinus-turczaninowii", null, null, null, "off-by-setting")]
    [InlineData("betula-pendula", null, null, null, "not-for-this-group")]
    public void Groups_AreBarredForTheReasonOfTheTable(string species, string? outer, string? thinning, string? partial, string? full)
    {
        var advice = Advise(Trees.Tree(species, TreeStage.Ramification, Goal.Slender), Summer());
        foreach (var (job, reason) in Jobs.Zip([outer, thinning, partial, full]))
        {
            if (reason is null)
                Assert.NotEqual(Verdict.NotAllowed, advice.Advice(job).Verdict);
            else
                Assert.Equal((Verdict.NotAllowed, reason), (advice.Advice(job).Verdict, advice.Advice(job).Reasons[0].Id));
        }
    }

    [Fact]
    public void WantedBloom_KeepsItsLeaves()
    {
        var advice = Advise(Trees.Tree("malus", TreeStage.Refinement, Goal.Flowers, Goal.Light), Summer());
        Assert.Equal("would-cost-bloom", advice.Advice("outer-leaf-removal").Reasons[0].Id);
        Assert.Equal("would-cost-bloom", advice.Advice("partial-defoliation").Reasons[0].Id);
    }

    [Fact]
    public void Owner_MayAllowAMapleToLoseAllLeaves()
    {
        var season = Summer();
        var maple = Trees.Tree("acer-palmatum", TreeStage.Ramification, Goal.Slender) with
        {
            Settings = new Dictionary<string, string> { ["3"] = "yes" },
            Requests = [new TechniqueRequest("full-defoliation")]
        };
        Assert.Equal(Verdict.DoNow, Full(maple).Verdict);
        Assert.Equal("off-by-setting", Full(maple with { Stage = TreeStage.Refinement }).Reasons[0].Id);

        TechniqueAdvice Full(Tree tree) => Advise(tree, season, [Fed(season)], [Trees.Seen(season.Today) with { TipsMoving = false }]).Advice("full-defoliation");
    }

    [Fact]
    public void OldScoreOfDensity_SaysNothingOnceLeavesAreTaken()
    {
        var season = Summer();
        IReadOnlyList<WorkRecord> work = [Trees.Work("leaf-thinning", season.Today.PlusDays(-30))];
        var before = Trees.Seen(season.Today.PlusDays(-31)) with { Hardened = true, Density = 2 };
        Assert.Equal(Verdict.Ask, Outer([before]).Verdict);
        Assert.Equal(Verdict.DoNow, Outer([before, Trees.Seen(season.Today) with { Density = 2 }]).Verdict);

        TechniqueAdvice Outer(IReadOnlyList<Observation> seen) =>
            Advisor.Advise(Trees.Craft, Trees.Facts(Elm, season.Site(), work, seen), Trees.Garden(season)).Advice("outer-leaf-removal");
    }

    private static Tree Elm => Trees.Tree("ulmus-parvifolia", TreeStage.Refinement, Goal.Light);

    private static Tree Asking(string technique) => Elm with { Requests = [new TechniqueRequest(technique)] };

    private static WorkRecord Fed(MadeSeason season) => Trees.Work("feeding", season.Today.PlusDays(-60));

    private static MadeSeason Summer(double latitude = 47, int daysToFrost = 120) => new()
    {
        Latitude = latitude, Today = latitude < 0 ? new LocalDate(2025, 12, 27) : new LocalDate(2025, 6, 27), DaysToFrost = daysToFrost, WarmDays = 75, HeatAfterCd = 12
    };

    private static IReadOnlyList<TechniqueAdvice> Advise(
        Tree tree, MadeSeason season, IReadOnlyList<WorkRecord>? work = null, IReadOnlyList<Observation>? seen = null) => Advisor.Advise(
        Trees.Craft,
        Trees.Facts(tree, season.Site(), work, [Trees.Seen(season.Today) with { Hardened = true, Density = 2 }, .. seen ?? []]),
        Trees.Garden(season));
}
