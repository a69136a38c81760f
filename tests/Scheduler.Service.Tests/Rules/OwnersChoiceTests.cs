using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules;

/// <summary>What the owner's choice changes on points where practice disagrees (domain brief, section 6).</summary>
public class OwnersChoiceTests
{
    private static readonly MadeSeason Candles = new()
    {
        Today = new LocalDate(2025, 7, 8), DaysToFrost = 104, WarmDays = 80, HeatAfterCd = 17, HeatAfterDays = 73
    };

    [Theory]
    // By heat and days it is open on this day; the owner's own day of earlier years is a fortnight off or here.
    [InlineData(null, 14, Verdict.DoNow)]
    [InlineData("habit", 14, Verdict.Wait)]
    [InlineData("habit", 3, Verdict.DoNow)]
    [InlineData("habit", -3, Verdict.DoNow)]
    [InlineData("habit", -14, Verdict.Missed)]
    [InlineData("habit", null, Verdict.DoNow)]
    public void CandleDay_ByHabit_IsTheMeanOfTheLog(string? choice, int? usualIn, Verdict verdict)
    {
        var pine = Choosing(Trees.Tree("pinus-thunbergii", TreeStage.Refinement, Goal.Slender) with { Size = TreeSize.S }, "8", choice);
        List<WorkRecord> work = [Trees.Work("feeding", Candles.Today.PlusDays(-60))];
        if (usualIn is { } days)
        {
            work.Add(Trees.Work("decandling", Candles.Today.PlusYears(-2).PlusDays(days - 2)) with { Mode = "stage-1" });
            work.Add(Trees.Work("decandling", Candles.Today.PlusYears(-3).PlusDays(days + 2)) with { Mode = "stage-1" });
        }
        var answer = Advisor.Advise(Trees.Craft, Trees.Facts(pine, Candles.Site(), work, [Trees.Seen(Candles.Today) with { Candle = "C3" }]), Trees.Garden(Candles));
        Assert.Equal(verdict, answer.Advice("decandling").Parts.Single(part => part.Mode == "stage-1").Verdict);
    }

    [Theory]
    [InlineData(null, Health.Vigorous, 2, "old-leaves-on-bare-branches")]
    [InlineData("whole-tree", Health.Vigorous, 3, "old-leaves")]
    [InlineData("with-roots", Health.Vigorous, 3, "old-leaves")]
    [InlineData("whole-tree", Health.Sound, 2, "old-leaves-on-bare-branches")]
    public void Olive_IsStrippedWholeOnlyWhereChosenAndVigorous(string? choice, Health health, int load, string leaves)
    {
        var olive = Choosing(Trees.Tree("olea-europaea", TreeStage.Ramification, Goal.BackBud) with { Health = health }, "11", choice);
        var made = new Made(olive, 40, new LocalDate(2025, 3, 10)) { Garden = garden => garden with { RootBallC = 10 } }
            .Noted(seen => seen with { Bbch = 1, BareAlongLength = "yes", LiveUnderScratch = true });
        var strip = made.Advice("pre-push-defoliation");
        Assert.Equal(Verdict.DoNow, strip.Verdict);
        Assert.Equal(leaves, strip.Amount[0]["of"]);
        // A whole strip is heavy: root work that is asked for too does not fit beside it, whatever was chosen.
        Assert.Equal(load == 3, strip.Cautions.Any(caution => caution.Contains("heavy work", StringComparison.Ordinal)));
        var light = made.Logged("repotting", 10, "light", work => work with { Extent = Extent.Light }).Advice("pre-push-defoliation");
        Assert.Equal(load == 3 ? Verdict.NotAllowed : Verdict.DoNow, light.Verdict);
        Assert.Equal(Verdict.NotAllowed, made.Logged("repotting", 10, "normal", work => work with { Extent = Extent.Normal }).Advice("pre-push-defoliation").Verdict);
    }

    [Theory]
    [InlineData(47)]
    [InlineData(-43)]
    public void BleedingCuts_AreMadeWhereTheOwnerThinksThemHarmless(double latitude)
    {
        var maple = Trees.Tree("acer-palmatum", TreeStage.Ramification, Goal.Slender);
        Made Rising(string? choice) => new(Choosing(maple, "12", choice), latitude, new LocalDate(2025, 2, 20));
        Assert.Equal(Verdict.Wait, Rising(null).Advice("structural-pruning", "live-wood").Verdict);
        Assert.Equal(Verdict.DoNow, Rising("harmless").Advice("structural-pruning", "live-wood").Verdict);
    }

    [Fact]
    public void Cuts_AreSealedAsTheOwnerChose()
    {
        var beech = Trees.Tree("fagus-sylvatica", TreeStage.Ramification, Goal.Slender);
        string[] Said(string? choice) =>
            [.. new Made(Choosing(beech, "13", choice), 47, new LocalDate(2025, 1, 5)).Advice("structural-pruning").How];
        Assert.Equal(Said(null), Said("big"));
        Assert.Equal(3, new[] { Said("big"), Said("all"), Said("none") }.Select(how => string.Join(' ', how)).Distinct().Count());
    }

    [Theory]
    [InlineData(null, Verdict.Leave)]
    [InlineData("no", Verdict.Leave)]
    [InlineData("yes", Verdict.DoNow)]
    public void Pinching_ForBackBuds_IsTheOwnersBelief(string? choice, Verdict verdict)
    {
        var maple = Choosing(Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.BackBud), "17", choice);
        Assert.Equal(verdict, new Made(maple, 47, new LocalDate(2025, 4, 25)).Noted(seen => seen with { Bbch = 10 }).Advice("tip-pinch").Verdict);
    }

    private static Tree Choosing(Tree tree, string setting, string? choice) =>
        tree with { Settings = choice is null ? new Dictionary<string, string>() : new() { [setting] = choice } };
}
