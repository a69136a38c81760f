using System.Net;
using System.Net.Http.Headers;
using System.Text;
using NodaTime;
using Scheduler.Service.Accounts;
using Scheduler.Service.Plans;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Roads;

/// <summary>Posts each notice as signed JSON. Only a status of 200 to 299 counts as arrived; the answer's body is not read.</summary>
public sealed class WebhookRoad(IHttpClientFactory clients, IClock clock) : IRoadCarrier
{
    public RoadKind Kind => RoadKind.Webhook;

    public Task<Carried> SendAsync(Road road, RoadTarget target, Parcel parcel, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(parcel);
        return PostAsync((WebhookTarget)target, parcel.Id, WebhookBody.Of(parcel.News.Single(), parcel.Day, clock.GetCurrentInstant()), cancel);
    }

    public Task<Carried> TestAsync(Road road, RoadTarget target, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(road);
        return PostAsync(
            (WebhookTarget)target, $"{road.Id:N}.test.{Guid.NewGuid():N}",
            new WebhookBody("test", clock.GetCurrentInstant(), new TestData($"A test of the road '{road.Settings.Name}'.")), cancel);
    }

    private async Task<Carried> PostAsync(WebhookTarget target, string id, WebhookBody body, CancellationToken cancel)
    {
        var bytes = Encoding.UTF8.GetBytes(Json.Write(body));
        var timestamp = WebhookSignature.Timestamp(clock.GetCurrentInstant());
        using var request = new HttpRequestMessage(HttpMethod.Post, target.Url) { Content = new ByteArrayContent(bytes) };
        request.Content.Headers.ContentType = new MediaTypeHeaderValue("application/json", "utf-8");
        request.Headers.Add(WebhookSignature.IdHeader, id);
        request.Headers.Add(WebhookSignature.TimestampHeader, timestamp);
        request.Headers.Add(WebhookSignature.SignatureHeader, WebhookSignature.Of(target.Secret, id, timestamp, bytes));
        try
        {
            using var client = clients.CreateClient(OutsideHttp.Client);
            using var answer = await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, cancel);
            return Judged(answer, clock.GetCurrentInstant());
        }
        catch (Exception fault) when (!cancel.IsCancellationRequested && OutsideHttp.Explain(fault) is not null)
        {
            return Carried.Failed(OutsideHttp.Explain(fault)!);
        }
    }

    private static Carried Judged(HttpResponseMessage answer, Instant now) => answer.StatusCode switch
    {
        _ when answer.IsSuccessStatusCode => Carried.Arrived,
        HttpStatusCode.Gone => Carried.Gone(RoadError.Gone((int)answer.StatusCode)),
        >= HttpStatusCode.MultipleChoices and < HttpStatusCode.BadRequest => Carried.Failed(RoadError.Redirect((int)answer.StatusCode)),
        _ => Carried.Failed(RoadError.Refused((int)answer.StatusCode), WaitOf(answer.Headers.RetryAfter, now))
    };

    internal static Duration? WaitOf(RetryConditionHeaderValue? after, Instant now) => after switch
    {
        { Delta: { } delta } => Duration.FromTimeSpan(delta),
        { Date: { } date } when Instant.FromDateTimeOffset(date) > now => Instant.FromDateTimeOffset(date) - now,
        _ => null
    };
}

/// <summary>Body of a webhook.</summary>
/// <param name="Type"><c>notice.opening</c>, <c>notice.closing</c>, <c>notice.held</c>, <c>notice.protection</c>, <c>notice.planned</c> or <c>test</c>.</param>
/// <param name="Timestamp">When this was sent.</param>
public sealed record WebhookBody(string Type, Instant Timestamp, object Data)
{
    public static WebhookBody Of(ParcelItem item, LocalDate today, Instant now)
    {
        ArgumentNullException.ThrowIfNull(item);
        return new WebhookBody($"notice.{Scheduler.Domain.Trees.Ids.Of(item.Job.Kind)}", now, new NoticeData(
            item.NoticeId, item.Due, item.IsUrgent, NoticeText.Line(item, today, OwnerWords.English), item.Window.GardenId, item.Window.Body.GardenName,
            item.Planned?.Date, item.Planned?.Minutes, WindowAnswer.Of(item.Window)));
    }
}

/// <param name="Id">Id of the notice; the header <c>webhook-id</c> tells a repeat.</param>
/// <param name="Text">The notice in one line.</param>
/// <param name="PlannedOn">Day of the planned visit; null with other notices.</param>
/// <param name="Window">The window as GET /gardens/{id}/windows tells it.</param>
public sealed record NoticeData(
    Guid Id, LocalDate Due, bool Urgent, string Text, Guid GardenId, string GardenName, LocalDate? PlannedOn, int? PlannedMinutes, WindowAnswer Window);

public sealed record TestData(string Text);
