using NodaTime;
using NodaTime.Text;
using Scheduler.Service.Accounts;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Storage;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Data;

/// <summary>All that an owner has, as a file and back, and out of here for good.</summary>
public static class DataRoutes
{
    private const int MostBytes = 32 * 1024 * 1024;

    /// <summary>What a form adds around the file.</summary>
    private const int FormBytes = 64 * 1024;

    public static void MapData(this IEndpointRouteBuilder routes)
    {
        var mine = routes.MapOwnedPages();
        mine.MapGet("/data", (bool? done, int? gardens, int? trees, int? work, int? feeds) =>
            Page<DataPage>(new DataView(done is true ? new ImportCounts(gardens ?? 0, trees ?? 0, work ?? 0, feeds ?? 0) : null, null, null, [])));
        mine.MapGet("/data/export", ExportAsync);
        mine.MapPost("/data/import", ImportAsync).WithMetadata(new Microsoft.AspNetCore.Mvc.RequestSizeLimitAttribute(MostBytes + FormBytes));
        mine.MapGet("/data/erase", async (PageContext page, AccountStore accounts, CancellationToken cancel) =>
            Page<ErasePage>(new EraseView(await NameAsync(page, accounts, cancel), FormState.Empty)));
        mine.MapPost("/data/erase", EraseAsync);
        routes.MapOpenPages().MapGet("/data/erased", () => Page<ErasedPage>());
    }

    private static async Task<IResult> ExportAsync(PageContext page, HttpResponse response, AccountExport export, IClock clock, CancellationToken cancel)
    {
        if (await export.ReadAsync(page.Owner.AccountId, cancel) is not { } document)
            return Missing();
        var day = LocalDatePattern.Iso.Format(clock.GetCurrentInstant().InUtc().Date);
        response.Headers.ContentDisposition = $"attachment; filename=\"scheduler-{day}.json\"";
        return TypedResults.Ok(document);
    }

    // Once begun it runs to its end even if the page is left; the same form sent again waits for the first and gives its answer.
    private static async Task<IResult> ImportAsync(FormBody form, HttpRequest request, PageContext page, ApiCall api, CancellationToken cancel)
    {
        var file = await SentFile.ReadAsync(request, "file", MostBytes, cancel);
        if (file.Bytes is null)
            return Page<DataPage>(new DataView(null, page[file.IsTooLarge ? "Data.FileTooLarge" : "Data.NoFile"], null, []), StatusCodes.Status400BadRequest);
        var answer = await api.PostFileAsync("/accounts/me/import", file.Bytes, "application/json", form);
        if (!answer.IsTaken)
        {
            var faults = answer.Faults.SelectMany(fault => fault.Value).ToList();
            return Page<DataPage>(new DataView(null, faults.Count > 0 ? page["Data.Faulty", faults.Count] : answer.Detail, file.Name, faults), answer.Status);
        }
        var came = answer.Body!.Value;
        return GoTo($"/data?done=true&gardens={Count("gardens")}&trees={Count("trees")}&work={Count("work")}&feeds={Count("feeds")}");

        int Count(string name) => came.GetProperty(name).GetInt32();
    }

    private static async Task<IResult> EraseAsync(FormBody form, HttpContext http, PageContext page, ApiCall api, AccountStore accounts)
    {
        var name = await NameAsync(page, accounts, http.RequestAborted);
        if (form["name"] != name.Trim())
            return Page<ErasePage>(new EraseView(name, FormState.Refused(form, "name", page["Data.EraseMismatch"])), StatusCodes.Status400BadRequest);
        await api.DeleteAsync("/accounts/me");
        await PageCookie.SignOutAsync(http);
        return GoTo("/data/erased");
    }

    private static async Task<string> NameAsync(PageContext page, AccountStore accounts, CancellationToken cancel) =>
        (await accounts.FindAsync(page.Owner.AccountId, cancel))?.Name ?? "";
}

/// <param name="Came">How much the last import brought; null: none just now.</param>
/// <param name="Fault">Why the file was not taken.</param>
/// <param name="Faults">Everything that is wrong in it.</param>
public sealed record DataView(ImportCounts? Came, string? Fault, string? FileName, IReadOnlyList<string> Faults);

public sealed record ImportCounts(int Gardens, int Trees, int Work, int Feeds);

/// <param name="AccountName">What has to be typed.</param>
public sealed record EraseView(string AccountName, FormState Form);
