using Microsoft.OpenApi;

namespace Scheduler.Service.Hosting;

/// <summary>What all addresses under <c>/api/v1</c> have in common.</summary>
public static class Api
{
    public const string Root = "/api/v1";

    /// <summary>A group whose addresses need an access key.</summary>
    public static RouteGroupBuilder MapOwned(this IEndpointRouteBuilder routes, string tag) =>
        routes.MapGroup(Root)
            .WithTags(tag)
            .RequireAuthorization()
            .AddEndpointFilter<RequestChecks>()
            .AddEndpointFilter<IdempotencyFilter>()
            .WithMetadata(Faults)
            .ProducesProblem(StatusCodes.Status401Unauthorized)
            .ProducesProblem(StatusCodes.Status404NotFound)
            .ProducesProblem(StatusCodes.Status429TooManyRequests);

    /// <summary>A group that anybody may use.</summary>
    public static RouteGroupBuilder MapOpen(this IEndpointRouteBuilder routes, string tag) =>
        routes.MapGroup(Root)
            .WithTags(tag)
            .AllowAnonymous()
            .AddEndpointFilter<RequestChecks>()
            .AddEndpointFilter<IdempotencyFilter>()
            .WithMetadata(Faults)
            .ProducesProblem(StatusCodes.Status429TooManyRequests);

    /// <summary>Documents the two query parameters of a paged list.</summary>
    public static RouteHandlerBuilder Paged(this RouteHandlerBuilder route) =>
        route.AddOpenApiOperationTransformer((operation, _, _) =>
        {
            operation.Parameters ??= [];
            operation.Parameters.Add(Query("limit", JsonSchemaType.Integer, $"Most items of the page, 1 to {PageRequest.MaxLimit}; {PageRequest.UsualLimit} when left out."));
            operation.Parameters.Add(Query("after", JsonSchemaType.String, "The 'next' of the page before."));
            return Task.CompletedTask;
        });

    private static readonly ProducesResponseTypeMetadata Faults =
        new(StatusCodes.Status400BadRequest, typeof(HttpValidationProblemDetails), ["application/problem+json"]);

    private static OpenApiParameter Query(string name, JsonSchemaType type, string description) =>
        new() { Name = name, In = ParameterLocation.Query, Description = description, Schema = new OpenApiSchema { Type = type } };
}
