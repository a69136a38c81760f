using System.Diagnostics;
using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Weather;
using Scheduler.Service.Catalog;

namespace Scheduler.Benchmarks.Replay;

/// <summary>Prints how calm the dates of replayed seasons are, as Markdown.</summary>
internal static class ReplayTable
{
    private static readonly int[] Years = [1991, 1996, 2000, 2003];
    private static readonly int[] ForecastDays = [10, 0];

    public static async Task<int> PrintAsync(string? folder, IReadOnlyList<int> years, TextWriter output, TextWriter error)
    {
        if (Skill.SkillTable.FolderOf(folder) is not { } found)
        {
            await error.WriteLineAsync($"There is no folder {folder ?? "../" + Skill.SkillTable.UsualFolder}: give the folder of the observed dates.");
            return 1;
        }
        var watch = Stopwatch.StartNew();
        var real = Weather(Path.Combine(found, "harvard_forest", "weather.csv"));
        var catalog = CatalogLoader.Load(new CatalogOptions().FolderOrDefault);
        await output.WriteLineAsync("| forecast | season | windows | date changes a window | without the rule | text only | called off or back | opened | inside early-late 14 days before | notice below 2 days | of these not by the weather |");
        await output.WriteLineAsync("| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |");
        foreach (var days in ForecastDays)
        {
            foreach (var year in years.Count > 0 ? years : Years)
            {
                var figures = await FiguresAsync(real, year, days, catalog);
                await output.WriteLineAsync(Row(days, figures));
                await error.WriteLineAsync($"{year}, {days} days of forecast: {watch.Elapsed.TotalSeconds:f0} s");
            }
        }
        return 0;
    }

    public static async Task<ReplayFigures> FiguresAsync(TemperatureSeries real, int year, int forecastDays, CatalogContent catalog)
    {
        await using var replay = new SeasonReplay(real, year, forecastDays, catalog);
        var book = new ReplayBook();
        await foreach (var day in replay.LiveAsync(new LocalDate(year, 2, 1), new LocalDate(year, 11, 15)))
            book.Add(day);
        return book.Figures(year);
    }

    public static TemperatureSeries Weather(string file) => TemperatureSeries.From(File.ReadLines(file).Skip(1).Select(line => line.Split(','))
        .Where(cells => cells[2] != "")
        .Select(cells => new DailyTemperature(LocalDatePattern.Iso.Parse(cells[1]).Value, Number(cells[2]), Number(cells[3]))));

    private static string Row(int days, ReplayFigures figures) => string.Create(CultureInfo.InvariantCulture,
        $"| {(days == 0 ? "none" : $"{days} days")} | {figures.Year} | {figures.Windows} | {figures.MovesPerWindow:f2} | {figures.FoundMovesPerWindow:f2} | {(double)figures.Texts / figures.Windows:f2} | {figures.Turns} | {figures.Opened.Count} | {figures.Inside:f2} of {figures.Judged} | {figures.Short.Count()} | {figures.ShortThoughCalm} |");

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
