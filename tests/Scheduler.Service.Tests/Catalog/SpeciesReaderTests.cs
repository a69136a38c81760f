using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Phenology;

namespace Scheduler.Service.Tests.Catalog;

public class SpeciesReaderTests
{
    private static IReadOnlyDictionary<string, Species> All => ShippedCatalog.Content.Species;

    [Fact]
    public void Species_AllOfTheList_AreThere()
    {
        string[] ids =
        [
            "acer-buergerianum", "acer-campestre", "acer-palmatum", "betula-pendula", "buxus", "carpinus-betulus", "carpinus-turczaninowii",
            "chaenomeles", "chamaecyparis-obtusa", "cornus-kousa", "cornus-mas", "cotoneaster", "crataegus-monogyna", "euonymus", "fagus-crenata",
            "fagus-sylvatica", "ficus", "ginkgo-biloba", "juniperus-chinensis", "larix", "ligustrum", "malus", "olea-europaea", "picea",
            "pinus-parviflora", "pinus-sylvestris", "pinus-thunbergii", "portulacaria-afra", "prunus-cherry", "prunus-mume", "punica-granatum",
            "pyracantha", "quercus-robur", "quercus-suber", "rhododendron-indicum", "salix", "serissa-japonica", "syringa-vulgaris",
            "taxodium-distichum", "taxus", "tilia-cordata", "ulmus-minor", "ulmus-parvifolia", "ulmus-pumila", "wisteria", "zelkova-serrata"
        ];
        Assert.Equal(ids, All.Keys.Order(StringComparer.Ordinal));
    }

    // Starting values of the project's own species brief, table B. All are estimates; EE "none" is null here.
    [Theory]
    [InlineData("acer-palmatum", 60.0, 105.0, 150.0, 150.0, 400.0, 50.0, 40.0, "weak", Provenance.Estimate)]
    [InlineData("fagus-sylvatica", 70.0, 115.0, 140.0, 160.0, 330.0, null, 95.0, "strong", Provenance.Derived)]
    [InlineData("ulmus-parvifolia", 60.0, 110.0, 160.0, null, null, 22.0, 55.0, "none", Provenance.Derived)]
    [InlineData("prunus-cherry", 90.0, 150.0, 215.0, 185.0, 400.0, 28.0, 45.0, "none", Provenance.Derived)]
    [InlineData("malus", 35.0, 65.0, 90.0, 252.0, 400.0, 28.0, 45.0, "none", Provenance.Estimate)]
    [InlineData("rhododendron-indicum", 150.0, 240.0, 330.0, 850.0, 1300.0, 30.0, 30.0, "none", Provenance.Estimate)]
    [InlineData("larix", 25.0, 50.0, 75.0, 45.0, 900.0, null, 60.0, "weak", Provenance.Estimate)]
    [InlineData("juniperus-chinensis", null, 100.0, null, 60.0, 1500.0, null, 25.0, "weak", Provenance.Estimate)]
    [InlineData("ligustrum", 35.0, 60.0, 90.0, 620.0, null, 50.0, 10.0, "none", Provenance.Derived)]
    [InlineData("ficus", null, null, null, null, null, 60.0, 0.0, "none", Provenance.Estimate)]
    public void ThermalTimes_SpotChecks(string id, double? swell, double? burst, double? leaf, double? bloom, double? end,
        double? phyllochron, double chill, string dayLength, Provenance dayLengthFrom)
    {
        var times = All[id].ThermalTimes;
        Assert.Equal(swell, times.BudSwellCd?.Value);
        Assert.Equal(burst, times.BudBreakCd?.Value);
        Assert.Equal(leaf, times.FirstLeafCd?.Value);
        Assert.Equal(bloom, times.FirstBloomCd?.Value);
        Assert.Equal(end, times.ExtensionEndCd?.Value);
        Assert.Equal(phyllochron, times.PhyllochronCd?.Value);
        Assert.Equal(chill, times.ChillPortions.Value);
        Assert.Equal((dayLength, dayLengthFrom), (times.DayLengthEffect, times.DayLengthProvenance));
    }

    [Fact]
    public void ThermalTimes_OddCases()
    {
        Assert.Equal((330.0, null), (All["pinus-thunbergii"].ThermalTimes.NeedlesOutCd!.Value, All["pinus-thunbergii"].ThermalTimes.FirstLeafCd));
        Assert.Equal([12.0, 10.0, 8.0], new[] { "ficus", "portulacaria-afra", "serissa-japonica" }.Select(id => All[id].ThermalTimes.BaseC.Value));
        Assert.True(All["ulmus-parvifolia"].ThermalTimes.BloomFollowsDayLength);
        var beech = All["fagus-crenata"].ThermalTimes.PreformedLeaves!;
        Assert.Equal((5.0, 8.0), (beech.Low!.Value, beech.High!.Value));
    }

