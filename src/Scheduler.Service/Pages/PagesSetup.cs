using System.Globalization;
using Microsoft.AspNetCore.ResponseCompression;
using Scheduler.Service.Pages.Calendars;
using Scheduler.Service.Pages.Clock;
using Scheduler.Service.Pages.Data;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Keys;
using Scheduler.Service.Pages.Layout;
using Scheduler.Service.Pages.LongWork;
using Scheduler.Service.Pages.More;
using Scheduler.Service.Pages.Numbers;
using Scheduler.Service.Pages.Offline;
using Scheduler.Service.Pages.Places;
using Scheduler.Service.Pages.Plan;
using Scheduler.Service.Pages.Practice;
using Scheduler.Service.Pages.Reminders;
using Scheduler.Service.Pages.Season;
using Scheduler.Service.Pages.SignIn;
using Scheduler.Service.Pages.Start;
using Scheduler.Service.Pages.Today;
using Scheduler.Service.Pages.Trees;
using Scheduler.Service.Pages.Year;

namespace Scheduler.Service.Pages;

/// <summary>Pages for owners, rendered on the server; they work without script.</summary>
public static class PagesSetup
{
    public static void AddPages(this WebApplicationBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        // Whatever language the machine speaks: calendars, JSON, CSV and the catalog's texts are the same everywhere.
        CultureInfo.DefaultThreadCurrentCulture = CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
        var services = builder.Services;
        services.AddRazorComponents();
        services.AddLocalization();
        services.AddHttpContextAccessor();
        builder.AddPageCookies();
        services.Configure<ResponseCompressionOptions>(options => options.MimeTypes = [.. options.MimeTypes, "text/html"]);
        builder.AddOidc();
        services.AddScoped<PageContext>();
        services.AddScoped<OwnerTime>();
        services.AddScoped<FeedPages>();
        services.AddScoped<ReminderPages>();
        services.AddSingleton<ApiCall>();
        services.AddSingleton<TodayPictures>();
        services.AddSingleton<TodayBuilder>();
        services.AddSingleton<WindowTaps>();
        services.AddSingleton<SeasonPictures>();
        services.AddSingleton<PlanBuilder>();
        services.AddSingleton<LongWorks>();
        services.AddSingleton<ClockBuilder>();
        services.AddSingleton<SpeciesNames>();
        services.AddSingleton<TreeForms>();
        services.AddSingleton<TreeBuilder>();
    }

    public static void UsePages(this WebApplication app) => app.UsePageFrame();

    public static void MapPages(this WebApplication app)
    {
        ArgumentNullException.ThrowIfNull(app);
        app.MapAssets();
        app.MapSignIn();
        app.MapToday();
        app.MapStart();
        app.MapTreePages();
        app.MapNumbers();
        app.MapSeason();
        app.MapYear();
        app.MapPlanPage();
        app.MapClock();
        app.MapMore();
        app.MapFeedPages();
        app.MapReminders();
        app.MapGardenPages();
        app.MapPractice();
        app.MapData();
        app.MapKeyPages();
        app.MapOffline();
        app.MapOidc();
    }
}
