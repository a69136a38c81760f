using Scheduler.Service.Accounts;
using Scheduler.Service.Catalog;
using Scheduler.Service.Demo;
using Scheduler.Service.Feeds;
using Scheduler.Service.Gardens;
using Scheduler.Service.Hindcast;
using Scheduler.Service.Hosting;
using Scheduler.Service.Pages;
using Scheduler.Service.Planning;
using Scheduler.Service.Plans;
using Scheduler.Service.Roads;
using Scheduler.Service.Storage;
using Scheduler.Service.Storage.Backup;
using Scheduler.Service.Trees;
using Scheduler.Service.Weather;

if (args is [HindcastCommand.Name, .. var files])
    return HindcastCommand.Run(files, Console.Error);
var builder = WebApplication.CreateBuilder(args);
builder.AddSettings(args);
if (args is [var command, .. var targets] && BackupCommands.Knows(command))
    return await BackupCommands.RunAsync(command, targets, builder.Configuration, Console.Out, Console.Error);
if (!builder.TryAddCatalog(Console.Error))
    return 1;
builder.AddClock();
builder.AddTelemetry();
builder.AddHealth();
builder.AddRateLimits();
builder.AddApiDocument();
builder.AddStorage();
builder.AddAccounts();
builder.AddGardens();
builder.AddTrees();
builder.Services.AddWeather(builder.Configuration);
builder.AddPlanning();
builder.AddPlans();
builder.AddFeeds();
builder.AddRoads();
builder.AddDemo();
builder.AddPages();

var app = builder.Build();
app.Services.GetRequiredService<Database>().Migrate();
if (!await app.HasSpeciesInUseAsync(Console.Error))
    return 1;

app.UseSecurityHeaders();
app.UseMiddleware<RequestLog>();
app.UseProblems();
app.UseRouting();
app.UseAuthentication();
app.UseRateLimiter();
app.UseAuthorization();
app.UseFeeds();
app.UsePages();

app.MapHealth();
app.MapTelemetry();
app.MapApiDocument();
app.MapAccounts();
app.MapGardens();
app.MapTrees();
app.MapOwned("weather").MapWeather();
app.MapPlans();
app.MapPlanning();
app.MapHindcast();
app.MapFeeds();
app.MapRoads();
app.MapCatalog();
app.MapPages();

await app.MakeDemoAsync();
app.Run();
return 0;

/// <summary>Named so that tests can start the real service.</summary>
public partial class Program;
