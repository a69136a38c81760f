using CsCheck;
using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;
using Scheduler.Service.Tests.Catalog;

namespace Scheduler.Service.Tests.Rules;

/// <summary>Rules that hold whatever the tree, the day, the log and the weather are.</summary>
public class NeverTests
{
    private static readonly string[] LeafWork = ["outer-leaf-removal", "leaf-thinning", "partial-defoliation", "full-defoliation"];

    private static readonly string[] TipAndLeafWork =
    [
        "tip-pinch", "cut-back", "early-clip", "flower-side-tips", "pre-push-defoliation", "decandling", "candle-pinch", "conifer-tips", .. LeafWork
    ];

    // Care takes nothing out of a tree: weak trees need it too, and a look at the water is no window.
    private static readonly string[] Care = ["feeding", "frost-protection", "heat-shade", "watering", "winter-storage", "scouting"];

    private static readonly string[] Logged =
    [
        "tip-pinch", "cut-back", "early-clip", "leaf-thinning", "pre-push-defoliation", "decandling", "outline-trim", "repotting",
        "full-defoliation", "partial-defoliation", "outer-leaf-removal", "flower-fruit-removal", "feeding", "candle-pinch", "needle-plucking"
    ];

    private static readonly Gen<Situation> Situations =
        from species in OneOf([.. ShippedCatalog.Content.Species.Keys.Order(StringComparer.Ordinal)])
        from stage in Gen.Enum<TreeStage>()
        from goals in Gen.Enum<Goal>().Array[1, 2]
        from health in Gen.Enum<Health>()
        from size in Gen.Enum<TreeSize>()
        from placement in Gen.Enum<Placement>()
        from day in Gen.Int[0, 364]
        from south in Gen.Bool
        from work in Gen.Select(OneOf(Logged), Gen.Int[0, 700], Gen.Enum<Extent>()).Array[0, 5]
        from seen in Gen.Select(Gen.Int[0, 99], Gen.Int[0, 10], Gen.Int[0, 3], Gen.Bool, Gen.Bool, Gen.Int[0, 60]).Array[0, 3]
        from nights in Gen.Double[-12, 15].Array[1, 10]
        from maxima in Gen.Double[15, 40].Array[1, 10]
        select new Situation(species, stage, goals, health, size, placement, day, south, work, seen, nights, maxima);

    [Fact]
    public void BuildingStages_AreNeverPinched() => Check((facts, advice, windows) =>
    {
        if (facts.Tree.Stage > TreeStage.BranchBuilding)
            return;
        Assert.Equal(Verdict.NotAllowed, advice.Advice("tip-pinch").Verdict);
        Assert.DoesNotContain(windows.Windows, window => window.Key.Technique == "tip-pinch" && window.State != WindowState.Done);
    });

    [Fact]
    public void WeakTrees_GetNoTipNorLeafWork() => Check((facts, advice, windows) =>
    {
        if (facts.Tree.Health > Health.Weak && !facts.Tree.Goals.Contains(Goal.Recover))
            return;
        Assert.All(TipAndLeafWork, technique => Assert.Contains(advice.Advice(technique).Verdict, new[] { Verdict.NotAllowed, Verdict.Leave }));
        Assert.DoesNotContain(windows.Windows, window => !IsReliefOrCare(window.Key) && window.State is not WindowState.Done);
    });

    // What takes a load off is for weak trees too.
    private static bool IsReliefOrCare(WindowKey key) =>
        Care.Contains(key.Technique) || Trees.Craft.Find(key.Technique)!.Modes.First(mode => mode.Id == key.Mode).Relieves;

