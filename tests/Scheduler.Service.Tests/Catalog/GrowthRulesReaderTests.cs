using Scheduler.Domain.Phenology;

namespace Scheduler.Service.Tests.Catalog;

public class GrowthRulesReaderTests
{
    // Starting values chosen for this service; no source to check them against but the design they were agreed in.
    [Fact]
    public void Rules_AreTheAgreedStartingValues()
    {
        var rules = ShippedCatalog.Content.GrowthRules;
        Assert.Equal((0.6, 0.4, 0.75), (rules.SwellBeginsShare.Value, rules.LeafTipsShare.Value, rules.LeavesSeparateShare.Value));
        Assert.Equal((475.0, 400.0, 550.0), (rules.HardenedAfterLeavesCd.Value, rules.HardenedAfterLeavesCd.Low!.Value, rules.HardenedAfterLeavesCd.High!.Value));
        Assert.Equal((20.0, 50.0, 40.0, 110.0),
            (rules.PreformedLeafCd.Value, rules.FlowerBudsBeforeBloomCd.Value, rules.FullBloomAfterCd.Value, rules.PetalsDownAfterCd.Value));
        Assert.Equal((0.9, 0.3), (rules.ShortChillPenalty.Value, rules.LeastChillShare.Value));
        Assert.Equal((11.5, 9.0, 5.0), (rules.LeafFallDayLengthHours.Value, rules.LeafFallMeanC.Value, rules.EvergreenRestNightC.Value));
        Assert.Equal((0.3, 0.2, 0.12, 8.0),
            (rules.PriorSpread.Value, rules.TrackSpread.Value, rules.YearSpread.Value, rules.LeastHalfWidthDays.Value));
        Assert.Equal((26.0, 10.0, 9.0, 7.0), (rules.LeafColorBeforeHalfDays.Value, rules.LeafFallStepDays.Value, rules.AutumnSpreadDays.Value, rules.AutumnYearSpreadDays.Value));
        Assert.Equal((0.35, 0.5, 250.0), (rules.LeafStepSpread.Value, rules.LeafCountError.Value, rules.RegrowthLeavesCd.Value));
    }

    // What was worked out from records names them; everything else is an estimate and says so.
    [Fact]
    public void Rules_EachFigureSaysWhereItComesFrom()
    {
        var rules = ShippedCatalog.Content.GrowthRules;
        Figure[] derived = [rules.ShootHalfLengthShare, rules.LeafColorBeforeHalfDays, rules.AutumnSpreadDays, rules.AutumnYearSpreadDays, rules.AutumnStepSpreadDays, rules.AutumnDaysPerCoolingC];
        Assert.All(derived, figure => Assert.True(figure is { Provenance: Provenance.Derived, Source: not null }));
        Assert.All(typeof(GrowthRules).GetProperties().Select(property => property.GetValue(rules)).OfType<Figure>().Except(derived),
            figure => Assert.Equal(Provenance.Estimate, figure.Provenance));
    }

    [Fact]
    public void Rules_OutOfOrder_AreRefused()
    {
        using var copy = new CatalogCopy();
        copy.Change("growth.yaml", "value: 0.4\n", "value: 0.8\n");
        var fault = Assert.Single(copy.Faults());
        Assert.Equal(("growth.yaml", "leafTipsShare"), (fault.File, fault.Key));
    }
}
