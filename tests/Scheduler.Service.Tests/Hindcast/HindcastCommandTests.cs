using NodaTime;
using Scheduler.Service.Hindcast;

namespace Scheduler.Service.Tests.Hindcast;

/// <summary>The command from files to file, on invented places and plants.</summary>
public class HindcastCommandTests
{
    [Fact]
    public void Answers_ComeInTheOrderAskedAndNearWhatHappened()
    {
        using var bench = new HindcastBench();
        var asked = new[]
        {
            "hill,Fagus inventa,bud_break,2012,", "hill,Acer inventum,leaf_full,2004,", "hill,Acer inventum,bud_break,2012,2012-04-25", "hill,Prunus inventa,first_flowers,2003,"
        };

        var answers = bench.Ask(asked);

        Assert.Equal(asked, answers.Select(answer => string.Join(',', answer[..5])));
        foreach (var answer in answers)
        {
            var (early, likely, late) = (HindcastBench.Date(answer[6]), HindcastBench.Date(answer[5]), HindcastBench.Date(answer[7]));
            Assert.True(early <= likely && likely <= late);
            var seen = bench.Seen[(answer[1], answer[2], int.Parse(answer[3], System.Globalization.CultureInfo.InvariantCulture))];
            Assert.True(Math.Abs(Period.DaysBetween(seen, likely)) <= 8, $"{string.Join(',', answer)}: seen {seen:uuuu-MM-dd}");
        }
    }

    [Fact]
    public void SouthernPlace_GivesTheSameDatesHalfAYearLater()
    {
        using var north = new HindcastBench(48);
        using var south = new HindcastBench(-48);
        var asked = Enumerable.Range(HindcastBench.FirstYear + 1, 12).SelectMany(year => new[]
        {
            $"hill,Acer inventum,bud_break,{year},", $"hill,Fagus inventa,bud_break,{year},"
        }).ToArray();

        var apart = north.Ask(asked).Zip(south.Ask(asked),
            (northern, southern) => Period.DaysBetween(HindcastBench.Date(northern[5]), HindcastBench.Date(southern[5]))).ToList();

        // The leap day falls into the northern winter, but before the southern one.
        Assert.All(apart, days => Assert.InRange(days, HindcastBench.HalfYear - 1, HindcastBench.HalfYear + 2));
    }

    [Theory]
    [InlineData(48, "2004-11-03", 2004)]
    [InlineData(-48, "2005-05-03", 2005)]
    public void AutumnYear_IsTheCalendarYearOnBothHalves(double latitude, string seen, int year)
    {
        using var bench = new HindcastBench(latitude);
        var first = HindcastBench.Date(seen);
        bench.ObservationLines = string.Join('\n', Enumerable.Range(0, 5).Select(later =>
            $"hill,Acer inventum,leaf_colour_peak,,{year + later},{first.PlusYears(later).PlusDays(later % 3):uuuu-MM-dd}"));

        var answer = bench.Ask($"hill,Acer inventum,leaf_colour_peak,{year + 5},").Single();

        Assert.InRange(Period.DaysBetween(first.PlusYears(5), HindcastBench.Date(answer[5])), -8, 10);
    }

    [Fact]
    public void SouthernAutumnsNumberedByGrowthYear_AreTakenAsTheirDatesShow()
    {
        using var bench = new HindcastBench(-48);
        bench.ObservationLines = string.Join('\n', Enumerable.Range(2004, 5).Select(year => $"hill,Acer inventum,leaf_colour_peak,,{year},{year + 1}-05-03"));

        Assert.Equal("2010-05", bench.Ask("hill,Acer inventum,leaf_colour_peak,2009,").Single()[5][..7]);
    }

