namespace Scheduler.Service.Hosting;

/// <summary>
/// Where settings come from; later ones win: <c>config/scheduler.json</c> beside the program, the same file in the working folder, the
/// environment (<c>__</c> for <c>:</c>), the command line.
/// </summary>
public static class Settings
{
    private const string UsualUrl = "http://127.0.0.1:5080";

    public static void AddSettings(this WebApplicationBuilder builder, string[] args)
    {
        var configuration = builder.Configuration;
        configuration.Sources.Clear();
        configuration.AddInMemoryCollection(new Dictionary<string, string?> { ["Urls"] = UsualUrl });
        AddFile(configuration, AppContext.BaseDirectory);
        AddFile(configuration, Directory.GetCurrentDirectory());
        configuration.AddEnvironmentVariables();
        configuration.AddCommandLine(args);
        builder.WebHost.UseUrls(configuration["Urls"] ?? UsualUrl);
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.AddServerHeader = false);
    }

    /// <summary>Whether nobody outside this machine can reach the service.</summary>
    public static bool OnlyLoopback(this IConfiguration configuration) =>
        (configuration["Urls"] ?? UsualUrl).Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .All(url => Uri.TryCreate(url, UriKind.Absolute, out var parsed) && parsed.IsLoopback);

    private static void AddFile(ConfigurationManager configuration, string folder) =>
        configuration.AddJsonFile(Path.Combine(folder, "config", "scheduler.json"), optional: true, reloadOnChange: false);
}
