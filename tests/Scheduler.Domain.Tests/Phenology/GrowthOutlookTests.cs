using CsCheck;
using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Tests.Phenology.Support;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Tests.Phenology;

public sealed partial class GrowthOutlookTests
{
    private static readonly LocalDate First = new(1988, 6, 1);
    private static readonly LocalDate Today = new(2020, 3, 1);
    private static readonly SeasonEnsemble Season = Build(MadeWeather.Temperate, Today);

    [Fact]
    public void Band_AnySpeciesAndCode_EarlyLikelyLateInOrder()
    {
        foreach (var made in new[] { MadeWeather.Temperate, MadeWeather.MildWinter, MadeWeather.Equator, MadeWeather.Temperate with { MeanC = 3 } })
        {
            var season = Build(made, Today);
            foreach (var species in Plants.All)
            {
                var outlook = Plants.Outlook(species, season);
                foreach (var band in GrowthScale.Codes.Prepend(0).Select(outlook.Band).Where(band => band.IsExpected))
                {
                    Assert.True(band.Early <= band.Likely);
                    Assert.False(band.Late < band.Likely);
                }
            }
        }
    }

    [Fact]
    public void Band_CatalogOnly_AtLeastEightDaysEitherSide()
    {
        var whole = SeasonEnsemble.Build(
            MadeWeather.Temperate.Site(First, new LocalDate(2019, 12, 31), new LocalDate(2020, 1, 1)), new GrowthYear(2019, Hemisphere.North));
        var outlook = Plants.Outlook(Plants.Maple, whole);

        Assert.All(new[] { 3, 7, 11, 60 }, code =>
        {
            var band = outlook.Band(code);
            Assert.True(Period.DaysBetween(band.Early!.Value, band.Likely!.Value) >= 8);
            Assert.True(Period.DaysBetween(band.Likely!.Value, band.Late!.Value) >= 8);
        });
    }

    [Fact]
    public void Band_WarmerFromFebruary_BudBreakAndFirstLeafEarlierByDays()
    {
        var today = new LocalDate(2020, 2, 20);
        LocalDate from = new(2020, 2, 1), to = new(2020, 6, 30);
        var plain = Plants.Outlook(Plants.Maple, Build(MadeWeather.Temperate, today, warmerC: 0, from, to));
        var warm = Plants.Outlook(Plants.Maple, Build(MadeWeather.Temperate, today, warmerC: 3, from, to));

        Assert.All(new[] { 7, 11 }, code =>
            Assert.InRange(Period.DaysBetween(warm.Band(code).Likely!.Value, plain.Band(code).Likely!.Value), 3, 30));
    }

    [Fact]
    public void Band_Seen_IsThatDay()
    {
        var seen = new LocalDate(2020, 4, 1);
        var outlook = Plants.Outlook(Plants.Maple, Season, new SeenPhase(7, seen));

        Assert.Equal(DateBand.On(seen), outlook.Band(7));
        Assert.All(Enumerable.Range(0, outlook.DrawCount), draw => Assert.Equal(Season.Year.DayOf(seen), outlook.DayOf(draw, 7)));
        Assert.Equal(seen, outlook.SeenOn(7));
        Assert.True(outlook.HasPassed(7) && outlook.HasPassed(3) && !outlook.HasPassed(9));
    }

    [Fact]
    public void Band_SeenEarlyOrLate_LaterCodesFollow()
    {
        var plain = Plants.Outlook(Plants.Maple, Season);
        var budBreak = plain.Band(7).Likely!.Value;
        var early = Plants.Outlook(Plants.Maple, Season, new SeenPhase(7, budBreak.PlusDays(-12)));
        var late = Plants.Outlook(Plants.Maple, Season, new SeenPhase(7, budBreak.PlusDays(12)));

        Assert.All(new[] { 9, 10, 11, 12, 31, 39, 91 }, code =>
        {
            Assert.True(early.Band(code).Likely < plain.Band(code).Likely, $"code {code} seen early");
            Assert.True(late.Band(code).Likely > plain.Band(code).Likely, $"code {code} seen late");
        });
        // Another track, and what came before, keep clear of it.
        Assert.Equal(plain.Band(60), early.Band(60));
        Assert.Equal(plain.Band(95), late.Band(95));
        Assert.True(early.Band(3).Late <= budBreak.PlusDays(-12));
    }

