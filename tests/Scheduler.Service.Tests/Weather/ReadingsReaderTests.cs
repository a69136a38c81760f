using System.Text;
using NodaTime;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Tests.Weather;

public sealed class ReadingsReaderTests
{
    private static readonly LocalDate Today = new(2026, 4, 20);

    private static ReadingRows Csv(string text) => ReadingsReader.ReadCsv(Encoding.UTF8.GetBytes(text), Today).Rows!;

    private static string Show(ReadingRows rows) =>
        string.Join(" ", rows.Readings.OrderBy(day => day.Date).Select(day => FormattableString.Invariant($"{day.Date:R}:{day.MinC}/{day.MaxC}")));

    [Theory]
    [InlineData("date,tmin_c,tmax_c\n2026-04-01,1.5,12\n2026-04-02,-0.5,9.25\n")]
    [InlineData("\uFEFFdate,tmin_c,tmax_c\r\n2026-04-01,1.5,12\r\n2026-04-02,-0.5,9.25")]
    [InlineData("date;tmin_c;tmax_c\r\n2026-04-01;1,5;12,0\r\n2026-04-02;-0,5;9,25\r\n")]
    [InlineData("date;tmin_c;tmax_c\n2026-04-01;1.5;12\n2026-04-02;-0.5;9.25\n")]
    [InlineData("Date, TMAX_C ,note,tmin_c\n2026-04-01,12,windy,1.5\n\n2026-04-02, 9.25 ,,-0.5\n")]
    [InlineData("\"date\",\"tmin_c\",\"tmax_c\"\n\"2026-04-01\",\"1.5\",\"12\"\n\"2026-04-02\",\"-0.5\",\"9.25\"\n")]
    public void ReadCsv_EveryDialect_GivesTheSameDays(string text)
    {
        var rows = Csv(text);
        Assert.Empty(rows.Rejected);
        Assert.Equal("2026-04-01:1.5/12 2026-04-02:-0.5/9.25", Show(rows));
    }

    [Fact]
    public void ReadCsv_FaultyLines_KeepsTheGoodAndNamesTheBad()
    {
        var rows = Csv(
            "date,tmin_c,tmax_c\n2026-04-01,1,9\n2026-04-31,1,9\n\n2026-04-02,9,1\n2026-04-21,1,9\n2026-04-03,-61,9\n2026-04-04,1,55.1\n"
            + "2026-04-05,,9\n2026-04-06,1\n2026-04-07,1,5,9\n01.04.2026,1,9\n2026-04-08,1e1,20\n2026-04-09,\"1,9\n1066-10-14,5,15\n"
            + "2026-04-10,NaN,9\n2026-04-20,2,8\n");
        Assert.Equal("2026-04-01:1/9 2026-04-09:1/9 2026-04-20:2/8", Show(rows));
        Assert.Equal(3, rows.Accepted);
        Assert.Equal([3, 5, 6, 7, 8, 9, 10, 11, 12, 13, 15, 16], rows.Rejected.Select(line => line.Line));
        Assert.Equal("The minimum is above the maximum.", rows.Rejected[1].Reason);
        Assert.Equal("The date is in the future.", rows.Rejected[2].Reason);
        Assert.Equal("The line has 2 fields, the header 3.", rows.Rejected[6].Reason);
    }

    [Fact]
    public void ReadCsv_RepeatedDate_TakesTheLast() =>
        Assert.Equal("2026-04-01:3/8", Show(Csv("date,tmin_c,tmax_c\n2026-04-01,1,9\n2026-04-01,3,8\n")));

    [Theory]
    [InlineData("")]
    [InlineData("date,tmin,tmax\n2026-04-01,1,9\n")]
    [InlineData("2026-04-01,1,9\n")]
    [InlineData("date\ttmin_c\ttmax_c\n2026-04-01\t1\t9\n")]
    public void ReadCsv_WrongHeader_IsRefusedWhole(string text)
    {
        var (rows, fault) = ReadingsReader.ReadCsv(Encoding.UTF8.GetBytes(text), Today);
        Assert.Null(rows);
        Assert.Contains("date,tmin_c,tmax_c", fault, StringComparison.Ordinal);
    }

    [Fact]
    public void ReadJson_FaultyItems_KeepsTheGoodAndNamesTheBad()
    {
        var (rows, _) = ReadingsReader.ReadJson(Encoding.UTF8.GetBytes(
            """
            [{"date":"2026-04-01","tminC":1,"tmaxC":9.5}, 7, {"date":"2026-04-02","tminC":"1","tmaxC":9}, {"date":20260403,"tminC":1,"tmaxC":9},
             {"tminC":1,"tmaxC":9}, {"date":"2026-04-04","tminC":null,"tmaxC":9}, {"date":"2026-04-05","tminC":1e999,"tmaxC":9}]
            """), Today);
        Assert.Equal("2026-04-01:1/9.5", Show(rows!));
        Assert.Equal([2, 3, 4, 5, 6, 7], rows!.Rejected.Select(line => line.Line));
    }

    [Theory]
    [InlineData("{}")]
    [InlineData("[{")]
    [InlineData("")]
    public void ReadJson_NoArray_IsRefusedWhole(string text) =>
        Assert.NotNull(ReadingsReader.ReadJson(Encoding.UTF8.GetBytes(text), Today).Fault);
}
