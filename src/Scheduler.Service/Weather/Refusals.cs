using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.WebUtilities;

namespace Scheduler.Service.Weather;

/// <summary>The problem documents (RFC 9457) of the weather's addresses.</summary>
internal static class Refusals
{
    public static ProblemHttpResult NotFound() => Of(StatusCodes.Status404NotFound, "There is nothing here.");

    public static ProblemHttpResult Of(int status, string detail) =>
        TypedResults.Problem(new ProblemDetails { Status = status, Title = ReasonPhrases.GetReasonPhrase(status), Detail = detail });

    /// <summary>All faults at once, keyed by field.</summary>
    public static ProblemHttpResult Invalid(IDictionary<string, string[]> errors) =>
        TypedResults.Problem(new HttpValidationProblemDetails(errors)
        {
            Status = StatusCodes.Status400BadRequest,
            Title = "Some fields are wrong.",
            Detail = "Nothing was changed. Each field under 'errors' says what is wrong and what to give instead."
        });
}
