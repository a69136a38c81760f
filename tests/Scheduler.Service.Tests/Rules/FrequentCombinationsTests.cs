using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules;

/// <summary>
/// What a grower does, and does not do, with frequent kinds of trees: common practice, no source. A dense, vigorous, fed
/// tree at bud break. "On" is work that comes this year (open, waiting, a question or just over); "off" is barred or left,
/// with the reason where the trade has one.
/// </summary>
public class FrequentCombinationsTests
{
    private static readonly LocalDate Today = new(2026, 4, 10);

    // species, group, stage, goal | on | off with reason ids
    private const string Table = """
        acer-palmatum MPJ refinement slender | tip-pinch leaf-thinning outer-leaf-removal partial-defoliation | full-defoliation
        acer-palmatum MPJ ramification slender | tip-pinch cut-back leaf-thinning |
        acer-palmatum MPJ branch-building thicken-branch | cut-back | tip-pinch:pinching-thins leaf-thinning:leaves-are-fuel partial-defoliation:leaves-are-fuel full-defoliation:leaves-are-fuel outline-trim/routine-trim:leaves-are-fuel
        acer-palmatum MPJ trunk-building thicken-trunk | | tip-pinch:pinching-thins early-clip:pinching-thins leaf-thinning:leaves-are-fuel outer-leaf-removal:leaves-are-fuel partial-defoliation:leaves-are-fuel full-defoliation:leaves-are-fuel
        acer-palmatum MPJ refinement light | leaf-thinning outer-leaf-removal | full-defoliation
        acer-buergerianum DMF branch-building thicken-branch | cut-back | tip-pinch:pinching-thins
        acer-buergerianum DMF ramification back-bud | cut-back outer-leaf-removal partial-defoliation |
        acer-buergerianum DMF refinement slender | tip-pinch leaf-thinning partial-defoliation | full-defoliation
        acer-buergerianum DMF branch-building change-leader | leader-change | tip-pinch:leader-must-run cut-back
        fagus-sylvatica DSF refinement slender | tip-pinch outer-leaf-removal bud-thinning | full-defoliation:no-second-flush
        fagus-sylvatica DSF ramification light | outer-leaf-removal leaf-thinning | full-defoliation:no-second-flush
        fagus-sylvatica DSF branch-building thicken-branch | cut-back |
        euonymus FSH refinement slender | early-clip leaf-thinning | tip-pinch:other-technique-does-this
        euonymus FSH branch-building thicken-branch | cut-back | early-clip:pinching-thins
        chaenomeles FOB refinement flowers | flower-fruit-removal cut-back | full-defoliation
        syringa-vulgaris FOL refinement flowers | flower-side-tips flower-fruit-removal cut-back | tip-pinch:would-cost-bloom partial-defoliation:would-cost-bloom full-defoliation:would-cost-bloom
        syringa-vulgaris FOL branch-building thicken-branch | cut-back | flower-side-tips:stage-too-early
        punica-granatum FNW refinement flowers | flower-fruit-removal | tip-pinch:would-cost-bloom
        rhododendron-indicum AZA refinement flowers | flower-side-tips flower-fruit-removal cut-back | tip-pinch:other-technique-does-this leaf-thinning:evergreen-leaf-store pre-push-defoliation:evergreen-leaf-store full-defoliation
        rhododendron-indicum AZA branch-building back-bud | cut-back | leaf-thinning:evergreen-leaf-store
        olea-europaea EBT ramification back-bud | cut-back | full-defoliation
        olea-europaea EBT refinement slender | tip-pinch leaf-thinning |
        buxus EBT refinement slender | tip-pinch | leaf-thinning
        pinus-thunbergii PN2 trunk-building thicken-trunk | | decandling:leaves-are-fuel candle-pinch needle-plucking
        pinus-thunbergii PN2 branch-building thicken-branch | | decandling:pinching-thins
        pinus-thunbergii PN2 refinement slender | decandling bud-thinning needle-plucking |
        pinus-sylvestris PN1 refinement slender | candle-pinch bud-thinning | decandling:no-second-flush
        pinus-sylvestris PN1 branch-building thicken-branch | | candle-pinch:pinching-thins
        juniperus-chinensis JNS refinement slender | conifer-tips | tip-pinch:strength-in-tips cut-back:no-buds-on-bare-wood
        juniperus-chinensis JNN refinement slender | conifer-tips | cut-back:no-buds-on-bare-wood
        chamaecyparis-obtusa CYP refinement light | conifer-tips | cut-back:no-buds-on-bare-wood
        picea SPF refinement slender | conifer-tips | cut-back:no-second-flush
        picea SPF branch-building thicken-branch | | conifer-tips
        taxus YEW branch-building back-bud | cut-back structural-pruning | outline-trim/routine-trim:leaves-are-fuel
        larix DCN refinement slender | conifer-tips | leaf-thinning:not-for-this-group
        larix DCN trunk-building thicken-trunk | | conifer-tips:leaves-are-fuel
        """;

