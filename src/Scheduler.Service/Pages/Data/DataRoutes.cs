using NodaTime;
using NodaTime.Text;
using Scheduler.Service.Accounts;
using Scheduler.Service.Hosting;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.LongWork;
using Scheduler.Service.Storage;
using static Scheduler.Service.Pages.Frame.PageResults;

namespace Scheduler.Service.Pages.Data;

/// <summary>All that an owner has, as a file and back, and out of here for good.</summary>
public static class DataRoutes
{
    private const int MostBytes = 32 * 1024 * 1024;

    /// <summary>What a form adds around the file.</summary>
    private const int FormBytes = 64 * 1024;

    private static readonly TimeSpan ShortWait = TimeSpan.FromSeconds(2);

    public static void MapData(this IEndpointRouteBuilder routes)
    {
        var mine = routes.MapOwnedPages();
        mine.MapGet("/data", async (bool? done, PageContext page, LongWorks works, OwnerTime time, CancellationToken cancel) =>
            Page<DataPage>(new DataView(works.Find(KeyOf(page))?.State, done is true, null, await time.ZoneAsync(cancel))));
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

    private static LongWorkKey KeyOf(PageContext page) => new(page.Owner.AccountId, Guid.Empty, "import");

    // It goes on when the page is left, and is found again there. The same form sent again begins nothing anew.
    private static async Task<IResult> ImportAsync(
        FormBody form, HttpRequest request, PageContext page, AccountTransfer transfer, LongWorks works, OwnerTime time, CancellationToken cancel)
    {
        var file = await SentFile.ReadAsync(request, "file", MostBytes, cancel);
        var zone = await time.ZoneAsync(cancel);
        if (file.Bytes is null)
            return Page<DataPage>(new DataView(works.Find(KeyOf(page))?.State, false, page[file.IsTooLarge ? "Data.FileTooLarge" : "Data.NoFile"], zone), StatusCodes.Status400BadRequest);
        var (key, owner) = (KeyOf(page), page.Owner.AccountId);
        var work = works.Find(key) is { HasFailed: false } same && same.Print == form.Key
            ? same
            : works.Start(key, form.Key, async (begun, stopping) => await transfer.ImportAsync(JsonBody.Parse(file.Bytes), owner, begun.Expect, begun.Step, stopping));
        // A small one is over before anybody could look at its progress.
        await Task.WhenAny(work.Outcome, Task.Delay(ShortWait, cancel));
        return work.Result is ImportOutcome { Refusal: not null }
            ? Page<DataPage>(new DataView(work.State, true, null, zone), StatusCodes.Status400BadRequest)
            : GoTo("/data?done=true");
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

/// <param name="Work">The last import of this account, running or over; null: none since the service started.</param>
/// <param name="IsNew">It was sent just now.</param>
/// <param name="Fault">Why no file was taken.</param>
public sealed record DataView(LongWork.LongWorkState? Work, bool IsNew, string? Fault, DateTimeZone Zone)
{
    public ImportOutcome? Outcome => Work?.Result as ImportOutcome;
}

/// <param name="AccountName">What has to be typed.</param>
public sealed record EraseView(string AccountName, FormState Form);
