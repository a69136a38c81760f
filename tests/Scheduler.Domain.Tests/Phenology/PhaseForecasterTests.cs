using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Tests.Phenology.Support;
using Xunit.Abstractions;

namespace Scheduler.Domain.Tests.Phenology;

public sealed class PhaseForecasterTests(ITestOutputHelper output)
{
    private static readonly LocalDate First = new(1988, 6, 1);

    [Fact]
    public void Forecast_TemperateSpring_EveryPhaseDatedInItsSeason()
    {
        foreach (var species in new[] { Plants.Maple, Plants.Cherry, Plants.Beech, Plants.Olive, Plants.BlackPine })
        {
            var forecast = Forecast(species, MadeWeather.Temperate, new LocalDate(2020, 3, 10));
            Print(forecast);
            foreach (var phase in forecast.Phases.Where(phase => phase.Phase.Bbch is 7 or 11))
                Assert.InRange(phase.Band.Likely!.Value, new LocalDate(2020, 3, 10), new LocalDate(2020, 6, 10));
            Assert.Equal(30, forecast.NormalYears.Count);
            Assert.InRange(forecast.ChillPortions, 30, 120);
        }
    }

    [ReferenceFact]
    public void Forecast_BostonTokyoAndSeoul_LooksPlausible()
    {
        foreach (var (dataset, site, latitude) in new[]
        {
            ("arnold_arboretum", "arnold_arboretum", 42.3),
            ("east_asia", "tokyo", 35.69),
            ("east_asia", "seoul", 37.571),
        })
        {
            var days = ReferencePhenology.Weather(dataset, site);
            var today = new LocalDate(days.End.Year - 1, 3, 15);
            var weather = new SiteWeather(latitude, today, days.Slice(days.Start, today.PlusDays(7)));
            var season = SeasonEnsemble.Build(weather, weather.CurrentYear);
            output.WriteLine($"{site}, {season.Normals.Count} past years");
            foreach (var species in Plants.All)
            {
                var forecast = PhaseForecaster.Forecast(Plants.Outlook(species, season), Plants.Outlook(species, season.AsNormal()));
                Print(forecast);
                Assert.All(forecast.Phases, phase => Assert.True(phase.Band.IsExpected || phase.Remark is not null));
            }
            var maple = Plants.Outlook(Plants.Maple, season);
            Assert.InRange(maple.Band(7).Likely!.Value, today.PlusDays(-20), today.PlusDays(60));
            Assert.InRange(maple.Band(95).Likely!.Value, new LocalDate(today.Year, 10, 10), new LocalDate(today.Year, 12, 15));
        }
    }

