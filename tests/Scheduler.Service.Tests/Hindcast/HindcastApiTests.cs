using System.Net;
using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using Scheduler.Service.Tests.MainJob;

namespace Scheduler.Service.Tests.Hindcast;

/// <summary>The hindcast of an invented garden over HTTP: readings and observations in, past years dated again.</summary>
public class HindcastApiTests
{
    private const string Today = "2026-03-10";
    private static readonly LocalDate Start = new(2010, 1, 1);
    private static readonly LocalDate Yesterday = new(2026, 3, 9);

    [Fact]
    public async Task ObservedYears_AreDatedAgainWithFigures()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);
        var (garden, seen) = await GardenWithMapleAsync(owner);

        var answer = await AskAsync(owner, garden, "species=acer-palmatum&phase=bud-break");

        var years = answer["years"]!.AsArray();
        Assert.Equal(seen.Select(date => date.Year), years.Select(year => year!["year"]!.GetValue<int>()));
        Assert.Equal(seen, years.Select(year => Date(year!["observed"]!)));
        Assert.All(years, year => Assert.True(Date(year!["early"]!) <= Date(year["likely"]!) && Date(year["likely"]!) <= Date(year["late"]!)));
        var errors = years.Select(year => Period.DaysBetween(Date(year!["observed"]!), Date(year["likely"]!))).ToList();
        Assert.Equal(errors.Average(Math.Abs), answer["maeDays"]!.GetValue<double>(), 0.01);
        Assert.Equal(errors.Average(), answer["biasDays"]!.GetValue<double>(), 0.01);
        Assert.InRange(answer["maeDays"]!.GetValue<double>(), 0, 5);
        Assert.InRange(answer["coverage"]!.GetValue<double>(), 0.5, 1);
        Assert.Null(answer["remark"]);
    }

    [Fact]
    public async Task LeadDays_IssueTheForecastBeforeTheUsualDateAndWidenIt()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);
        var (garden, _) = await GardenWithMapleAsync(owner);

        var known = await AskAsync(owner, garden, "species=acer-palmatum&phase=bud-break");
        var ahead = await AskAsync(owner, garden, "species=acer-palmatum&phase=bud-break&leadDays=30");

        Assert.True(Width(ahead) > Width(known));
        Assert.True(ahead["maeDays"]!.GetValue<double>() > known["maeDays"]!.GetValue<double>());
    }

    [Fact]
    public async Task YearItself_IsNotLearnedFrom()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);
        var (garden, seen) = await GardenWithMapleAsync(owner, lastYearLaterBy: 0);
        var (other, _) = await GardenWithMapleAsync(owner, lastYearLaterBy: 15);

        var (one, two) = (await AskAsync(owner, garden, "species=acer-palmatum&phase=bud-break"), await AskAsync(owner, other, "species=acer-palmatum&phase=bud-break"));

        Assert.Equal(one["years"]!.AsArray()[^1]!["likely"]!.GetValue<string>(), two["years"]!.AsArray()[^1]!["likely"]!.GetValue<string>());
        Assert.NotEqual(one["years"]!.AsArray()[^1]!["observed"]!.GetValue<string>(), two["years"]!.AsArray()[^1]!["observed"]!.GetValue<string>());
        Assert.Equal(10, seen.Count);
    }

    [Fact]
    public async Task LeafFall_IsDatedByItsAutumn()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);
        var (garden, _) = await GardenWithMapleAsync(owner);
        var maple = await owner.TreeAsync(garden, "Second maple", "acer-palmatum", "refinement", "slender");
        for (var year = 2016; year <= 2025; year++)
            await owner.SawAsync(maple, $"{year}-11-{10 + year % 4}", 93);

        var answer = await AskAsync(owner, garden, "species=acer-palmatum&phase=leaf-fall");

        Assert.Equal(10, answer["years"]!.AsArray().Count);
        Assert.InRange(answer["maeDays"]!.GetValue<double>(), 0, 8);
    }

    [Fact]
    public async Task NothingObserved_GivesAnEmptyListAndSaysWhy()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);
        var (garden, _) = await GardenWithMapleAsync(owner);

        var answer = await AskAsync(owner, garden, "species=fagus-sylvatica&phase=bud-break");

        Assert.Empty(answer["years"]!.AsArray());
        Assert.Null(answer["maeDays"]);
        Assert.Null(answer["biasDays"]);
        Assert.Null(answer["coverage"]);
        Assert.Contains("has been logged", answer["remark"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task UnknownWords_AreRefusedTogetherWithTheNearestIds()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);
        var garden = await owner.GardenAsync();

        using var answer = await owner.Client.GetAsync($"/api/v1/gardens/{garden}/hindcast?species=acer-palmatun&phase=bud-brake&leadDays=-3");

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
        var errors = JsonNode.Parse(await answer.Content.ReadAsStringAsync())!["errors"]!;
        Assert.Contains("acer-palmatum", errors["species"]![0]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.Contains("bud-break", errors["phase"]![0]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.Contains("0 to 180", errors["leadDays"]![0]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task SomebodyElsesGarden_IsNotFound()
    {
        await using var owner = await OwnerAtWork.StartAsync(Today);

        using var answer = await owner.Client.GetAsync($"/api/v1/gardens/{Guid.NewGuid()}/hindcast?species=acer-palmatum&phase=bud-break");

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    // Buds open when a plain sum of warmth from midwinter on is reached, which is not how the clock reckons.
    private static async Task<(string Garden, List<LocalDate> Seen)> GardenWithMapleAsync(OwnerAtWork owner, int lastYearLaterBy = 0)
    {
        var garden = await owner.GardenAsync();
        var readings = MadeReadings.Csv(Start, Yesterday);
        await owner.ReadingsAsync(garden, readings);
        var maple = await owner.TreeAsync(garden, "Old maple", "acer-palmatum", "refinement", "slender");
        var days = readings.Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1).Select(line => line.Split(','))
            .ToDictionary(row => LocalDatePattern.Iso.Parse(row[0]).Value, row => (Number(row[1]) + Number(row[2])) / 2);
        var seen = new List<LocalDate>();
        for (var year = 2016; year <= 2025; year++)
        {
            var date = new LocalDate(year, 1, 1);
            for (var sum = 0d; (sum += Math.Max(days[date] - 5, 0)) < 150;)
                date = date.PlusDays(1);
            seen.Add(year == 2025 ? date.PlusDays(lastYearLaterBy) : date);
            await owner.SawAsync(maple, $"{seen[^1]:uuuu-MM-dd}", 7);
        }
        return (garden, seen);
    }

    private static async Task<JsonNode> AskAsync(OwnerAtWork owner, string garden, string query) =>
        JsonNode.Parse(await owner.Client.GetStringAsync($"/api/v1/gardens/{garden}/hindcast?{query}"))!;

    private static double Width(JsonNode answer) => answer["years"]!.AsArray().Where(year => year!["likely"] is not null)
        .Average(year => Period.DaysBetween(Date(year!["early"]!), Date(year["late"]!)));

    private static double Number(string text) => double.Parse(text, System.Globalization.CultureInfo.InvariantCulture);

    private static LocalDate Date(JsonNode date) => LocalDatePattern.Iso.Parse(date.GetValue<string>()).Value;
}
