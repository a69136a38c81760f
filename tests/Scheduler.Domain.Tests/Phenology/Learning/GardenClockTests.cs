using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Tests.Phenology.Support;
using Scheduler.Domain.Weather;
using Xunit.Abstractions;

namespace Scheduler.Domain.Tests.Phenology.Learning;

public sealed partial class GardenClockTests(ITestOutputHelper output)
{
    private static readonly LocalDate First = new(1990, 7, 1);
    private static readonly LocalDate Today = new(2020, 1, 15);
    private static readonly SeasonEnsemble Season = Build(MadeWeather.Temperate, First);

    [Fact]
    public void Of_NothingSeen_IsTheCatalogInThisSitesPastYears()
    {
        var clock = GardenClock.OfCatalog(new SiteSprings(Season), Plants.Rules, Plants.Clock).Of(Plants.Maple);
        var usual = Season.Normals.Select(year => Math.Floor(GrowthClock.DayFromHeatStart(clock.Scale, Season.Year, year, 105, 1))).Average();

        Assert.Equal(usual, clock.Of(7)!.UsualDay, 9);
        Assert.Equal((0, 0), clock.Springs);
        // With those thresholds the past years give that date back on the mean.
        Assert.Equal(usual, clock.Of(7)!.DaysIn(Season.NormalCourses).Average() - 0.5, 1.0);
    }

    [Fact]
    public void Of_FewSpringsMoveLittleManyMuch()
    {
        var shifts = new[] { 1, 2, 4, 12 }.Select(springs => Shift(springs, lateDays: 12)).ToList();

        output.WriteLine("days moved by 1, 2, 4, 12 springs seen 12 days late: " + string.Join(", ", shifts.Select(shift => shift.ToString("F1", null))));
        Assert.InRange(shifts[0], 3, 11);
        Assert.All(shifts.Zip(shifts.Skip(1)), pair => Assert.True(pair.Second >= pair.First - 0.5, string.Join(", ", shifts)));
        Assert.InRange(shifts[3], 10, 13);
    }

    [Fact]
    public void Of_OneImpossibleDate_HardlyMovesTheClock()
    {
        var moved = Shift(1, lateDays: 75);

        Assert.InRange(moved, 0, 6);
    }

    [Fact]
    public void Of_ManySpringsFarFromTheCatalog_AreBelieved() => Assert.InRange(Shift(8, lateDays: 45), 38, 48);

    [Fact]
    public void Of_OneVeryLateVisitAmongMany_IsWeighedDown()
    {
        var seen = Springs(Plants.Maple, 7, 7, lateDays: 0);
        var plain = Learned(seen).Of(Plants.Maple).Of(7)!;
        seen[3] = seen[3] with { Date = seen[3].Date.PlusDays(35) };
        var late = Learned(seen).Of(Plants.Maple).Of(7)!;

        Assert.InRange(Usual(late) - Usual(plain), -1, 2);
    }

    [Fact]
    public void Of_MoreSprings_ErrorShrinks()
    {
        var errors = new[] { 0, 1, 3, 8 }.Select(count => Learned(Springs(Plants.Maple, 7, count, 4)).Of(Plants.Maple).Of(7)!.ErrorDays).ToList();

        Assert.All(errors.Zip(errors.Skip(1)), pair => Assert.True(pair.Second < pair.First, string.Join(", ", errors)));
    }

    [Fact]
    public void Of_OneCodeSeen_OthersOfItsTrackFollowAndTheOtherTrackStays()
    {
        LocalClock plain = Learned([]).Of(Plants.Maple), learned = Learned(Springs(Plants.Maple, 7, 6, lateDays: 10)).Of(Plants.Maple);

        // Ten days of the earlier code are as many of the later one, give or take what the weather between them does.
        Assert.InRange(Usual(learned.Of(11)!) - Usual(plain.Of(11)!), 6, 14);
        Assert.True(learned.Of(11)!.ErrorDays < plain.Of(11)!.ErrorDays);
        Assert.Equal(plain.Of(65)!.Shapes, learned.Of(65)!.Shapes);
        Assert.Equal((6, 0), learned.Springs);
    }

    [Fact]
    public void Of_RelativeSeen_IsDrawnPartOfTheWay()
    {
        var trident = Plants.Maple with { Id = "acer-buergerianum", BotanicalName = "Acer buergerianum" };
        var springs = Springs(Plants.Maple, 7, 8, lateDays: 12);
        var shift = Usual(Learned(springs).Of(trident).Of(7)!) - Usual(Learned([]).Of(trident).Of(7)!);

        Assert.InRange(shift, 2, 10);
        Assert.Equal(Learned([]).Of(Plants.Cherry).Of(7)!.Shapes, Learned(springs).Of(Plants.Cherry).Of(7)!.Shapes);
    }

    [Fact]
    public void Of_ThisSpringAndLaterOnes_NeverTeach()
    {
        var springs = Springs(Plants.Maple, 7, 4, lateDays: 6);
        var more = springs.Append(new SeenPhase(7, new LocalDate(2020, 1, 10)));

        Assert.Equal(Learned(springs).Of(Plants.Maple).Of(7)!.Shapes, Learned(more).Of(Plants.Maple).Of(7)!.Shapes);
    }

    [Fact]
    public void Of_SpringWithoutItsWinter_TeachesNothing()
    {
        var season = Build(MadeWeather.Temperate, new LocalDate(2018, 1, 1));

        Assert.Equal((0, 0), Plants.LearnedClock(season, (Plants.Maple, [new SeenPhase(7, new LocalDate(2018, 4, 1))])).Of(Plants.Maple).Springs);
    }

