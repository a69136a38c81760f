using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.DataProtection.KeyManagement;
using Microsoft.AspNetCore.DataProtection.Repositories;
using Microsoft.AspNetCore.ResponseCompression;
using Microsoft.Extensions.Options;
using Scheduler.Service.Accounts;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Feeds;

/// <summary>What feeds need of the host.</summary>
public static class FeedsSetup
{
    public static void AddFeeds(this WebApplicationBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        var services = builder.Services;
        services.AddOptions<FeedOptions>().BindConfiguration("Feeds")
            .Validate(options => Uri.CheckHostName(options.Host) is UriHostNameType.Dns, "Feeds:Host must be a host name, such as scheduler.local.")
            .ValidateOnStart();
        services.AddDataProtection().SetApplicationName("Scheduler");
        services.AddOptions<KeyManagementOptions>()
            .Configure<IOptions<StorageOptions>, ILoggerFactory>((keys, storage, log) =>
                keys.XmlRepository = new FileSystemXmlRepository(storage.Value.MakeKeyFolder(), log));
        services.AddSingleton(TimeProvider.System);
        services.AddSingleton<FeedTokens>();
        services.AddSingleton<FeedStore>();
        services.AddSingleton<FeedBodies>();
        services.AddSingleton<IFeedBuilder, FeedBuilder>();
        services.AddSingleton<FeedKeeper>();
        services.AddSingleton<FeedAddresses>();
        services.AddSingleton<FeedDesk>();
        services.AddSingleton<IFeedParts, FeedParts>();
        services.AddSingleton<FetchLog>();
        services.AddHostedService(provider => provider.GetRequiredService<FetchLog>());
        // Only calendars: answers that mix secrets with what a stranger may choose are best left uncompressed under TLS.
        services.AddResponseCompression(compression =>
        {
            compression.EnableForHttps = true;
            compression.MimeTypes = [CalendarsApi.ContentType];
            compression.Providers.Add<GzipCompressionProvider>();
        });
    }

    /// <summary>To stand before the endpoints.</summary>
    public static void UseFeeds(this WebApplication app) =>
        app.UseWhen(context => context.Request.Path.StartsWithSegments(Api.Root + "/calendars"), branch => branch.UseResponseCompression());
}
