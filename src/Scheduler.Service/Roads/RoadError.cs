using System.Globalization;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Roads;

/// <summary>Why nothing arrived, in words for the owner that give away nothing of the network.</summary>
/// <param name="Text">As the API tells it.</param>
/// <param name="Kind">The same without words, for who says it in words of their own.</param>
public sealed record RoadError(string Text, FaultKind Kind)
{
    public static readonly RoadError NoMailHost = Of("no-mail-host", "This host sends no mail: whoever runs it has set no Mail:Host.");
    public static readonly RoadError NoPublicUrl = Of("no-public-url", "This host sends no mail: whoever runs it has set no PublicUrl, which links in mails begin with.");
    public static readonly RoadError KeysLost = Of("keys-lost", "The keys that seal its address are lost: set this road up again.");
    public static readonly RoadError NoSubscription = Of("no-subscription", "It has no subscription: subscribe in the browser.");
    public static readonly RoadError BroughtBack = Of("brought-back", "It was brought back from a document, which holds no subscription. Subscribe in the browser.");
    public static readonly RoadError AskedTooOften = Of("asked-too-often", "This address was asked too often today. Try again tomorrow.");
    public static readonly RoadError MailLogIn = Of("mail-log-in", "The mail server does not accept this host's log-in.");
    public static readonly RoadError MailNotSecure = Of("mail-not-secure", "No secure connection to the mail server.");
    public static readonly RoadError MailBrokeOff = Of("mail-broke-off", "The mail server broke off.");
    public static readonly RoadError MailNotReached = Of("mail-not-reached", "The mail server cannot be reached.");
    public static readonly RoadError MailLate = Of("mail-late", "The mail server did not answer in time.");
    public static readonly RoadError NoCertificate = Of("no-certificate", "The mail server shows no certificate.");
    public static readonly RoadError CertificateName = Of("certificate-name", "The mail server's certificate is not for the name in Mail:Host.");
    public static readonly RoadError CertificateOver = Of("certificate-over", "The mail server's certificate has expired.");
    public static readonly RoadError CertificateNotTrusted = Of(
        "certificate-not-trusted", "The mail server's certificate is not trusted: whoever runs this host can name a certificate that vouches for it in Mail:TrustedCertificates.");
    public static readonly RoadError NotPublic = Of("not-public", "Its address is not on the public internet, so it is not called.");
    public static readonly RoadError NameUnknown = Of("name-unknown", "Its name is not known.");
    public static readonly RoadError NotSecure = Of("not-secure", "No secure connection: its certificate is not trusted, or it speaks no TLS.");
    public static readonly RoadError AnswerTooLarge = Of("answer-too-large", "Its answer is too large.");
    public static readonly RoadError NotReached = Of("not-reached", "It cannot be reached.");
    public static readonly RoadError Late = Of("late", "It did not answer in time.");

    public static RoadError MailAddress(int status) => Of("mail-address", $"The mail server does not take mail for this address ({status}).", status);

    public static RoadError MailRefused(int status) => Of("mail-refused", $"The mail server refused the mail ({status}).", status);

    public static RoadError PushGone(int status) => Of("push-gone", $"The push service answered {status}: this subscription is no more. Subscribe again in the browser.", status);

    public static RoadError PushRefused(int status) => Of("push-refused", $"The push service answered {status}.", status);

    public static RoadError Gone(int status) => Of("gone", $"It answered {status}: it wants no more. Make a new road if that is wrong.", status);

    public static RoadError Redirect(int status) => Of("redirect", $"It answered {status}, a redirect. Redirects are not followed: give the address it leads to.", status);

    public static RoadError Refused(int status) => Of("refused", $"It answered {status}.", status);

    private static RoadError Of(string kind, string text, int? status = null) =>
        new(text, status is { } code ? new FaultKind(kind, code.ToString(CultureInfo.InvariantCulture)) : new FaultKind(kind));
}
