var builder = WebApplication.CreateBuilder(args);
var app = builder.Build();
app.Run();

/// <summary>Named so that tests can start the real service.</summary>
public partial class Program;
