using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;
using NodaTime;
using Scalar.AspNetCore;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Hosting;

/// <summary>The API document at <c>/openapi/v1.json</c>, and the JSON dialect it describes.</summary>
public static class ApiDocument
{
    public static void AddApiDocument(this WebApplicationBuilder builder)
    {
        builder.Services.ConfigureHttpJsonOptions(options => Json.Configure(options.SerializerOptions));
        builder.Services.AddOpenApi("v1", options =>
        {
            options.AddSchemaTransformer(DescribeTimes);
            options.AddDocumentTransformer(DescribeService);
            options.AddOperationTransformer(DescribeHeaders);
        });
    }

    public static void MapApiDocument(this WebApplication app)
    {
        app.MapOpenApi("/openapi/{documentName}.json").AllowAnonymous();
        app.MapScalarApiReference("/docs", page =>
        {
            // Nothing that leaves this machine: no telemetry, no assistant, no tools of the library's maker.
            page.Telemetry = false;
            page.Agent = new ScalarAgentOptions { Disabled = true };
            page.ShowDeveloperTools = DeveloperToolsVisibility.Never;
            page.HideClientButton = true;
            page.DefaultFonts = false;
        }).AllowAnonymous();
        // The page is the library's own and starts itself with a script in its text; it shows no owner's data.
        app.UseWhen(context => context.Request.Path.StartsWithSegments("/docs"), branch => branch.Use((context, next) =>
        {
            context.Response.Headers.ContentSecurityPolicy = PagePolicy;
            return next(context);
        }));
    }

    private const string PagePolicy =
        "default-src 'self'; script-src 'self' 'unsafe-inline'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; font-src 'self' data:; "
        + "connect-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'";

    private static Task DescribeTimes(OpenApiSchema schema, OpenApiSchemaTransformerContext context, CancellationToken cancel)
    {
        var type = Nullable.GetUnderlyingType(context.JsonTypeInfo.Type) ?? context.JsonTypeInfo.Type;
        var format = type == typeof(LocalDate) ? "date" : type == typeof(Instant) ? "date-time" : null;
        if (format is null)
            return Task.CompletedTask;
        schema.Type = JsonSchemaType.String;
        schema.Format = format;
        schema.Properties = null;
        schema.Required = null;
        return Task.CompletedTask;
    }

    private static Task DescribeService(OpenApiDocument document, OpenApiDocumentTransformerContext context, CancellationToken cancel)
    {
        document.Info.Title = "Scheduler";
        document.Info.Description = "When to do which bonsai work, from the weather of the garden. Every refusal is application/problem+json.";
        document.Components ??= new OpenApiComponents();
        document.Components.SecuritySchemes ??= new Dictionary<string, IOpenApiSecurityScheme>();
        document.Components.SecuritySchemes["accessKey"] = new OpenApiSecurityScheme
        {
            Type = SecuritySchemeType.Http,
            Scheme = "bearer",
            Description = "An access key, as sign-up shows it once."
        };
        return Task.CompletedTask;
    }

    private static Task DescribeHeaders(OpenApiOperation operation, OpenApiOperationTransformerContext context, CancellationToken cancel)
    {
        if (context.Description.ActionDescriptor.EndpointMetadata.OfType<Microsoft.AspNetCore.Authorization.IAuthorizeData>().Any())
        {
            operation.Security ??= [];
            operation.Security.Add(new OpenApiSecurityRequirement { [new OpenApiSecuritySchemeReference("accessKey", context.Document)] = [] });
        }
        if (context.Description.HttpMethod == HttpMethods.Post)
        {
            operation.Parameters ??= [];
            operation.Parameters.Add(new OpenApiParameter
            {
                Name = IdempotencyFilter.Header,
                In = ParameterLocation.Header,
                Description = "The same key and body within a day gives the first answer again.",
                Schema = new OpenApiSchema { Type = JsonSchemaType.String, MaxLength = IdempotencyFilter.MaxLength }
            });
        }
        return Task.CompletedTask;
    }
}
