using Microsoft.AspNetCore.Http.HttpResults;
using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Domain.Trees;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Plans;

/// <summary>The announced windows of a garden.</summary>
internal static class WindowsApi
{
    public static async Task<Results<Ok<Page<WindowAnswer>>, ProblemHttpResult>> ListAsync(
        Guid id, string? from, string? to, string? state, Caller caller, PageRequest page, GardenStore gardens, WindowStore windows, CancellationToken cancel)
    {
        if (await gardens.FindAsync(caller.AccountId, id, cancel) is null)
            return Problems.NotFound();
        var faults = new FieldFaults();
        var (first, last) = DaySpan.Read(from, to, faults);
        if (state is not null && !Ids.TryParse<WindowState>(state, out _))
            faults.Add("state", $"state is '{FieldValue.Shorten(state)}': give one of {string.Join(", ", Ids.All<WindowState>())}.");
        if (faults.Any)
            return Problems.Invalid(faults);
        var rows = (await windows.OfGardenAsync(id, cancel))
            .Where(window => !PromiseWindows.IsPromise(window.Key))
            .Where(window => state is null || Ids.Of(window.State) == state)
            .Where(window => (last is null || Opens(window) <= last) && (first is null || Closes(window) >= first))
            .OrderBy(Cursor, StringComparer.Ordinal)
            .Where(window => string.CompareOrdinal(Cursor(window), page.After) > 0)
            .Take(page.Limit + 1)
            .ToList();
        return TypedResults.Ok(page.Cut(rows, Cursor, WindowAnswer.Of));
    }

    private static LocalDate Opens(StoredWindow window) => window.Body.Window.Opens.Likely ?? LocalDate.MaxIsoValue;

    private static LocalDate Closes(StoredWindow window) => window.Body.Window.Closes.Likely ?? LocalDate.MaxIsoValue;

    private static string Cursor(StoredWindow window) => $"{Opens(window):uuuu-MM-dd}_{window.Id:N}";
}
