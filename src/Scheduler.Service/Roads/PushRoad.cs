using System.Buffers.Text;
using System.Net;
using System.Net.Http.Headers;
using System.Security.Cryptography;
using System.Text;
using Lib.Net.Http.WebPush;
using Lib.Net.Http.WebPush.Authentication;
using Microsoft.Extensions.Options;
using NodaTime;
using Scheduler.Service.Accounts;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Roads;

/// <summary>What a browser's service worker is handed, decrypted.</summary>
/// <param name="Url">Where a tap leads, relative to the site.</param>
public sealed record PushBody(string Title, string Body, string Url);

/// <summary>
/// Messages to a browser (Web Push: RFC 8030, encrypted by RFC 8291, sender known by RFC 8292). The push service in between cannot read
/// them. A subscription that is no more (404 or 410) is dropped.
/// </summary>
public sealed class PushRoad(
    IHttpMessageHandlerFactory handlers, AccountStore accounts, PushKeys keys, PublicRoot root, IOptions<RoadsOptions> options, IOptions<MailOptions> mail, IClock clock) : IRoadCarrier
{
    private static readonly Duration TestLives = Duration.FromMinutes(10);

    public RoadKind Kind => RoadKind.Push;

    public async Task<Carried> SendAsync(Road road, RoadTarget target, Parcel parcel, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(road);
        ArgumentNullException.ThrowIfNull(parcel);
        var words = await accounts.WordsAsync(road.AccountId, cancel);
        return await PushAsync(
            (PushTarget)target, PushText.Of(parcel, words), Hashed(parcel.Topic), parcel.IsUrgent, PushText.Lives(parcel, clock.GetCurrentInstant()), cancel);
    }

    public async Task<Carried> TestAsync(Road road, RoadTarget target, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(road);
        var words = await accounts.WordsAsync(road.AccountId, cancel);
        return await PushAsync(
            (PushTarget)target, new PushBody(words["Push.TestTitle"], words["Push.Test", road.Settings.Name], "/"), Hashed($"{road.Id:N}.test"), false, TestLives, cancel);
    }

    // A topic has at most 32 characters of base64url (RFC 8030 section 5.4).
    private static string Hashed(string text) => Base64Url.EncodeToString(SHA256.HashData(Encoding.UTF8.GetBytes(text)).AsSpan(0, 24));

    private async Task<Carried> PushAsync(PushTarget target, PushBody body, string topic, bool isUrgent, Duration lives, CancellationToken cancel)
    {
        using var authentication = new VapidAuthentication(keys.PublicKey, keys.PrivateKey) { Subject = Contact() };
        var subscription = new PushSubscription { Endpoint = target.Endpoint };
        subscription.SetKey(PushEncryptionKeyName.P256DH, target.P256dh);
        subscription.SetKey(PushEncryptionKeyName.Auth, target.Auth);
        var message = new PushMessage(Json.Write(body))
        {
            Topic = topic,
            Urgency = isUrgent ? PushMessageUrgency.High : PushMessageUrgency.Normal,
            TimeToLive = (int)lives.TotalSeconds
        };
        try
        {
            using var origin = new OriginHandler(handlers.CreateHandler(OutsideHttp.Client), authentication);
            using var http = new HttpClient(origin, disposeHandler: false);
            OutsideHttp.Limit(http);
            var client = new PushServiceClient(http) { AutoRetryAfter = false };
            await client.RequestPushMessageDeliveryAsync(subscription, message, authentication, VapidAuthenticationScheme.Vapid, cancel);
            return Carried.Arrived;
        }
        catch (PushServiceClientException fault) when ((int)fault.StatusCode is >= 200 and < 300)
        {
            // The library knows only 201; a service may also answer 202 or 204.
            return Carried.Arrived;
        }
        catch (PushServiceClientException fault)
        {
            return fault.StatusCode is HttpStatusCode.NotFound or HttpStatusCode.Gone
                ? Carried.Gone(RoadError.PushGone((int)fault.StatusCode))
                : Carried.Failed(RoadError.PushRefused((int)fault.StatusCode), WebhookRoad.WaitOf(fault.Headers?.RetryAfter, clock.GetCurrentInstant()));
        }
        catch (Exception fault) when (!cancel.IsCancellationRequested && OutsideHttp.Explain(fault) is not null)
        {
            return Carried.Failed(OutsideHttp.Explain(fault)!);
        }
    }

    /// <summary>Names the push service's whole origin in the token; the library leaves out a port that is not the usual one.</summary>
    private sealed class OriginHandler(HttpMessageHandler way, VapidAuthentication authentication) : DelegatingHandler(way)
    {
        protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
        {
            request.Headers.Authorization = new AuthenticationHeaderValue(
                "vapid", authentication.GetVapidSchemeAuthenticationHeaderValueParameter(request.RequestUri!.GetLeftPart(UriPartial.Authority)));
            return base.SendAsync(request, cancellationToken);
        }

        // The handler below belongs to the factory.
        protected override void Dispose(bool disposing)
        {
        }
    }

    private string Contact() =>
        options.Value.Contact ?? (root.Url is { } url && url.StartsWith("https:", StringComparison.Ordinal) ? url
            : mail.Value.FromAddress is { } from ? $"mailto:{from}" : "mailto:nobody@localhost");
}
