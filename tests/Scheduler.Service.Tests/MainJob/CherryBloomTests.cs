using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Tests.Phenology.Support;
using Scheduler.Domain.Weather;
using Xunit.Abstractions;

namespace Scheduler.Service.Tests.MainJob;

/// <summary>
/// Real input through the whole service: the daily temperatures of Washington DC as an owner's readings, earlier springs'
/// bloom of the flowering cherries as the owner's observations, and each spring asked as it begins.
/// </summary>
/// <remarks>
/// Bloom dates (70 % of flowers open): National Park Service and EPA; temperatures: GHCN-Daily (Menne et al. 2012). Both from
/// ../shared/reference, where the dates end in 1992, so that 1993 and 1994 cannot be scored.
/// </remarks>
public class CherryBloomTests(ITestOutputHelper output)
{
    private const int Flowering = 60;
    private const int FirstAsked = 1990;
    private const int YearsOfReadings = 35;

    [ReferenceFact]
    public async Task WashingtonCherry_IsForecastBetterThanByItsCalendarMean()
    {
        var days = ReferencePhenology.Weather("cherry_bloom", "washingtondc");
        var blooms = ReferencePhenology.Dates("cherry_bloom", "washingtondc", "Prunus x yedoensis", "peak_bloom_70pct");
        var errors = new List<(int Clock, double Calendar)>();
        foreach (var (year, bloom) in blooms.Where(bloom => bloom.Key >= FirstAsked))
        {
            var earlier = blooms.Where(other => other.Key < year).Select(other => other.Value).ToList();
            var asked = new LocalDate(year, 3, 8);
            var likely = await ForecastAsync(days, earlier, asked);
            var calendar = earlier.Average(day => day.DayOfYear);
            errors.Add((Math.Abs(Period.DaysBetween(likely, bloom)), Math.Abs(calendar - bloom.DayOfYear)));
            output.WriteLine($"{bloom:uuuu-MM-dd}: forecast on {asked:d MMMM} for {likely:uuuu-MM-dd}, off by {errors[^1].Clock} days; the calendar mean is off by {errors[^1].Calendar:f1}");
        }
        output.WriteLine($"Mean absolute error: clock {errors.Average(error => error.Clock):f2}, calendar mean {errors.Average(error => error.Calendar):f2} days ({errors.Count} springs)");

        Assert.Equal(3, errors.Count);
        Assert.True(errors.Average(error => error.Clock) < errors.Average(error => error.Calendar));
    }

    private static async Task<LocalDate> ForecastAsync(TemperatureSeries days, List<LocalDate> earlier, LocalDate asked)
    {
        await using var owner = await OwnerAtWork.StartAsync($"{asked:uuuu-MM-dd}T12:00:00Z");
        var garden = await owner.GardenAsync(38.89, "America/New_York");
        await owner.ReadingsAsync(garden, Csv(days, asked.PlusYears(-YearsOfReadings), asked.PlusDays(-1)));
        var cherry = await owner.TreeAsync(garden, "Cherry", "prunus-cherry", "ramification", "flowers");
        foreach (var day in earlier)
            await owner.SawAsync(cherry, $"{day:uuuu-MM-dd}", Flowering);
        var season = JsonNode.Parse(await owner.Client.GetStringAsync($"/api/v1/gardens/{garden}/season"))!["items"]![0]!;
        var flowering = season["phases"]!.AsArray().Single(phase => phase!["bbch"]!.GetValue<int>() == Flowering)!;
        return LocalDatePattern.Iso.Parse(flowering["likely"]!.GetValue<string>()).Value;
    }

    internal static string Csv(TemperatureSeries days, LocalDate from, LocalDate to)
    {
        var lines = new List<string> { "date,tmin_c,tmax_c" };
        for (var date = LocalDate.Max(from, days.Start); date <= to; date = date.PlusDays(1))
        {
            if (days.Has(date))
                lines.Add(FormattableString.Invariant($"{date:uuuu-MM-dd},{days.MinC[days.IndexOf(date)]},{days.MaxC[days.IndexOf(date)]}"));
        }
        return string.Join('\n', lines);
    }
}