    [Fact]
    public void Forecast_Equator_NoBudBreakForWantOfChill()
    {
        foreach (var species in new[] { Plants.Maple, Plants.Cherry, Plants.Beech, Plants.BlackPine })
        {
            var budBreak = Phase(Forecast(species, MadeWeather.Equator, new LocalDate(2020, 3, 10)), GrowthPhase.BudBreak);

            Assert.Equal(DateBand.NotExpected, budBreak.Band);
            Assert.Contains("too little winter chill", budBreak.Remark, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Forecast_Fig_GrowsWheneverItIsWarm()
    {
        var forecast = Forecast(Plants.Fig, MadeWeather.Equator, new LocalDate(2020, 3, 10));

        Assert.All(forecast.Phases, phase =>
        {
            Assert.False(phase.Band.IsExpected);
            Assert.Contains("grows whenever it is warm", phase.Remark, StringComparison.Ordinal);
        });
        Assert.Null(forecast.DaysEarly);
    }

    [Fact]
    public void Forecast_ArcticSite_TooLittleWarmth()
    {
        var forecast = Forecast(Plants.Maple, MadeWeather.Temperate with { MeanC = -8, Latitude = 70 }, new LocalDate(2020, 3, 10));

        Assert.Contains("warmth", Phase(forecast, GrowthPhase.BudBreak).Remark, StringComparison.Ordinal);
    }

    [Fact]
    public void Forecast_Deciduous_LeavesColorBeforeTheyFall()
    {
        var forecast = Forecast(Plants.Maple, MadeWeather.Temperate, new LocalDate(2020, 3, 10));
        PhaseForecast color = Phase(forecast, GrowthPhase.LeafColor), fall = Phase(forecast, GrowthPhase.LeafFall);

        Assert.Equal((92, 93), (color.Phase.Bbch, fall.Phase.Bbch));
        // Half the leaves down less 26 days, and less 10: the distances of the test's own rules.
        Assert.Equal(Plants.Rules.LeafColorBeforeHalfDays.Value - Plants.Rules.LeafFallStepDays.Value, Period.DaysBetween(color.Band.Likely!.Value, fall.Band.Likely!.Value), 1.0);
        Assert.NotNull(color.Normal);
    }

    [Fact]
    public void Forecast_EvergreenBroadleaf_HasNoLeafFall()
    {
        var forecast = Forecast(Plants.Olive, MadeWeather.Temperate, new LocalDate(2020, 3, 10));

        Assert.DoesNotContain(forecast.Phases, phase => phase.Phase == GrowthPhase.LeafFall || phase.Phase == GrowthPhase.LeafColor);
        Assert.Contains(forecast.Phases, phase => phase.Phase == GrowthPhase.ShootsHardened);
    }

    [Fact]
    public void Forecast_NoPastYears_SaysSo()
    {
        var today = new LocalDate(2020, 3, 10);
        var site = MadeWeather.Temperate.Site(new LocalDate(2019, 9, 1), today.PlusDays(14), today);
        var season = SeasonEnsemble.Build(site, site.CurrentYear);
        var forecast = PhaseForecaster.Forecast(Plants.Outlook(Plants.Maple, season), Plants.Outlook(Plants.Maple, season.AsNormal()));

        Assert.All(forecast.Phases, phase => Assert.Equal((DateBand.NotExpected, "not enough past weather is known here yet"), (phase.Band, phase.Remark)));
        Assert.Empty(forecast.NormalYears);
        Assert.Null(forecast.NormalHeatCd);
    }

    [Fact]
    public void Forecast_TwoPastYears_SaysThatDatesAreRough()
    {
        var today = new LocalDate(2020, 3, 10);
        var site = MadeWeather.Temperate.Site(new LocalDate(2017, 9, 1), today.PlusDays(14), today);
        var season = SeasonEnsemble.Build(site, site.CurrentYear);
        var forecast = PhaseForecaster.Forecast(Plants.Outlook(Plants.Maple, season), null);

        Assert.Equal([2018, 2019], forecast.NormalYears);
        Assert.Equal("only 2 past years are known here: a rough date", Phase(forecast, GrowthPhase.BudBreak).Remark);
    }

    [Fact]
    public void Forecast_LateDatePassed_IsReachedOnTheLikelyDay()
    {
        var forecast = Forecast(Plants.Maple, MadeWeather.Temperate, new LocalDate(2020, 7, 1));
        var budBreak = Phase(forecast, GrowthPhase.BudBreak);

        Assert.NotNull(budBreak.ReachedOn);
        Assert.False(budBreak.Seen);
        Assert.Equal(DateBand.On(budBreak.ReachedOn.Value), budBreak.Band);
        Assert.Null(Phase(forecast, GrowthPhase.LeafFall).ReachedOn);
        Assert.Equal(2019, Phase(forecast, GrowthPhase.Dormant).ReachedOn!.Value.Year);
    }

    [Fact]
    public void Forecast_LaterCodeSeenToday_EarlierOnesAreReached()
    {
        var today = new LocalDate(2020, 4, 10);
        var forecast = Forecast(Plants.Maple, MadeWeather.Temperate, today, new SeenPhase(11, today));

        Assert.NotNull(Phase(forecast, GrowthPhase.BudBreak).ReachedOn);
        Assert.Equal((today, true), (Phase(forecast, GrowthPhase.FirstLeaf).ReachedOn, Phase(forecast, GrowthPhase.FirstLeaf).Seen));
    }

    [Fact]
    public void Forecast_WarmSpring_IsDaysEarly()
    {
        var today = new LocalDate(2020, 3, 20);
        var days = MadeWeather.Temperate.Days(First, today.PlusDays(14));
        var warm = days.OverlaidWith(days.Slice(new LocalDate(2020, 2, 1), days.End).ShiftedBy(4));
        var cold = days.OverlaidWith(days.Slice(new LocalDate(2020, 2, 1), days.End).ShiftedBy(-4));

        var early = Forecast(Plants.Maple, new SiteWeather(40, today, warm));
        var late = Forecast(Plants.Maple, new SiteWeather(40, today, cold));
        Assert.True(early.DaysEarly > 3 && early.HeatCd > early.NormalHeatCd);
        Assert.True(late.DaysEarly < -3 && late.HeatCd < late.NormalHeatCd);
    }

    private static SeasonForecast Forecast(Species species, MadeWeather made, LocalDate today, params SeenPhase[] seen) =>
        Forecast(species, made.Site(First, today.PlusDays(14), today), seen);

    private static SeasonForecast Forecast(Species species, SiteWeather site, params SeenPhase[] seen)
    {
        var season = SeasonEnsemble.Build(site, site.CurrentYear);
        return PhaseForecaster.Forecast(Plants.Outlook(species, season, seen), Plants.Outlook(species, season.AsNormal()));
    }

    private static PhaseForecast Phase(SeasonForecast forecast, GrowthPhase phase) => forecast.Phases.Single(one => one.Phase == phase);

    private void Print(SeasonForecast forecast)
    {
        output.WriteLine($"{forecast.SpeciesId} on {forecast.Date:R}: {forecast.HeatCd:F0} C*d (normal {forecast.NormalHeatCd:F0}), "
            + $"chill {forecast.ChillPortions:F0} of {forecast.ChillRequired:F0}, {forecast.DaysEarly} days early");
        foreach (var phase in forecast.Phases)
        {
            output.WriteLine($"  {phase.Phase.Id,-18} {phase.Band.Early:R} {phase.Band.Likely:R} {phase.Band.Late:R}  "
                + $"normal {phase.Normal:R}  {(phase.ReachedOn is null ? "" : "reached")} {phase.Remark}");
        }
    }
}