    [Fact]
    public void ExcludedJobs_AreNeverAdvisedTogether() => Check((facts, advice, _) =>
    {
        var now = advice.Where(one => one.Verdict == Verdict.DoNow).Select(one => one.Technique).ToHashSet();
        var roots = advice.Advice("repotting").Parts.Any(part => part.Verdict == Verdict.DoNow && part.Mode != "light");
        Assert.False(roots && TipAndLeafWork.Any(technique => technique != "flower-side-tips" && now.Contains(technique)));
        Assert.False(now.Contains("tip-pinch") && now.Contains("leaf-thinning"));
        var year = facts.Current.Year;
        if (facts.Work.Any(work => work.Technique == "repotting" && year.Contains(work.Date) && work.Extent is Extent.Normal or Extent.Hard or null))
            Assert.DoesNotContain(now, technique => technique != "flower-side-tips" && TipAndLeafWork.Contains(technique));
    });

    [Fact]
    public void HeavyJobs_AreNeverAdvisedTogether() => Check((_, advice, _) =>
    {
        // Bends have a rest of their own from root work.
        var heavy = advice.Where(one => one.Technique != "wiring" && LoadToday(one) == 3).Select(one => one.Technique).ToList();
        Assert.True(heavy.Count <= 1, string.Join(", ", heavy));
    });

    private static int LoadToday(TechniqueAdvice one)
    {
        var technique = Trees.Craft.Find(one.Technique)!;
        return one.Verdict != Verdict.DoNow ? 0 : technique.Modes
            .Where(mode => !mode.Relieves && (mode.Id is null || one.Parts.Any(part => part.Mode == mode.Id && part.Verdict == Verdict.DoNow)))
            .Select(mode => (mode.Load ?? technique.Load).Whole).DefaultIfEmpty().Max();
    }

    [Fact]
    public void LeafJobs_AreDoneOneAtATime() => Check((facts, advice, _) =>
    {
        var now = LeafWork.Where(job => advice.Advice(job).Verdict == Verdict.DoNow).ToList();
        Assert.True(now.Count <= 1, string.Join(", ", now));
        var isConifer = Trees.Craft.Groups[facts.Species.Group].Conifer;
        Assert.All(LeafWork, job => Assert.False(isConifer && advice.Advice(job).Verdict != Verdict.NotAllowed, job));
    });

    [Fact]
    public void RegrowthThatCannotHarden_IsNeverAskedFor() => Check((facts, advice, _) =>
    {
        if (facts.Tree.Placement == Placement.Indoors || facts.Current.Season.Frost.AverageDay is not { } frost)
            return;
        var left = Math.Floor(frost) - facts.Current.TodayDay;
        foreach (var (technique, days) in new[] { ("cut-back", 60), ("early-clip", 60), ("tip-pinch", 45), ("leaf-thinning", 45), ("outer-leaf-removal", 45), ("partial-defoliation", 60), ("full-defoliation", 90), ("decandling", 80) })
            Assert.False(left < days && advice.Advice(technique).Verdict == Verdict.DoNow, $"{technique} {left} days before frost");
    });

    [Fact]
    public void EveryAnswer_HasAReasonAndEveryWindowItsTexts() => Check((_, advice, windows) =>
    {
        Assert.Equal(Trees.Craft.Techniques.Count, advice.Select(one => one.Technique).Distinct().Count());
        Assert.Equal(Trees.Craft.Techniques.Count, advice.Count);
        Assert.All(advice, one => Assert.NotEmpty(one.Reasons));
        Assert.All(windows.Refusals, refusal => Assert.NotEmpty(refusal.Reasons));
        Assert.Equal(windows.Windows.Count, windows.Windows.Select(window => window.Key).Distinct().Count());
        Assert.All(windows.Windows, window =>
        {
            Assert.NotEmpty(window.Title);
            Assert.NotEmpty(window.Amount);
            Assert.NotEmpty(window.Reasons);
            Assert.True(window.Opens.Likely <= window.Closes.Likely, $"{window.Key} opens {window.Opens} closes {window.Closes}");
        });
        foreach (var one in advice.Where(one => one.Verdict == Verdict.DoNow && !Care.Contains(one.Technique)))
            Assert.Contains(windows.Windows, window => window.Key.Technique == one.Technique && window.State == WindowState.Open);
    });