    [Fact]
    public void DecemberBloom_BelongsToTheYearThatFollows()
    {
        using var bench = new HindcastBench();
        bench.ObservationLines = string.Join('\n', Enumerable.Range(2003, 8).Select(year => $"hill,Prunus inventa,first_flowers,,{year},{year - 1}-12-2{year % 10}"));

        var answer = bench.Ask("hill,Prunus inventa,first_flowers,2012,").Single();

        Assert.InRange(HindcastBench.Date(answer[5]), new LocalDate(2011, 12, 5), new LocalDate(2012, 1, 15));
    }

    [Fact]
    public void LeapDay_IsADateLikeAnyOther()
    {
        using var bench = new HindcastBench();
        bench.ObservationLines = "hill,Acer inventum,bud_break,,2008,2008-02-29\nhill,Acer inventum,bud_break,,2009,2009-03-01\nhill,Acer inventum,bud_break,,2010,2010-03-01";

        Assert.Equal(3, bench.Ask("hill,Acer inventum,bud_break,2008,", "hill,Acer inventum,bud_break,2012,2012-02-29", "hill,Acer inventum,bud_break,2011,").Count(answer => answer[5].Length > 0));
    }

    [Fact]
    public void NeverReachedPhase_HasEmptyDates()
    {
        using var bench = new HindcastBench();
        // A year without a spring: it stays at -5.
        foreach (var date in bench.Days.Keys.Where(date => date >= new LocalDate(2010, 9, 1) && date < new LocalDate(2012, 1, 1)).ToList())
            bench.Days[date] = (-9, -1);
        for (var year = 2011; year <= 2012; year++)
            bench.Seen.Remove(("Acer inventum", "bud_break", year));

        var answers = bench.Ask("hill,Acer inventum,bud_break,2011,", "hill,Acer inventum,bud_break,2013,", "hill,Nova incognita,whole_new_autumn_colour,2013,");

        Assert.Equal(["", "", ""], answers[0][5..]);
        Assert.All(answers[1][5..], date => Assert.NotEmpty(date));
        Assert.Equal(["", "", ""], answers[2][5..]);
        Assert.Contains("2 of 3 have no date", bench.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void MarkQuotesAndFurtherColumns_AreRead()
    {
        using var bench = new HindcastBench();
        bench.Sites = "\uFEFFsite,lat,lon,elev_m,station\r\nhill,48,8,,\"a hill, \"\"steep\"\"\"\r\n\"Hill, far\",48,8,100,\r\n";
        bench.AskedHeader = "note,site,species,phase,year,issued_on";

        var answer = bench.Ask("\"one, two\",hill,\"Acer inventum\",bud_break,2010,", "x,\"Hill, far\",Acer inventum,bud_break,2010,");

        Assert.Equal(2, answer.Count);
        Assert.NotEmpty(answer[0][5]);
        Assert.Contains("\"Hill, far\",Acer inventum,bud_break,2010,,,,", File.ReadAllText(bench.Out), StringComparison.Ordinal);
    }

    [Fact]
    public void UnknownSpecies_LeansOnItsGenus()
    {
        using var bench = new HindcastBench();

        var answer = bench.Ask("hill,Acer novum,bud_break,2010,").Single();

        Assert.InRange(Period.DaysBetween(bench.Seen[("Acer inventum", "bud_break", 2010)], HindcastBench.Date(answer[5])), -14, 14);
    }

    [Fact]
    public void Arguments_TellEverythingThatIsWrong()
    {
        using var errors = new StringWriter();

        Assert.Equal(1, HindcastCommand.Run(["--weather", "--sites", "s.csv", "--sites", "t.csv", "--wind", "w.csv"], errors));

        Assert.Contains("--weather has no file behind it.", errors.ToString(), StringComparison.Ordinal);
        Assert.Contains("--sites is given twice.", errors.ToString(), StringComparison.Ordinal);
        Assert.Contains("'--wind' is not known here.", errors.ToString(), StringComparison.Ordinal);
        Assert.Contains("--out is missing.", errors.ToString(), StringComparison.Ordinal);
    }
}