    // Species brief, table D: value, provenance and a word of the source where one is named there.
    [Theory]
    [InlineData("acer-palmatum", "5b", "8b", -26.0, -10.0, Provenance.FromMemory, "Havis", -2.5)]
    [InlineData("fagus-sylvatica", "5a", "7b", -29.0, -9.4, Provenance.Published, "Oregon State", -4.8)]
    [InlineData("buxus", "6a", "8b", -23.0, -9.4, Provenance.FromMemory, "Studer", -2.5)]
    [InlineData("ligustrum", "5b", "9b", -26.0, -15.0, Provenance.Published, "Oregon State", -3.0)]
    [InlineData("pyracantha", "6a", "9a", -26.0, -16.7, Provenance.Published, "Dirr", -3.0)]
    [InlineData("taxus", "5a", "7b", -29.0, -29.0, Provenance.Published, "Taxus cuspidata", -3.0)]
    [InlineData("prunus-cherry", "5b", "8b", -26.0, -9.0, Provenance.Estimate, null, -8.3)]
    [InlineData("olea-europaea", "8b", "10b", -9.0, -5.0, Provenance.Estimate, null, -2.3)]
    [InlineData("picea", "3a", "7a", -40.0, -22.8, Provenance.FromMemory, "Studer", -3.0)]
    [InlineData("ficus", "10b", "12b", 2.0, 2.0, Provenance.Estimate, null, 5.0)]
    public void Hardiness_SpotChecks(string id, string coldest, string warmest, double air, double root, Provenance rootFrom, string? source, double leaf)
    {
        var hardiness = All[id].Hardiness;
        Assert.Equal((coldest, warmest), (hardiness.ColdestZone, hardiness.WarmestZone));
        Assert.Equal((air, root, leaf), (hardiness.AirLowC.Value, hardiness.RootKillC.Value, hardiness.NewLeafDamageC.Value));
        Assert.Equal(rootFrom, hardiness.RootKillC.Provenance);
        Assert.Contains(source ?? "", hardiness.RootKillC.Source ?? "", StringComparison.Ordinal);
    }

    // Dirr and Smith 1988 as published, 20-25 °F and 22 °F, and -7 °C and -12.2 °C from memory (Havis, Studer).
    [Theory]
    [InlineData("buxus", -3.9)]
    [InlineData("pyracantha", -5.6)]
    [InlineData("euonymus", -7.0)]
    [InlineData("taxus", -12.2)]
    public void YoungRoots_DieEarlierThanMatureOnes(string id, double young)
    {
        Assert.Equal(young, All[id].Hardiness.YoungRootKillC!.Value);
        Assert.True(young > All[id].Hardiness.RootKillC.Value);
    }

    /// <summary>
    /// The bound comes from the definition of the zones (5 °F steps from -60 °F), the air figure was typed on its own. Its
    /// brief gives serissa -7 °C, the warm bound of 8b: the careful side.
    /// </summary>
    [Fact]
    public void AirLow_NotMeasured_IsTheLowerBoundOfTheColdestZone()
    {
        var measured = All.Values.Where(species => species.Hardiness.AirLowC.Provenance == Provenance.Published).Select(species => species.Id);
        Assert.Equal(["punica-granatum", "pyracantha"], measured.Order(StringComparer.Ordinal));
        Assert.All(All.Values.Where(species => species.Hardiness.AirLowC.Provenance == Provenance.FromMemory && species.Id != "serissa-japonica"), species =>
            Assert.Equal(HardinessZone.Parse(species.Hardiness.ColdestZone).LowC, species.Hardiness.AirLowC.Value, 0.6));
        Assert.Equal(-7, All["serissa-japonica"].Hardiness.AirLowC.Value);
    }

    // Common practice, no source.
    [Theory]
    [InlineData("acer-palmatum", "MPJ", "opposite bleeder shade-sensitive")]
    [InlineData("ulmus-minor", "DMF", "alternate")]
    [InlineData("carpinus-betulus", "DSF", "alternate bleeder shade-sensitive")]
    [InlineData("prunus-mume", "FOB", "alternate prunus")]
    [InlineData("rhododendron-indicum", "AZA", "alternate basally-dominant shade-sensitive")]
    [InlineData("pinus-thunbergii", "PN2", "spiral")]
    [InlineData("euonymus", "FSH", "opposite")]
    public void Group_AndAttributes(string id, string group, string attributes)
    {
        Assert.Equal(group, All[id].Group);
        Assert.Equal(attributes.Split(' ').Order(), All[id].Attributes.Order());
    }

    [Fact]
    public void Remarks_BeatTheGroup()
    {
        Assert.Equal(["leaf-thinning", "partial-defoliation", "full-defoliation", "tip-pinch"], All["ginkgo-biloba"].Remarks.Select(remark => remark.Technique));
        Assert.All(new[] { "betula-pendula", "carpinus-turczaninowii", "portulacaria-afra" },
            id => Assert.Equal(("full-defoliation", "off"), (All[id].Remarks.Single().Technique, All[id].Remarks.Single().Effect)));
        Assert.Equal(0.3, All["portulacaria-afra"].WaterFactor!.Value);
    }

    [Fact]
    public void Cautions_AreSentences_WithoutMedicalAdvice()
    {
        string[] poisonous = ["rhododendron-indicum", "buxus", "ligustrum", "wisteria", "taxus", "euonymus", "ficus", "prunus-mume"];
        Assert.All(poisonous, id => Assert.NotEmpty(All[id].Cautions));
        Assert.All(All.Values.SelectMany(species => species.Cautions), text =>
        {
            Assert.EndsWith(". Not medical advice.", text, StringComparison.Ordinal);
            Assert.True(char.IsUpper(text[0]));
        });
        Assert.All(new[] { "rhododendron-indicum", "buxus", "ligustrum", "wisteria", "taxus" },
            id => Assert.Equal(Provenance.Published, All[id].CautionsProvenance));
    }

    [Fact]
    public void Figures_Published_NameTheirSource()
    {
        var figures = All.Values.SelectMany(species => Figures(species.ThermalTimes).Concat(Figures(species.Hardiness))).ToList();
        Assert.True(figures.Count > 400, $"{figures.Count} figures");
        Assert.All(figures.Where(figure => figure.Provenance == Provenance.Published), figure => Assert.NotNull(figure.Source));
        Assert.All(All.Values.SelectMany(species => species.Notes).Where(note => note.Provenance is Provenance.Published or Provenance.Derived),
            note => Assert.NotNull(note.Source));
    }

    private static IEnumerable<Figure> Figures(object holder) =>
        holder.GetType().GetProperties().Select(property => property.GetValue(holder)).OfType<Figure>();
}