    [Fact]
    public void Band_SeenWhereForecast_LaterCodesHardlyMove()
    {
        var plain = Plants.Outlook(Plants.Maple, Season);
        var seen = Plants.Outlook(Plants.Maple, Season, new SeenPhase(7, plain.Band(7).Likely!.Value));

        Assert.All(new[] { 9, 11, 12, 39 }, code =>
        {
            Assert.InRange(Math.Abs(Period.DaysBetween(plain.Band(code).Likely!.Value, seen.Band(code).Likely!.Value)), 0, 2);
            Assert.True(Width(seen.Band(code)) < Width(plain.Band(code)));
        });
    }

    [Fact]
    public void Band_SeenMidway_LeafAndShootCodesCountOnFromIt()
    {
        var seen = new SeenPhase(12, new LocalDate(2020, 4, 25));
        var outlook = Plants.Outlook(Plants.Maple, Season, seen);

        Assert.True(outlook.Band(14).Early >= seen.Date);
        Assert.True(outlook.Band(11).Late <= seen.Date);
        // 31 needs 25 C*d after first leaf, 12 needs 50: it lies before.
        Assert.True(outlook.Band(31).Late <= seen.Date);
        Assert.True(outlook.Band(35).Early >= seen.Date);
    }

    [Fact]
    public void SeenOn_CodeInBetween_CountsAsTheLowerOne()
    {
        var outlook = Plants.Outlook(Plants.Maple, Season, new SeenPhase(8, new LocalDate(2020, 4, 3)), new SeenPhase(8, new LocalDate(2020, 4, 5)));

        Assert.Equal(new LocalDate(2020, 4, 3), outlook.SeenOn(7));
    }

    [Fact]
    public void SeenOn_ContradictingDates_NothingIsLaterThanItsSuccessor()
    {
        var outlook = Plants.Outlook(Plants.Maple, Season, new SeenPhase(11, new LocalDate(2020, 4, 10)), new SeenPhase(7, new LocalDate(2020, 4, 20)));

        Assert.Equal(new LocalDate(2020, 4, 10), outlook.SeenOn(7));
        Assert.Equal(11, outlook.LastSeen(flowers: false)!.Bbch);
        Assert.Null(outlook.LastSeen(flowers: true));
    }

    [Fact]
    public void Band_StillDormant_NothingStartsBefore()
    {
        var plain = Plants.Outlook(Plants.Maple, Season);
        var closed = plain.Band(7).Likely!.Value.PlusDays(10);
        var outlook = Plants.Outlook(Plants.Maple, Season, new SeenPhase(0, closed));

        Assert.All(new[] { 1, 7, 11, 60 }, code => Assert.True(outlook.Band(code).Early >= closed));
    }

    // A clock that ran ahead must not have everything open on the day after the look.
    [Fact]
    public void Band_StillDormantAfterTheClockExpectedLeaves_GrowthIsStillToCome()
    {
        var plain = Plants.Outlook(Plants.BlackPine, Season);
        var closed = plain.Band(60).Late!.Value.PlusDays(1);
        Assert.True(plain.Band(7).Late < closed);
        var outlook = Plants.Outlook(Plants.BlackPine, Season, new SeenPhase(0, closed.PlusDays(-20)), new SeenPhase(0, closed));

        var (budBreak, bloom) = (outlook.Band(7), outlook.Band(60));
        Assert.True(budBreak.Early > closed.PlusDays(1), $"{closed}: {budBreak}");
        Assert.True(bloom.Early > budBreak.Likely, $"{budBreak}, {bloom}");
        Assert.True(outlook.Band(31).Early > budBreak.Early);
        // Seen open since, the look says nothing more.
        var open = Plants.Outlook(Plants.BlackPine, Season, new SeenPhase(0, closed), new SeenPhase(7, closed.PlusDays(2)));
        Assert.Equal(DateBand.On(closed.PlusDays(2)), open.Band(7));
    }