    [Fact]
    public void Of_SeenToComeUnderLittleChill_IsExpectedAgain()
    {
        var season = Build(MadeWeather.Equator with { AmplitudeC = 6, MeanC = 20, Latitude = 25 }, First);
        Assert.False(Plants.Outlook(Plants.Maple, season).Band(7).IsExpected);
        var springs = Enumerable.Range(2012, 6).Select(year => new SeenPhase(7, new LocalDate(year, 3, 10)));

        Assert.True(Plants.Learned(Plants.Maple, season, springs).Band(7).IsExpected);
    }

    [Fact]
    public void TellsLittle_MildWinter_WiderThanWhereWintersAreCold()
    {
        var mild = GardenClock.OfCatalog(new SiteSprings(Build(MadeWeather.MildWinter with { MeanC = 19 }, First)), Plants.Rules, Plants.Clock).Of(Plants.Olive);
        var cold = Learned([]).Of(Plants.Olive);

        Assert.True(mild.TellsLittle(7));
        Assert.False(cold.TellsLittle(7));
        Assert.True(mild.Of(7)!.ErrorDays > cold.Of(7)!.ErrorDays);
    }

    [Fact]
    public void DoubtfulDate_FarOff_IsQuestionedAndOthersAreNot()
    {
        var clock = Learned(Springs(Plants.Maple, 7, 8, lateDays: 0)).Of(Plants.Maple);
        var site = new SiteSprings(Season);
        var real = Springs(Plants.Maple, 7, 12, lateDays: 0)[0].Date;

        Assert.Null(DoubtfulDate.Of(clock, site, 7, real.PlusDays(5)));
        var late = DoubtfulDate.Of(clock, site, 7, real.PlusDays(50))!;
        Assert.InRange(Period.DaysBetween(real, late.Expected), -4, 4);
        Assert.True(late.Spreads > 4);
        Assert.True(DoubtfulDate.Of(clock, site, 7, new LocalDate(real.Year, 1, 3))!.Spreads < -4);
        Assert.Null(DoubtfulDate.Of(clock, site, 95, new LocalDate(real.Year, 1, 3)));
    }

    // Maple seen in two springs that were late on everything: beech, known for twelve springs, tells that those two were odd.
    [Fact]
    public void Of_FewSpringsThatWereLateOnAllPlants_MoveLessThanTheyWouldAlone()
    {
        var maple = Springs(Plants.Maple, 7, 2, lateDays: 10);
        var beech = Springs(Plants.Beech, 7, 12, lateDays: 0);
        var lateBeech = beech.Select((seen, index) => index < 2 ? seen with { Date = seen.Date.PlusDays(10) } : seen).ToList();

        var steady = Plants.LearnedClock(Season, (Plants.Maple, maple), (Plants.Beech, beech)).Of(Plants.Maple).Of(7)!;
        var odd = Plants.LearnedClock(Season, (Plants.Maple, maple), (Plants.Beech, lateBeech)).Of(Plants.Maple).Of(7)!;

        output.WriteLine($"{Usual(steady) - Usual(odd):F1} d");
        Assert.InRange(Usual(steady) - Usual(odd), 1, 9);
    }

    // Dates that swing about the clock's own by more than its first guess of the error widen it; steady ones narrow it.
    [Fact]
    public void Of_ManySpringsThatFollowLoosely_AreLessSureThanSteadyOnes()
    {
        var steady = Springs(Plants.Maple, 7, 20, lateDays: 0);
        var loose = steady.Select((seen, index) => seen with { Date = seen.Date.PlusDays(index % 2 == 0 ? 12 : -12) }).ToList();

        Assert.True(Learned(loose).Of(Plants.Maple).Of(7)!.ErrorDays > 2 * Learned(steady).Of(Plants.Maple).Of(7)!.ErrorDays);
    }

    // In the springs that were seen themselves.
    private static double Shift(int springs, int lateDays) =>
        Learned(Springs(Plants.Maple, 7, springs, lateDays)).Of(Plants.Maple).Of(7)!.DaysIn(Season.NormalCourses).Take(springs).Average()
        - Learned([]).Of(Plants.Maple).Of(7)!.DaysIn(Season.NormalCourses).Take(springs).Average();

    private static double Usual(CodeClock code) => code.DaysIn(Season.NormalCourses).Where(double.IsFinite).Average();

    private static GardenClock Learned(IEnumerable<SeenPhase> maple) => Plants.LearnedClock(Season, (Plants.Maple, maple));

    // The last springs before 2020, each seen some days after the catalog's own date for that spring.
    private static List<SeenPhase> Springs(Species species, int bbch, int count, int lateDays)
    {
        var days = GardenClock.OfCatalog(new SiteSprings(Season), Plants.Rules, Plants.Clock).Of(species).Of(bbch)!.DaysIn(Season.NormalCourses);
        return [.. Enumerable.Range(0, count).Select(index =>
        {
            var year = new GrowthYear(Season.Normals[index].TraceYear, Hemisphere.North);
            return new SeenPhase(bbch, year.DateOf((int)days[index] + lateDays));
        })];
    }

    private static SeasonEnsemble Build(MadeWeather made, LocalDate from)
    {
        var site = made.Site(from, Today.PlusDays(10), Today);
        return SeasonEnsemble.Build(site, site.CurrentYear);
    }
}
