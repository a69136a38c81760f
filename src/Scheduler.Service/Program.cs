using Scheduler.Service.Accounts;
using Scheduler.Service.Feeds;
using Scheduler.Service.Gardens;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;
using Scheduler.Service.Trees;

var builder = WebApplication.CreateBuilder(args);
builder.AddSettings(args);
builder.AddClock();
builder.AddTelemetry();
builder.AddHealth();
builder.AddRateLimits();
builder.AddApiDocument();
builder.AddStorage();
builder.AddAccounts();
builder.AddGardens();
builder.AddTrees();
builder.AddFeeds();

var app = builder.Build();
app.Services.GetRequiredService<Database>().Migrate();

app.UseSecurityHeaders();
app.UseMiddleware<RequestLog>();
app.UseProblems();
app.UseRouting();
app.UseAuthentication();
app.UseRateLimiter();
app.UseAuthorization();
app.UseFeeds();

app.MapHealth();
app.MapTelemetry();
app.MapApiDocument();
app.MapAccounts();
app.MapGardens();
app.MapTrees();
app.MapFeeds();
app.Run();

/// <summary>Named so that tests can start the real service.</summary>
public partial class Program;
