using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.WebUtilities;

namespace Scheduler.Service.Hosting;

/// <summary>
/// Every refusal of the service as a problem document (RFC 9457). The texts hold nothing that differs between what is missing and
/// what belongs to somebody else.
/// </summary>
public static class Problems
{
    public static ProblemHttpResult NotFound() => Of(StatusCodes.Status404NotFound);

    public static ProblemHttpResult Conflict(string detail, FaultKind? kind = null) => Of(StatusCodes.Status409Conflict, detail, kind);

    public static ProblemHttpResult Forbidden(string detail, FaultKind? kind = null) => Of(StatusCodes.Status403Forbidden, detail, kind);

    public static ProblemHttpResult Unprocessable(string detail, FaultKind? kind = null) => Of(StatusCodes.Status422UnprocessableEntity, detail, kind);

    public static ProblemHttpResult TooLarge(int bytes) =>
        Of(StatusCodes.Status413PayloadTooLarge, $"The body is larger than {bytes} bytes, the most that is read here. Send less at a time.");

    /// <summary>A body that is no JSON document at all, so that no field can be named.</summary>
    public static ProblemHttpResult Unreadable(string why) =>
        Of(StatusCodes.Status400BadRequest, $"The body cannot be read as JSON: {why}");

    public static ProblemHttpResult Invalid(FieldFaults faults)
    {
        ArgumentNullException.ThrowIfNull(faults);
        return TypedResults.Problem(new HttpValidationProblemDetails(faults.ByField())
        {
            Status = StatusCodes.Status400BadRequest,
            Title = "Some fields are wrong.",
            Detail = "Nothing was changed. Each field under 'errors' says what is wrong and what to give instead.",
            Extensions = { ["kinds"] = faults.KindsByField() }
        });
    }

    /// <param name="kind">The same without words; the document then has it as <c>kind</c>.</param>
    public static ProblemHttpResult Of(int status, string? detail = null, FaultKind? kind = null)
    {
        var problem = new ProblemDetails { Status = status, Title = ReasonPhrases.GetReasonPhrase(status), Detail = detail ?? Usual(status) };
        if (kind is not null)
            problem.Extensions["kind"] = kind;
        return TypedResults.Problem(problem);
    }

    private static string Usual(int status) => status switch
    {
        StatusCodes.Status400BadRequest => "The request cannot be read.",
        StatusCodes.Status401Unauthorized => "Give a valid access key: 'Authorization: Bearer <access key>'.",
        StatusCodes.Status404NotFound => "There is nothing here.",
        StatusCodes.Status405MethodNotAllowed => "This address does not take that method; the header 'Allow' lists those it takes.",
        StatusCodes.Status406NotAcceptable => "This address has no such representation.",
        StatusCodes.Status413PayloadTooLarge => "The body is larger than what is read here. Send less at a time.",
        StatusCodes.Status415UnsupportedMediaType => "This address does not read that content type. Send 'Content-Type: application/json'.",
        StatusCodes.Status429TooManyRequests => "Too many requests from this address. Try again later; 'Retry-After' says when, in seconds.",
        StatusCodes.Status503ServiceUnavailable => "The service is not ready.",
        >= 500 => "The service made a mistake. It has been logged; the request can be sent again.",
        _ => "The request was refused."
    };
}
