using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace Scheduler.Service.Catalog;

/// <summary>Degraded while the owner's folder holds a change that could not be taken; the service works on with what it had.</summary>
internal sealed class CatalogHealth(CurrentCatalog catalog) : IHealthCheck
{
    public Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default) =>
        Task.FromResult(catalog.Reading.Problem is { } problem
            ? HealthCheckResult.Degraded($"{problem.Faults.Count} faults in the owner's folder; see GET /api/v1/catalog.")
            : HealthCheckResult.Healthy());
}
