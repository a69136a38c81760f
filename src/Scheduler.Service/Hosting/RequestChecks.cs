namespace Scheduler.Service.Hosting;

/// <summary>Answers a body or a page request that could not be read, before the handler runs.</summary>
public sealed class RequestChecks : IEndpointFilter
{
    public ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        ArgumentNullException.ThrowIfNull(context);
        ArgumentNullException.ThrowIfNull(next);
        foreach (var argument in context.Arguments)
        {
            var refusal = argument switch
            {
                JsonBody body => body.Refusal,
                PageRequest page => page.Refusal,
                _ => null
            };
            if (refusal is not null)
                return ValueTask.FromResult<object?>(refusal);
        }
        return next(context);
    }
}
