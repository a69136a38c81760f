namespace Scheduler.Service.Tests.Hindcast;

/// <summary>Faulty input files: everything is told at once, and nothing is written.</summary>
public class HindcastReaderTests
{
    [Fact]
    public void Faults_AreToldAtOnceWithFileLineColumnValueAndRemedy()
    {
        using var bench = new HindcastBench();
        bench.Days[new(2000, 7, 2)] = (12, 3);
        bench.Days[new(2000, 7, 4)] = (-120, 3);
        bench.Sites += "nowhere,96,8,\n";
        bench.ObservationLines = "hill,Acer inventum,bud_break,,2004,2004-13-01\nhill,Acer inventum,bud_break,,2004,2006-04-01\nvale,Acer inventum,bud_break,,2004,2004-04-01";
        File.WriteAllText(bench.Out, "kept");

        Assert.Equal(1, bench.Run("hill,,bud_break,2010,", "hill,Acer inventum,bud_break,soon,2010-02-30"));

        string[] expected =
        [
            "sites.csv:3: lat '96' is not a number in range. Write a number from -90 to 90",
            "weather.csv:3: tmin_c '12' is above tmax_c '3'. Correct the two, or leave both empty.",
            "weather.csv:5: tmin_c '-120' is not a number in range.",
            "observations.csv:2: date '2004-13-01' is not a date. Write it as 2004-05-31.",
            "observations.csv:3: date '2006-04-01' does not lie in season 2004.",
            "observations.csv:4: site 'vale' is not in ",
            "asked.csv:2: species '' is empty. Write a name.",
            "asked.csv:3: year 'soon' is not a year. Write it as 2004.",
            "asked.csv:3: issued_on '2010-02-30' is not a date."
        ];
        Assert.All(expected, fault => Assert.Contains(fault, bench.Errors, StringComparison.Ordinal));
        Assert.Equal(expected.Length + 1, bench.Errors.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length);
        Assert.Equal("kept", File.ReadAllText(bench.Out));
        Assert.Equal(5, Directory.GetFiles(Path.GetDirectoryName(bench.Out)!).Length);
    }

    [Fact]
    public void MissingColumns_AreNamed()
    {
        using var bench = new HindcastBench { AskedHeader = "site,kind,phase,year" };

        Assert.Equal(1, bench.Run("hill,Acer inventum,bud_break,2010"));

        Assert.Contains("asked.csv:1: species is not among the columns. Begin the file with the line site,species,phase,year.", bench.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void MissingFile_IsToldWithTheFaultsOfTheOthers()
    {
        using var bench = new HindcastBench();
        bench.Run();
        File.Delete(bench.Named("sites.csv"));
        File.WriteAllText(bench.Named("asked.csv"), "site\n");
        using var errors = new StringWriter();

        Assert.Equal(1, Service.Hindcast.HindcastCommand.Run(
            ["--weather", bench.Named("weather.csv"), "--sites", bench.Named("sites.csv"), "--observations", bench.Named("observations.csv"), "--asked", bench.Named("asked.csv"), "--out", bench.Named("no/such/out.csv")], errors));

        Assert.Contains("sites.csv: cannot be read", errors.ToString(), StringComparison.Ordinal);
        Assert.Contains("asked.csv:1: year is not among the columns", errors.ToString(), StringComparison.Ordinal);
        Assert.Contains("out.csv: cannot be written", errors.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void EmptyTemperatures_AreMissingDays()
    {
        using var bench = new HindcastBench();
        bench.Days[new(2010, 2, 2)] = null;

        Assert.NotEmpty(bench.Ask("hill,Acer inventum,bud_break,2010,").Single()[5]);
    }

    [Fact]
    public void StrayQuote_IsAFaultOfItsLine()
    {
        using var bench = new HindcastBench();

        Assert.Equal(1, bench.Run("hill,Acer inventum,bud_break,2010,", "hill,Acer \"inventum,bud_break,2011,"));

        Assert.Contains("asked.csv:3: has a stray quote", bench.Errors, StringComparison.Ordinal);
    }
}
