using Scheduler.Service.Catalog;
using Scheduler.Service.Storage;

var builder = WebApplication.CreateBuilder(args);
if (!builder.TryAddCatalog(Console.Error))
    return 1;
builder.Services.ConfigureHttpJsonOptions(http => Json.Configure(http.SerializerOptions));

var app = builder.Build();
app.MapCatalog();
app.Run();
return 0;

/// <summary>Named so that tests can start the real service.</summary>
public partial class Program;