    public static TheoryData<string> Rows => [.. Table.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)];

    [Theory]
    [MemberData(nameof(Rows))]
    public void Combination_HasItsWorkOnAndOff(string row)
    {
        var parts = row.Split('|', StringSplitOptions.TrimEntries);
        var tree = parts[0].Split(' ');
        Assert.True(Ids.TryParse<TreeStage>(tree[2], out var stage));
        Assert.True(Ids.TryParse<Goal>(tree[3], out var goal));
        var advice = Advice(Trees.Tree(tree[0], stage, goal) with { Group = tree[1] });

        foreach (var on in Known(parts[1]))
            Assert.True(advice.Advice(on).Verdict is not (Verdict.NotAllowed or Verdict.Leave), $"{on} is off: {Told(advice, on)}");
        foreach (var off in Known(parts[2]))
            AssertOff(advice, off);
        if (Trees.Craft.Find("outline-trim") is not null)
            Assert.Equal(Verdict.Leave, Part(advice, "outline-trim/free-extension").Verdict);
    }

    [Theory]
    [InlineData("acer-palmatum"), InlineData("acer-buergerianum")]
    public void RefinedMaple_ThatWasPinched_IsNotCutBack(string species) =>
        AssertOff(Advice(Trees.Tree(species, TreeStage.Refinement, Goal.Slender), Trees.Work("tip-pinch", Today.PlusDays(-2))), "cut-back:only-missed-shoots");

    [Fact]
    public void RefinedMaple_LeftToRunByItsOwner_IsCutBackInsteadOfPinched()
    {
        var tree = Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender);
        var advice = Advice(tree with { Settings = new Dictionary<string, string> { ["1"] = "let-run" } });
        AssertOff(advice, "tip-pinch:owner-preference");
        Assert.True(advice.Advice("cut-back").Verdict is Verdict.Wait or Verdict.Ask, Told(advice, "cut-back"));
        Assert.DoesNotContain(advice.Advice("cut-back").Reasons, reason => reason.Id == "only-missed-shoots");
        Assert.NotEqual("owner-preference", Advice(tree).Advice("tip-pinch").Reasons[0].Id);
    }

    [Fact]
    public void Maple_RepottedThisSpring_HasNoTipOrLeafWork()
    {
        var advice = Advice(Trees.Tree("acer-palmatum", TreeStage.Refinement, Goal.Slender),
            Trees.Work("repotting", Today.PlusDays(-20)) with { Extent = Extent.Normal });
        foreach (var off in Known("tip-pinch cut-back early-clip outer-leaf-removal leaf-thinning partial-defoliation full-defoliation"))
            AssertOff(advice, off == "early-clip" ? off : off + ":roots-rebuilding");
    }

    [Theory]
    [InlineData("acer-palmatum"), InlineData("fagus-sylvatica"), InlineData("pinus-thunbergii"), InlineData("juniperus-chinensis"), InlineData("olea-europaea")]
    public void Recovery_BarsAllTipAndLeafWork(string species)
    {
        var advice = Advice(Trees.Tree(species, TreeStage.Refinement, Goal.Recover));
        foreach (var off in Known("tip-pinch cut-back early-clip flower-side-tips outer-leaf-removal leaf-thinning partial-defoliation full-defoliation pre-push-defoliation candle-pinch decandling needle-plucking bud-thinning conifer-tips"))
        {
            Assert.Equal(Verdict.NotAllowed, advice.Advice(off).Verdict);
            AssertOff(advice, off + ":weak-or-recovering");
        }
    }

    private static IReadOnlyList<TechniqueAdvice> Advice(Tree tree, params WorkRecord[] work)
    {
        var season = new MadeSeason { Today = Today, DaysToFrost = 200, WarmDays = 12 };
        var seen = Trees.Seen(Today) with { Density = 2 };
        return Advisor.Advise(
            Trees.Craft, Trees.Facts(tree, season.Site(), [.. work, Trees.Work("feeding", Today.PlusDays(-7))], [seen]), Trees.Garden(season));
    }

    // The rest of the craft is written technique by technique; a row speaks of one as soon as it has a file.
    private static IEnumerable<string> Known(string list) =>
        list.Split(' ', StringSplitOptions.RemoveEmptyEntries).Where(one => Trees.Craft.Find(one.Split('/', ':')[0]) is not null);

    private static void AssertOff(IReadOnlyList<TechniqueAdvice> advice, string off)
    {
        var (work, reason) = off.Split(':') is [var first, var second] ? (first, second) : (off, null);
        var answer = Part(advice, work);
        Assert.True(answer.Verdict is Verdict.NotAllowed or Verdict.Leave, $"{work} is {answer.Verdict}");
        Assert.True(reason is null || answer.Reasons.Any(one => one.Id == reason), $"{work}: {string.Join(' ', answer.Reasons.Select(one => one.Id))}");
    }

    private static (Verdict Verdict, IReadOnlyList<Reason> Reasons) Part(IReadOnlyList<TechniqueAdvice> advice, string work)
    {
        if (work.Split('/') is not [var technique, var mode])
            return (advice.Advice(work).Verdict, advice.Advice(work).Reasons);
        var part = advice.Advice(technique).Parts.Single(one => one.Mode == mode);
        return (part.Verdict, part.Reasons);
    }

    private static string Told(IReadOnlyList<TechniqueAdvice> advice, string work) =>
        $"{advice.Advice(work).Verdict} {string.Join(' ', advice.Advice(work).Reasons.Select(reason => reason.Id))}";
}
