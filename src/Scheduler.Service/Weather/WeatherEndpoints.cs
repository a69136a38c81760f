using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.OpenApi;
using NodaTime;
using NodaTime.Text;
using Scheduler.Domain.Weather;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Weather;

/// <summary>Place search, a garden's weather, its owner's readings. Mapped into a group that demands an access key.</summary>
public static class WeatherEndpoints
{
    private const int LargestUpload = 2 * 1024 * 1024;
    private const int UsualDaysBack = 30;
    private const int LongestName = 200;

    public static IEndpointRouteBuilder MapWeather(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/places", PlacesAsync).WithSummary("Finds places by name.");
        routes.MapGet("/gardens/{id:guid}/weather", DaysAsync).WithSummary("The days of a garden and where they come from.");
        routes.MapPut("/gardens/{id:guid}/readings", ReadingsAsync).WithSummary("Stores the owner's own minima and maxima, from CSV or JSON.")
            .AddOpenApiOperationTransformer((operation, _, _) =>
            {
                operation.RequestBody = ReadingsBody();
                return Task.CompletedTask;
            });
        routes.MapPost("/gardens/{id:guid}/refresh", RefreshAsync).WithSummary("Fetches the forecast now.");
        return routes;
    }

    // Read by hand, so that a faulty line does not spoil the body; the API document must be told of it.
    private static OpenApiRequestBody ReadingsBody() => new()
    {
        Required = true,
        Content = new Dictionary<string, OpenApiMediaType>
        {
            ["text/csv"] = new()
            {
                Schema = new OpenApiSchema { Type = JsonSchemaType.String, Description = "Header date,tmin_c,tmax_c, then one line a day; °C." }
            },
            ["application/json"] = new()
            {
                Schema = new OpenApiSchema { Type = JsonSchemaType.Array, Description = "Objects with date, tminC and tmaxC; °C." }
            }
        }
    };

    private static async Task<Results<Ok<PlaceList>, ProblemHttpResult>> PlacesAsync(string? q, PlaceSearch search, CancellationToken cancel)
    {
        var name = q?.Trim() ?? "";
        if (name.Length is 0 or > LongestName)
        {
            var faults = new FieldFaults();
            faults.Add("q", $"Give a name of 1 to {LongestName} letters to look for.");
            return Problems.Invalid(faults);
        }
        var (places, fault) = await search.FindAsync(name, cancel);
        return fault is null
            ? TypedResults.Ok(new PlaceList(places, null))
            : Problems.Of(
                StatusCodes.Status503ServiceUnavailable, $"The place search cannot be used now: {fault}. Coordinates can be given by hand.");
    }

    private static async Task<Results<Ok<GardenWeatherAnswer>, ProblemHttpResult>> DaysAsync(
        Guid id, string? from, string? to, Caller caller, WeatherStore store, GardenWeather weather, CancellationToken cancel)
    {
        if (!await store.OwnsAsync(caller.AccountId, id, cancel))
            return Problems.NotFound();
        var faults = new FieldFaults();
        LocalDate? first = Date(from, "from", faults), last = Date(to, "to", faults);
        if (first > last)
            faults.Add("to", "This day comes before 'from'.");
        if (faults.Any)
            return Problems.Invalid(faults);
        var record = await weather.RecordAsync(id, cancel);
        first ??= LocalDate.Min(record.Today, last ?? record.Today).PlusDays(-UsualDaysBack);
        var shown = record.Days.Where(day => day.Day.Date >= first && (last is null || day.Day.Date <= last)).Select(Show);
        var status = record.Status;
        return TypedResults.Ok(new GardenWeatherAnswer(
            status.AsOf, status.State, status.YearsDone, status.YearsWanted, status.Problem, status.Sources, [.. shown]));
    }

    private static async Task<Results<Ok<ReadingsAnswer>, ProblemHttpResult>> ReadingsAsync(
        Guid id, HttpRequest request, Caller caller, WeatherStore store, ReadingStore readings, GardenReplanner replanner, IClock clock,
        CancellationToken cancel)
    {
        if (!await store.OwnsAsync(caller.AccountId, id, cancel) || await store.GardenAsync(id, cancel) is not { } garden)
            return Problems.NotFound();
        var isJson = request.HasJsonContentType();
        if (!isJson && MediaType(request) != "text/csv")
            return Problems.Of(StatusCodes.Status415UnsupportedMediaType, "Send 'Content-Type: text/csv' or 'Content-Type: application/json'.");
        if (await BodyAsync(request, cancel) is not { } body)
            return Problems.TooLarge(LargestUpload);
        var today = GardenDay.Today(garden, clock.GetCurrentInstant());
        var (rows, fault) = isJson ? ReadingsReader.ReadJson(body, today) : ReadingsReader.ReadCsv(body, today);
        if (rows is null)
            return Problems.Of(StatusCodes.Status400BadRequest, fault!, isJson ? null : new FaultKind("columns"));
        if (rows.Accepted > 0)
        {
            await readings.SaveAsync(id, rows.Readings, cancel);
            // Stored readings must show in the windows even if the owner hangs up.
            await replanner.OfGardenAsync(id, CancellationToken.None);
        }
        return TypedResults.Ok(new ReadingsAnswer(rows.Accepted, rows.Rejected));
    }

    private static async Task<Results<Ok<RefreshAnswer>, ProblemHttpResult>> RefreshAsync(
        Guid id, Caller caller, WeatherStore store, GardenWeather weather, CancellationToken cancel)
    {
        if (!await store.OwnsAsync(caller.AccountId, id, cancel))
            return Problems.NotFound();
        var changed = await weather.RefreshAsync(id, cancel);
        var status = (await weather.RecordAsync(id, cancel)).Status;
        return TypedResults.Ok(new RefreshAnswer(changed, status.State, status.AsOf, status.Problem));
    }

    private static DayAnswer Show(GardenDay day) => new(
        day.Day.Date, day.Day.MinC, day.Day.MaxC, day.Day.PrecipMm,
        day.Day.Kind switch { DayKind.Reading => "reading", DayKind.Observed => "observed", _ => "forecast" },
        day.Source, day.Day.GustKmh, day.Day.Et0Mm, day.Final, day.FetchedAt, day.Model?.MinC, day.Model?.MaxC);

    private static LocalDate? Date(string? text, string field, FieldFaults faults)
    {
        if (text is null)
            return null;
        if (LocalDatePattern.Iso.Parse(text).TryGetValue(default, out var date) && date.Year is >= 1 and <= 9998)
            return date;
        faults.Add(field, "Give a day such as 2026-04-30.");
        return null;
    }

    private static string? MediaType(HttpRequest request) => request.ContentType?.Split(';')[0].Trim().ToLowerInvariant();

    private static async Task<byte[]?> BodyAsync(HttpRequest request, CancellationToken cancel)
    {
        if (request.ContentLength > LargestUpload)
            return null;
        using var kept = new MemoryStream();
        var part = new byte[16 * 1024];
        int read;
        while ((read = await request.Body.ReadAsync(part, cancel)) > 0)
        {
            if (kept.Length + read > LargestUpload)
                return null;
            kept.Write(part, 0, read);
        }
        return kept.ToArray();
    }
}
