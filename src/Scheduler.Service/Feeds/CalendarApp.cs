namespace Scheduler.Service.Feeds;

/// <summary>Kinds of programs that fetch feeds, by what they do with alarms and how often they come.</summary>
public enum CalendarAppKind
{
    /// <summary>An account on the web, whose own computers fetch.</summary>
    Account,

    /// <summary>The subscription of a phone or tablet itself.</summary>
    Device,

    /// <summary>An app that puts feeds into the phone's calendar.</summary>
    Bridge,

    /// <summary>A program on a computer.</summary>
    Desktop,

    /// <summary>A calendar on a server of the owner's.</summary>
    Server,

    /// <summary>A command or script that runs by the clock.</summary>
    Script,

    /// <summary>Opened by hand in a browser.</summary>
    Browser,

    /// <summary>It does not say, or nothing is known of it.</summary>
    Other
}

/// <summary>A kind of calendar app, with what its owner should know.</summary>
/// <param name="Alarms">What becomes of the reminders of a feed.</param>
/// <param name="Refresh">How often it fetches.</param>
public sealed record CalendarApp(CalendarAppKind Kind, string Name, string Alarms, string Refresh)
{
    /// <summary>All kinds. What is said of them is from reports of users and from sources of such programs, as of 2026.</summary>
    public static IReadOnlyList<CalendarApp> All { get; } =
    [
        new(CalendarAppKind.Account, "A calendar account on the web",
            "Drops the reminders of a feed. Set a notification for this calendar in the account itself.",
            "Every 8 to 24 hours, sometimes later; nothing can hurry it."),
        new(CalendarAppKind.Device, "The phone's or tablet's own subscription",
            "Keeps reminders unless the switch that removes them was on while subscribing.",
            "As set for fetching accounts on the device."),
        new(CalendarAppKind.Bridge, "An app that puts feeds into the phone's calendar",
            "Keeps reminders, and can add one of its own.",
            "From every 15 minutes to weekly, as set in it; saving power can stretch that to a day."),
        new(CalendarAppKind.Desktop, "A calendar program on a computer",
            "Keeps reminders; they ring while it is open and reminders are switched on for this calendar.",
            "About every half hour while it is open, or as set in it."),
        new(CalendarAppKind.Server, "A calendar on a server of your own",
            "Often leaves reminders out unless it is told to keep them.",
            "As the feed asks, at most once an hour."),
        new(CalendarAppKind.Script, "A command or script",
            "Keeps reminders in its files; whether they ring depends on what shows them.",
            "As often as it is started."),
        new(CalendarAppKind.Browser, "A browser",
            "Shows or saves the feed once; nothing rings.",
            "Only when the address is opened again. To follow changes, subscribe in a calendar app."),
        new(CalendarAppKind.Other, "A program that is not known here",
            "Unknown; try a reminder of a few minutes.",
            "Unknown; the time of the last fetch tells.")
    ];

    // Names under which programs announce themselves; the first that is found decides, so what says more stands first.
    private static readonly (string Part, CalendarAppKind Kind)[] Names =
    [
        ("google-calendar", CalendarAppKind.Account), ("googlecalendar", CalendarAppKind.Account), ("microsoft.exchange", CalendarAppKind.Account),
        ("icsx5", CalendarAppKind.Bridge), ("icsdroid", CalendarAppKind.Bridge), ("davx5", CalendarAppKind.Bridge), ("davdroid", CalendarAppKind.Bridge),
        ("nextcloud", CalendarAppKind.Server), ("owncloud", CalendarAppKind.Server), ("sabredav", CalendarAppKind.Server), ("sogo", CalendarAppKind.Server),
        ("zimbra", CalendarAppKind.Server),
        ("thunderbird", CalendarAppKind.Desktop), ("lightning", CalendarAppKind.Desktop), ("evolution", CalendarAppKind.Desktop), ("calendaragent", CalendarAppKind.Desktop),
        ("korganizer", CalendarAppKind.Desktop), ("akonadi", CalendarAppKind.Desktop), ("microsoft office", CalendarAppKind.Desktop), ("outlook", CalendarAppKind.Desktop),
        ("dataaccessd", CalendarAppKind.Device), ("ios/", CalendarAppKind.Device), ("ipados/", CalendarAppKind.Device),
        ("vdirsyncer", CalendarAppKind.Script), ("khal", CalendarAppKind.Script), ("curl/", CalendarAppKind.Script), ("wget/", CalendarAppKind.Script),
        ("python", CalendarAppKind.Script),
        ("mozilla/", CalendarAppKind.Browser)
    ];

    /// <summary>The kind that a <c>User-Agent</c> header points to.</summary>
    public static CalendarAppKind KindOf(string userAgent)
    {
        ArgumentNullException.ThrowIfNull(userAgent);
        foreach (var (part, kind) in Names)
        {
            if (userAgent.Contains(part, StringComparison.OrdinalIgnoreCase))
                return kind;
        }
        return CalendarAppKind.Other;
    }
}
