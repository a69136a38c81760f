namespace Scheduler.Pages.Tests.Support;

/// <summary>All pages that are looked at in every size and both color schemes. A new page is added here.</summary>
/// <param name="Name">Short, for file names.</param>
/// <param name="Path">Where it is; {garden}, {tree}, {feed} and {road} stand for the demonstration's first.</param>
public sealed record EveryPage(string Name, string Path, bool SignedIn = true)
{
    public static readonly IReadOnlyList<EveryPage> All =
    [
        new("welcome", "/", SignedIn: false),
        new("sign-in", "/sign-in?expired=1", SignedIn: false),
        new("new-account", "/account/new", SignedIn: false),
        new("missing", "/nothing-here"),
        new("today", "/today"),
        new("more", "/more"),
        new("season", "/season"),
        new("season-south", "/season?garden={garden}&species=pinus-thunbergii&sort=early"),
        new("year", "/year"),
        new("year-table", "/year?as=table&sort=opens&state=open"),
        new("plan", "/plan"),
        new("plan-all", "/plan?garden={garden}&show=all"),
        new("clock", "/clock?garden={garden}"),
        new("start", "/start?q=o"),
        new("calendar", "/start/calendar"),
        new("trees", "/trees"),
        new("trees-none", "/trees?q=nothing-fits"),
        new("tree", "/trees/{tree}"),
        new("tree-new", "/trees/new?garden={garden}&from=start"),
        new("tree-edit", "/trees/{tree}/edit"),
        new("tree-remove", "/trees/{tree}/remove"),
        new("branches", "/trees/{tree}/branches"),
        new("numbers", "/numbers/tip-pinch"),
        new("feeds", "/feeds"),
        new("feed", "/feeds/{feed}"),
        new("feed-new", "/feeds/new"),
        new("feed-edit", "/feeds/{feed}/edit"),
        new("feed-rotate", "/feeds/{feed}/rotate"),
        new("reminders", "/reminders"),
        new("reminders-none", "/reminders?q=nothing-fits"),
        new("reminder", "/reminders/{road}"),
        new("reminder-edit", "/reminders/{road}/edit"),
        new("reminder-delete", "/reminders/{road}/delete"),
        new("reminder-mail", "/reminders/new/email"),
        new("reminder-webhook", "/reminders/new/webhook"),
        new("gardens", "/gardens"),
        new("garden", "/gardens/{garden}"),
        new("garden-delete", "/gardens/{garden}/delete"),
        new("readings", "/gardens/{garden}/readings"),
        new("bench", "/gardens/{garden}/bench"),
        new("practice", "/practice"),
        new("data", "/data"),
        new("erase", "/data/erase"),
        new("erased", "/data/erased", SignedIn: false),
        new("keys", "/keys"),
        new("offline", "/offline")
    ];

    public override string ToString() => Name;
}
