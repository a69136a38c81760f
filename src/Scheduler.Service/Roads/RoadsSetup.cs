using Microsoft.Extensions.Options;

namespace Scheduler.Service.Roads;

/// <summary>The roads other than feeds, and the outbox they are fed from.</summary>
public static class RoadsSetup
{
    public static void AddRoads(this WebApplicationBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        var services = builder.Services;
        services.AddOptions<RoadsOptions>().BindConfiguration("Roads")
            .Validate(
                options => options.Contact is null || options.Contact.StartsWith("mailto:", StringComparison.Ordinal) || options.Contact.StartsWith("https:", StringComparison.Ordinal),
                "Roads:Contact must begin with mailto: or https:.")
            .ValidateOnStart();
        services.AddOptions<MailOptions>().BindConfiguration("Mail").ValidateOnStart();
        services.AddSingleton<IValidateOptions<MailOptions>, MailOptionsValidator>();
        services.AddOutsideHttp();
        services.AddSingleton<PublicRoot>();
        services.AddSingleton<RoadBell>();
        services.AddSingleton<RoadLimits>();
        services.AddSingleton<RoadSeal>();
        services.AddSingleton<RoadStore>();
        services.AddSingleton<Outbox>();
        services.AddSingleton<NoticeBook>();
        services.AddSingleton<INoticeBook>(provider => provider.GetRequiredService<NoticeBook>());
        services.AddSingleton<MailPost>();
        services.AddSingleton<MailWriter>();
        services.AddSingleton<MailRoad>();
        services.AddSingleton<PushKeys>();
        services.AddSingleton<IRoadCarrier>(provider => provider.GetRequiredService<MailRoad>());
        services.AddSingleton<IRoadCarrier, PushRoad>();
        services.AddSingleton<IRoadCarrier, WebhookRoad>();
        services.AddSingleton<RoadKeeper>();
        services.AddSingleton<RoadRun>();
        services.AddSingleton<RoadDesk>();
        services.AddSingleton<RoadParts>();
        services.AddHostedService<RoadWorker>();
    }
}