    [Fact]
    public void Answers_AreTheSameEachTime() => Situations.Sample(situation =>
    {
        var (facts, garden) = situation.Build();
        var (again, gardenAgain) = situation.Build();
        Assert.Equal(
            Reading.Canonical(Shape(facts, garden)),
            Reading.Canonical(Shape(again, gardenAgain)));
    }, iter: 60, threads: 1);

    private static Gen<string> OneOf(string[] values) => Gen.Int[0, values.Length - 1].Select(index => values[index]);

    private static object Shape(TreeFacts facts, GardenFacts garden) => new
    {
        Advice = Advisor.Advise(Trees.Craft, facts, garden).Select(one => $"{one.Technique} {one.Verdict} {one.Opens?.Words}").ToArray(),
        Windows = WindowFinder.Find(Trees.Craft, facts, garden).Windows.Select(window => $"{window.Key} {window.Opens} {window.Closes} {window.State}").ToArray()
    };

    private static void Check(Action<TreeFacts, IReadOnlyList<TechniqueAdvice>, WindowSet> holds) => Situations.Sample(situation =>
    {
        var (facts, garden) = situation.Build();
        holds(facts, Advisor.Advise(Trees.Craft, facts, garden), WindowFinder.Find(Trees.Craft, facts, garden));
    }, iter: 300, threads: 1);

    /// <summary>A tree, a day and a weather drawn at random.</summary>
    private sealed record Situation(
        string Species, TreeStage Stage, Goal[] Goals, Health Health, TreeSize Size, Placement Placement, int Day, bool South,
        (string Technique, int DaysAgo, Extent Extent)[] Work, (int Bbch, int Leaves, int Density, bool Hardened, bool Firm, int DaysAgo)[] Seen,
        double[] Nights, double[] Maxima)
    {
        private static readonly Dictionary<(int, bool), (SeasonEnsemble Current, SeasonEnsemble Next)> Seasons = [];

        public (TreeFacts, GardenFacts) Build()
        {
            var season = new MadeSeason { Latitude = South ? -43 : 47, Today = new LocalDate(2025, 1, 1).PlusDays(Day), DaysToFrost = FrostAhead, WarmDays = WarmFor, HeatBeforeCd = 9, HeatAfterCd = 9 };
            var (current, next) = SeasonsOf(season);
            var tree = Trees.Tree(Species, Stage, Goals) with { Health = Health, Size = Size, Placement = Placement };
            var facts = Trees.Facts(tree, current, next,
                [.. Work.Select(work => Trees.Work(work.Technique, season.Today.PlusDays(-work.DaysAgo)) with { Extent = work.Technique == "repotting" ? work.Extent : null })],
                [.. Seen.Select(seen => Trees.Seen(season.Today.PlusDays(-seen.DaysAgo)) with
                {
                    Bbch = seen.Bbch, LeafCount = seen.Leaves, Density = seen.Density, Hardened = seen.Hardened ? true : null, BaseFirm = seen.Firm, FlowerBuds = "certain"
                })]);
            return (facts, Trees.Garden(season, Nights, Maxima) with { RoomMinC = 18 });
        }

        // Warm from the middle of April to the middle of October, or half a year later in the south.
        private int DayOfWarmYear => (Day + (South ? 182 : 0) + 365 - 105) % 365;

        private int FrostAhead => DayOfWarmYear < 185 ? 185 - DayOfWarmYear : 185 + 365 - DayOfWarmYear;

        private int WarmFor => DayOfWarmYear < 185 ? DayOfWarmYear : 0;

        private static (SeasonEnsemble, SeasonEnsemble) SeasonsOf(MadeSeason season)
        {
            lock (Seasons)
            {
                var key = (Period.DaysBetween(new LocalDate(2025, 1, 1), season.Today), season.Latitude < 0);
                if (Seasons.TryGetValue(key, out var known))
                    return known;
                var site = season.Site();
                return Seasons[key] = (SeasonEnsemble.Build(site, site.CurrentYear), SeasonEnsemble.Build(site, site.CurrentYear.Next));
            }
        }
    }
}
