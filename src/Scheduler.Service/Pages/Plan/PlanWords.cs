using NodaTime;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Plans;

namespace Scheduler.Service.Pages.Plan;

/// <summary>What a plan says of one window, in words.</summary>
internal static class PlanWords
{
    /// <summary>What the weather holds, and until when.</summary>
    public static string Held(PageContext page, StoredWindow stored, LocalDate today)
    {
        var window = stored.Body.Window;
        var until = window.HeldUntil is { } day ? page["Window.HeldUntil", page.Locale.Day(day, today)] : page["Window.HeldOn"];
        return window.Reasons.FirstOrDefault(reason => reason.Id == window.Hold) is { } why ? $"{page["Plan.HeldNow", until]} {page.Locale.Told(why.Text)}" : page["Plan.HeldNow", until];
    }
}
