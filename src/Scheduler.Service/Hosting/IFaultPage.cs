namespace Scheduler.Service.Hosting;

/// <summary>Metadata of addresses that are read by people: what they answer in place of a problem document.</summary>
public interface IFaultPage
{
    Task WriteAsync(HttpContext context, int status);
}