    [Fact]
    public void SeenOn_DecemberBelongsToTheRightYear()
    {
        SeenPhase[] seen =
        [
            new SeenPhase(97, new LocalDate(2019, 12, 5)),
            new SeenPhase(1, new LocalDate(2019, 12, 20)),
            new SeenPhase(11, new LocalDate(2019, 4, 20)),
        ];
        var now = Plants.Outlook(Plants.Maple, Season, seen);

        Assert.Equal((null, new LocalDate(2019, 12, 20), null), (now.SeenOn(97), now.SeenOn(1), now.SeenOn(11)));
    }

    [Fact]
    public void Band_LeafFallSeenToBegin_EndsTwentyDaysLater()
    {
        var outlook = Plants.Outlook(Plants.Maple, Season, new SeenPhase(93, new LocalDate(2020, 11, 20)));

        // Twice ten days; the error of a step is 4 days, of which fifths have means of -1.4 and 1.4: 5.6 to either side.
        Assert.Equal(new DateBand(new LocalDate(2020, 12, 4), new LocalDate(2020, 12, 10), new LocalDate(2020, 12, 15)), outlook.Band(97));
    }

    [Fact]
    public void Band_AnythingSeen_KeepsTheOrderOfItsTrack()
    {
        int[] track = [1, 3, 7, 9, 10, 11, 12, 13, 14, 15];
        Gen.Select(Gen.Int[0, 9].Select(index => track[index]), Gen.Int[-30, 120]).Array[0, 3].Sample(seen =>
        {
            var first = new LocalDate(2020, 2, 1);
            var outlook = Plants.Outlook(Plants.Maple, Season, [.. seen.Select(one => new SeenPhase(one.Item1, first.PlusDays(one.Item2)))]);
            for (var draw = 0; draw < outlook.DrawCount; draw += 7)
            {
                var days = track.Select(code => outlook.DayOf(draw, code)).ToList();
                if (days.Zip(days.Skip(1)).Any(pair => pair.Second < Math.Floor(pair.First)))
                    return false;
            }
            return track.Select(outlook.Band).All(band => !band.IsExpected || (band.Early <= band.Likely && !(band.Late < band.Likely)));
        }, iter: 60);
    }

    [Fact]
    public void Band_NoWeather_NotExpected()
    {
        var season = SeasonEnsemble.Build(new SiteWeather(40, Today, TemperatureSeries.Empty), new GrowthYear(2020, Hemisphere.North));
        var outlook = Plants.Outlook(Plants.Maple, season, new SeenPhase(7, new LocalDate(2020, 4, 1)));

        Assert.Equal(0, outlook.DrawCount);
        Assert.Equal(DateBand.NotExpected, outlook.Band(11));
        Assert.Equal(DateBand.On(new LocalDate(2020, 4, 1)), outlook.Band(7));
    }

    private static SeasonEnsemble Build(MadeWeather made, LocalDate today, double warmerC = 0, LocalDate? from = null, LocalDate? to = null)
    {
        var days = made.Days(First, to ?? today.PlusDays(14));
        if (from is { } start)
            days = days.OverlaidWith(days.Slice(start, days.End).ShiftedBy(warmerC));
        var site = new SiteWeather(made.Latitude, today, days);
        return SeasonEnsemble.Build(site, site.CurrentYear);
    }

    private static int Width(DateBand band) => Period.DaysBetween(band.Early!.Value, band.Late!.Value);
}
