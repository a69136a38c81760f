using System.Net;
using System.Text;
using Scheduler.Service.Accounts;
using Scheduler.Service.Feeds;

namespace Scheduler.Service.Roads;

/// <summary>
/// A mail's words, plain and as HTML: first what is urgent, then what is planned, what opens, what closes, what is held. Each tree's
/// work is told in full once.
/// </summary>
internal sealed class DigestText(Parcel parcel, string leaveUrl, OwnerWords words)
{
    private static readonly (string Heading, NoticeKind Kind)[] Sections =
    [
        ("Mail.Protection", NoticeKind.Protection), ("Mail.Planned", NoticeKind.Planned), ("Mail.Opening", NoticeKind.Opening),
        ("Mail.Closing", NoticeKind.Closing), ("Mail.Held", NoticeKind.Held)
    ];

    public string Subject
    {
        get
        {
            var jobs = parcel.Shown.DistinctBy(item => item.Window.Id).Count();
            return parcel.IsUrgent
                ? jobs == 1 ? words["Mail.FrostTree", PlainText.Line(parcel.Shown[0].Window.Body.TreeName)] : words["Mail.FrostTrees", jobs]
                : jobs == 1 ? words["Mail.SubjectOne", words.Weekday(parcel.Day)] : words["Mail.Subject", words.Weekday(parcel.Day), jobs];
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
        return text.Append(words["Mail.End"]).Append('\n').Append(leaveUrl).Append('\n').ToString();
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
        return html.Append("<p><a href=\"").Append(Encoded(leaveUrl)).Append("\">").Append(Encoded(words["Mail.EndLink"])).Append("</a></p>").ToString();
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
                yield return (kind == NoticeKind.Protection && parcel.IsUrgent ? words["Mail.Tonight"] : words[heading], items);
        }
    }

    private string Line(ParcelItem item) => $"{NoticeText.Line(item, parcel.Day, words)} ({PlainText.Line(item.Window.Body.GardenName)})";

    private IReadOnlyList<string> Details(ParcelItem item) => EventText.Description(item.Window, words).Split('\n', StringSplitOptions.RemoveEmptyEntries);

    private static string Encoded(string text) => WebUtility.HtmlEncode(text);
}
