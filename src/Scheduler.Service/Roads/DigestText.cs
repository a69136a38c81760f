using System.Net;
using System.Text;
using Scheduler.Service.Feeds;

namespace Scheduler.Service.Roads;

/// <summary>
/// A mail's words, plain and as HTML: first what is urgent, then what is planned, what opens, what closes, what is held. Each tree's
/// work is told in full once.
/// </summary>
internal sealed class DigestText(Parcel parcel, string leaveUrl)
{
    private static readonly (string Heading, NoticeKind Kind)[] Sections =
    [
        ("Protect", NoticeKind.Protection), ("Planned", NoticeKind.Planned), ("Opening", NoticeKind.Opening),
        ("Closing soon", NoticeKind.Closing), ("On hold", NoticeKind.Held)
    ];

    public string Subject
    {
        get
        {
            var jobs = parcel.Shown.DistinctBy(item => item.Window.Id).Count();
            return parcel.IsUrgent
                ? jobs == 1 ? $"Frost tonight: {PlainText.Line(parcel.Shown[0].Window.Body.TreeName)}" : $"Frost tonight: {jobs} trees"
                : $"Bonsai work, {NoticeText.Date(parcel.Day)}: {jobs} {(jobs == 1 ? "job" : "jobs")}";
        }
    }

    public string Plain()
    {
        var text = new StringBuilder();
        foreach (var (heading, items) in Parts())
        {
            text.Append(heading.ToUpperInvariant()).Append("\n\n");
            foreach (var (line, details) in items)
            {
                text.Append("* ").Append(line).Append('\n');
                foreach (var detail in details)
                    text.Append("    ").Append(detail).Append('\n');
                text.Append('\n');
            }
        }
        return text.Append("To end these mails:\n").Append(leaveUrl).Append('\n').ToString();
    }

    public string Html()
    {
        var html = new StringBuilder();
        foreach (var (heading, items) in Parts())
        {
            html.Append("<h2>").Append(Encoded(heading)).Append("</h2>");
            foreach (var (line, details) in items)
            {
                html.Append("<h3>").Append(Encoded(line)).Append("</h3>");
                if (details.Count > 0)
                    html.Append("<p>").AppendJoin("<br>", details.Select(Encoded)).Append("</p>");
            }
        }
        return html.Append("<p><a href=\"").Append(Encoded(leaveUrl)).Append("\">End these mails</a></p>").ToString();
    }

    private IEnumerable<(string Heading, List<(string Line, IReadOnlyList<string> Details)> Items)> Parts()
    {
        var told = new HashSet<Guid>();
        foreach (var (heading, kind) in Sections)
        {
            var items = parcel.Shown.Where(item => item.Job.Kind == kind)
                .OrderBy(item => item.Due).ThenBy(item => item.Window.Body.GardenName, StringComparer.Ordinal)
                .ThenBy(item => item.Window.Body.TreeName, StringComparer.Ordinal).ThenBy(item => item.NoticeId)
                .Select(item => (Line(item), told.Add(item.Window.Id) ? Details(item) : []))
                .ToList();
            if (items.Count > 0)
                yield return (kind == NoticeKind.Protection && parcel.IsUrgent ? "Tonight" : heading, items);
        }
    }

    private string Line(ParcelItem item) => $"{NoticeText.Line(item, parcel.Day)} ({PlainText.Line(item.Window.Body.GardenName)})";

    private static IReadOnlyList<string> Details(ParcelItem item) => EventText.Description(item.Window).Split('\n', StringSplitOptions.RemoveEmptyEntries);

    private static string Encoded(string text) => WebUtility.HtmlEncode(text);
}
