using NodaTime;

namespace Scheduler.Service.Tests.Hindcast;

/// <summary>What an answer may not depend on.</summary>
public class HindcastLeakTests
{
    private static readonly LocalDate IssuedOn = new(2012, 3, 10);
    private const int Year = 2012;
    private static readonly string[] Asked =
        ["hill,Acer inventum,bud_break,2012,2012-03-10", "hill,Acer inventum,leaf_full,2012,2012-03-10", "hill,Prunus inventa,first_flowers,2012,2012-03-10", "hill,Acer novum,bud_break,2012,2012-03-10"];

    [Fact]
    public void WeatherAfterTheDayOfIssue_ChangesNothing()
    {
        using var bench = PastOnly();
        var told = Ask(bench);
        foreach (var date in bench.Days.Keys.Where(date => date > IssuedOn).ToList())
            bench.Days[date] = (20, 35);
        Assert.Equal(told, Ask(bench));

        foreach (var date in bench.Days.Keys.Where(date => date > IssuedOn).ToList())
            bench.Days.Remove(date);
        Assert.Equal(told, Ask(bench));
    }

    [Fact]
    public void WeatherBeforeTheDayOfIssue_DoesCount()
    {
        using var bench = PastOnly();
        var told = Ask(bench);
        foreach (var date in bench.Days.Keys.Where(date => date > IssuedOn.PlusDays(-20) && date <= IssuedOn).ToList())
            bench.Days[date] = (8, 18);

        Assert.NotEqual(told, Ask(bench));
    }

    [Theory]
    [InlineData(3)]
    [InlineData(25)]
    public void GapAcrossTheDayOfIssue_IsNotFilledFromBehindIt(int missingBefore)
    {
        using var bench = PastOnly();
        foreach (var date in bench.Days.Keys.Where(date => date > IssuedOn.PlusDays(-missingBefore) && date <= IssuedOn.PlusDays(3)).ToList())
            bench.Days[date] = null;
        var told = Ask(bench);
        foreach (var date in bench.Days.Keys.Where(date => date > IssuedOn.PlusDays(3)).ToList())
            bench.Days[date] = (25, 30);
        Assert.Equal(told, Ask(bench));

        foreach (var date in bench.Days.Keys.Where(date => date > IssuedOn.PlusDays(-missingBefore)).ToList())
            bench.Days.Remove(date);
        Assert.Equal(told, Ask(bench));
    }

    [Fact]
    public void LaterYearsWeather_TeachesOnlyWhereDatesOfItAreGiven()
    {
        using var bench = new HindcastBench();
        var told = Ask(bench);
        foreach (var date in bench.Days.Keys.Where(date => date > IssuedOn && date < new LocalDate(Year, 9, 1)).ToList())
            bench.Days[date] = (20, 35);

        Assert.Equal(told, Ask(bench));
    }

    [Theory]
    [InlineData("")]
    [InlineData("2012-03-10")]
    public void AskedObservation_ChangesNothing(string issuedOn)
    {
        using var bench = new HindcastBench();
        var asked = $"hill,Acer inventum,bud_break,{Year},{issuedOn}";
        var key = ("Acer inventum", "bud_break", Year);
        var told = bench.Ask(asked).Single();
        bench.Seen[key] = bench.Seen[key].PlusDays(-25);
        Assert.Equal(told, bench.Ask(asked).Single());

        bench.Seen.Remove(key);
        Assert.Equal(told, bench.Ask(asked).Single());
    }

    [Fact]
    public void EarlierPhaseSeenByTheDayOfIssue_SharpensAndALaterOneDoesNot()
    {
        using var bench = new HindcastBench();
        var bud = ("Acer inventum", "bud_break", Year);
        var seen = bench.Seen[bud];
        string Asked(int after) => $"hill,Acer inventum,leaf_full,{Year},{seen.PlusDays(after):uuuu-MM-dd}";
        var (before, after) = (bench.Ask(Asked(-3)).Single(), bench.Ask(Asked(3)).Single());

        bench.Seen[bud] = seen.PlusDays(-2);
        Assert.Equal(before, bench.Ask(Asked(-3)).Single());
        Assert.NotEqual(after, bench.Ask(Asked(3)).Single());

        bench.Seen.Remove(("Acer inventum", "leaf_full", Year));
        Assert.NotEmpty(bench.Ask(Asked(3)).Single()[5]);
    }

    [Fact]
    public void AskedEarlierPhase_DoesNotSharpenTheLaterOne()
    {
        using var bench = new HindcastBench();
        var asked = new[] { $"hill,Acer inventum,bud_break,{Year},", $"hill,Acer inventum,leaf_full,{Year}," };
        var told = bench.Ask(asked);
        bench.Seen[("Acer inventum", "bud_break", Year)] = bench.Seen[("Acer inventum", "bud_break", Year)].PlusDays(-12);

        Assert.Equal(told, bench.Ask(asked));
    }

    [Fact]
    public void Answer_ComesAfterTheDayOfIssue()
    {
        using var bench = new HindcastBench();
        var late = bench.Seen[("Prunus inventa", "first_flowers", Year)].PlusDays(25);

        var answer = bench.Ask($"hill,Prunus inventa,first_flowers,{Year},{late:uuuu-MM-dd}").Single();

        Assert.All(answer[5..], date => Assert.True(HindcastBench.Date(date) > late));
    }

    // Nothing seen from the asked season on, as when a forecast is really issued.
    private static HindcastBench PastOnly()
    {
        var bench = new HindcastBench();
        foreach (var key in bench.Seen.Keys.Where(key => key.Year >= Year).ToList())
            bench.Seen.Remove(key);
        return bench;
    }

    private static IReadOnlyList<string> Ask(HindcastBench bench) => [.. bench.Ask(Asked).Select(line => string.Join(',', line))];
}
