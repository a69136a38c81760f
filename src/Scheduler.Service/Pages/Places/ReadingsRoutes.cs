using System.Text;
using System.Text.Json;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Storage;
using Scheduler.Service.Weather;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Places;

/// <summary>The owner's own thermometer: a table of days is read line by line, and every line that was not taken is named.</summary>
internal static class ReadingsRoutes
{
    private const string Path = "/gardens/{id:guid}/readings";
    private const int MostBytes = 2 * 1024 * 1024;

    /// <summary>Invented days, to show the columns.</summary>
    private const string Sample = "date,tmin_c,tmax_c\n2026-03-01,-1.5,8.2\n2026-03-02,0.4,11.0\n";

    public static void MapReadingPages(this IEndpointRouteBuilder mine)
    {
        mine.MapGet(Path, async (Guid id, PageContext page, GardenStore gardens, ReadingStore readings, CancellationToken cancel) =>
            await ViewAsync(id, page, gardens, readings, cancel) is { } view ? Page<ReadingsPage>(view) : Missing());
        mine.MapPost(Path, SendAsync);
        mine.MapGet(Path + "/sample.csv", (Guid id) => Results.File(Encoding.UTF8.GetBytes(Sample), "text/csv; charset=utf-8", "readings.csv"));
    }

    private static async Task<IResult> SendAsync(
        Guid id, FormBody form, HttpRequest request, PageContext page, ApiCall api, GardenStore gardens, ReadingStore readings, CancellationToken cancel)
    {
        var file = await SentFile.ReadAsync(request, "file", MostBytes, cancel);
        if (file.Bytes is null)
            return await RefusedAsync(page[file.IsTooLarge ? "Gardens.FileTooLarge" : "Gardens.NoFile"], StatusCodes.Status400BadRequest);
        var answer = await api.PutFileAsync("/gardens/{id:guid}/readings", file.Bytes, "text/csv", id);
        if (!answer.IsTaken)
            return answer.Status == StatusCodes.Status404NotFound ? Missing() : await RefusedAsync(answer.Detail!, answer.Status);
        // The report is this answer itself: sending the same file again changes nothing.
        var report = new ReadingsAnswer(
            answer.Body!.Value.GetProperty("accepted").GetInt32(),
            [.. answer.Body.Value.GetProperty("rejected").EnumerateArray().Select(Line)]);
        return await ViewAsync(id, page, gardens, readings, cancel) is { } view
            ? Page<ReadingsPage>(view with { Report = report, FileName = file.Name })
            : Missing();

        async Task<IResult> RefusedAsync(string fault, int status) =>
            await ViewAsync(id, page, gardens, readings, cancel) is { } view ? Page<ReadingsPage>(view with { Fault = fault }, status) : Missing();
    }

    private static RejectedLine Line(JsonElement item) => new(item.GetProperty("line").GetInt32(), item.GetProperty("reason").GetString()!);

    private static async Task<ReadingsView?> ViewAsync(Guid id, PageContext page, GardenStore gardens, ReadingStore readings, CancellationToken cancel)
    {
        if (await gardens.FindAsync(page.Owner.AccountId, id, cancel) is not { } garden)
            return null;
        var days = await readings.ReadAsync(id, cancel);
        return new ReadingsView(id, garden.Name, days.Count, days.Count > 0 ? days[0].Date : null, days.Count > 0 ? days[^1].Date : null, null, null, null);
    }
}
