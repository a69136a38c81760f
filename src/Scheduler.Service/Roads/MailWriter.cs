using System.Net;
using System.Text;
using Microsoft.Extensions.Options;
using MimeKit;
using NodaTime;
using Scheduler.Service.Accounts;
using Scheduler.Service.Feeds;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Roads;

/// <summary>
/// Writes mails. Each says that a machine sent it (RFC 3834) and, after the first question, how to end them with one click (RFC 2369,
/// RFC 8058). A repeat of the same parcel carries the same Message-Id.
/// </summary>
public sealed class MailWriter(IOptions<MailOptions> options, IOptions<FeedOptions> feeds, PublicRoot root, IClock clock)
{
    private const string FileName = "bonsai-work.ics";

    /// <summary>The digest, or tonight's frost, with the same events as the feed as a calendar file.</summary>
    public MimeMessage Digest(MailTarget target, Parcel parcel, OwnerWords words)
    {
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(parcel);
        ArgumentNullException.ThrowIfNull(words);
        var text = new DigestText(parcel, LeaveUrl(target), words);
        var body = new Multipart("mixed") { Alternative(text.Plain(), text.Html(), words), CalendarFile(parcel) };
        return Made(target, $"{parcel.Id}@{Domain}", text.Subject, body, canLeave: true);
    }

    public MimeMessage Test(Road road, MailTarget target, OwnerWords words)
    {
        ArgumentNullException.ThrowIfNull(road);
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(words);
        var body = Words(words["Mail.Test", PlainText.Line(road.Settings.Name)], LeaveUrl(target), words["Mail.End"], words);
        return Made(target, $"{road.Id:N}.test.{Guid.NewGuid():N}@{Domain}", words["Mail.TestSubject"], body, canLeave: true);
    }

    public MimeMessage Question(Road road, MailTarget target, string confirmToken, OwnerWords words)
    {
        ArgumentNullException.ThrowIfNull(road);
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(words);
        var body = Words(words["Mail.Question"], $"{root.Url}{Api.Root}{LinksApi.Confirm}/{confirmToken}", words["Mail.QuestionLink"], words);
        return Made(target, $"{road.Id:N}.confirm.{Guid.NewGuid():N}@{Domain}", words["Mail.QuestionSubject"], body, canLeave: false);
    }

    private string Domain => options.Value.Sender!.Domain;

    private string LeaveUrl(MailTarget target) => $"{root.Url}{Api.Root}{LinksApi.Leave}/{target.LeaveToken}";

    private MimeMessage Made(MailTarget target, string id, string subject, MimeEntity body, bool canLeave)
    {
        var mail = new MimeMessage { MessageId = id, Subject = subject, Body = body, Date = clock.GetCurrentInstant().ToDateTimeOffset() };
        mail.From.Add(options.Value.Sender!);
        mail.To.Add(new MailboxAddress("", target.Address));
        mail.Headers.Add("Auto-Submitted", "auto-generated");
        if (canLeave)
        {
            mail.Headers.Add(HeaderId.ListUnsubscribe, $"<{LeaveUrl(target)}>");
            mail.Headers.Add("List-Unsubscribe-Post", "List-Unsubscribe=One-Click");
        }
        return mail;
    }

    private static MultipartAlternative Words(string text, string url, string before, OwnerWords words) => Alternative(
        $"{text}\n\n{before}\n{url}\n",
        $"<p>{WebUtility.HtmlEncode(text)}</p><p>{WebUtility.HtmlEncode(before)}<br><a href=\"{WebUtility.HtmlEncode(url)}\">{WebUtility.HtmlEncode(url)}</a></p>", words);

    private static MultipartAlternative Alternative(string plain, string html, OwnerWords words) => new()
    {
        Part("plain", plain),
        Part("html", $"<!doctype html><html lang=\"{words.Language}\"><head><meta charset=\"utf-8\"><title>{WebUtility.HtmlEncode(words["Mail.Title"])}</title></head><body>{html}</body></html>")
    };

    private static TextPart Part(string subtype, string text)
    {
        var part = new TextPart(subtype) { ContentTransferEncoding = ContentEncoding.QuotedPrintable };
        part.SetText(Encoding.UTF8, text);
        return part;
    }

    // No METHOD: this is the owner's own calendar, not an invitation.
    private MimePart CalendarFile(Parcel parcel)
    {
        var windows = parcel.Shown.Where(item => item.Job.Kind != NoticeKind.Planned).Select(item => item.Window).DistinctBy(window => window.Id);
        var visits = parcel.Shown.Where(item => item.Planned?.Date is not null).Select(item => new DatedVisit(item.Window, item.Planned!, item.Planned!.Date!.Value));
        var look = new FeedLook("Bonsai work", feeds.Value.Host, [], Instant.FromUnixTimeSeconds(0));
        var part = new MimePart("text", "calendar")
        {
            Content = new MimeContent(new MemoryStream(CalendarWriter.Write(look, windows.Where(window => window.Body.Window.Opens.Likely is not null), visits))),
            ContentDisposition = new ContentDisposition(ContentDisposition.Attachment),
            ContentTransferEncoding = ContentEncoding.Base64,
            FileName = FileName
        };
        part.ContentType.Charset = "utf-8";
        return part;
    }
}
