using System.Text.Json;
using Microsoft.Playwright;
using Scheduler.Pages.Tests.Support;

namespace Scheduler.Pages.Tests.Reminders;

/// <summary>Messages on this device, in a real browser: its own worker, with a push service stood in for, as none can be reached from a test.</summary>
[Collection(BrowserTests.Name)]
public sealed class PushTests(Browser browser)
{
    [BrowserFact]
    public async Task Device_IsSubscribedToTheHostsKey_AndKnownAgain()
    {
        var page = await ReadyAsync("granted");
        await page.GotoAsync("/reminders");
        await page.FillAsync("#push-form input[name=name]", "phone of the test");
        await page.ClickAsync("#push-on");
        await page.WaitForURLAsync("**/reminders/*?did=subscribed");
        Assert.Equal("phone of the test", await page.TextContentAsync("h1"));
        // What the browser was asked for is the key that the API shows.
        var key = (await page.EvaluateAsync<JsonElement>("fetch('/api/v1/push/key').then(answer => answer.json())")).GetProperty("key").GetString()!;
        Assert.Equal(key, await page.EvaluateAsync<string>("localStorage.getItem('asked')"));
        await page.GotoAsync("/reminders");
        await page.WaitForSelectorAsync("#push-note:not([hidden])");
        Assert.Equal(await page.GetAttributeAsync("#push", "data-mine"), await page.TextContentAsync("#push-note"));
        Assert.False(await page.IsVisibleAsync("#push-on"));
        await page.ClickAsync(".card-rows .card[data-end] a");
        await page.ClickAsync("a[href$='/delete']");
        await page.ClickAsync("form[action$='/delete'] button");
        await page.WaitForURLAsync("**/reminders?did=deleted");
        await page.WaitForSelectorAsync("#push-on");
        await page.Context.CloseAsync();
    }

    [BrowserTheory]
    [InlineData("denied", "denied")]
    [InlineData("fails", "failed")]
    public async Task Device_ThatGivesNone_SaysWhatToDo(string how, string said)
    {
        var page = await ReadyAsync(how);
        await page.GotoAsync("/reminders");
        await page.ClickAsync("#push-on");
        await page.WaitForSelectorAsync("#push-note:not([hidden])");
        Assert.Equal(await page.GetAttributeAsync("#push", "data-" + said), await page.TextContentAsync("#push-note"));
        await page.Context.CloseAsync();
    }

    [BrowserTheory]
    [InlineData("delete window.PushManager", "unsupported")]
    [InlineData("delete window.PushManager; Object.defineProperty(Navigator.prototype, 'standalone', { value: false })", "install")]
    public async Task Browser_WithoutPush_SaysWhatToDo(string script, string said)
    {
        var page = await browser.OpenSignedInAsync(View.Phone);
        await page.AddInitScriptAsync(script);
        await page.GotoAsync("/reminders");
        Assert.Equal(await page.GetAttributeAsync("#push", "data-" + said), await page.TextContentAsync("#push-note"));
        Assert.False(await page.IsVisibleAsync("#push-on"));
        await page.Context.CloseAsync();
    }

    [BrowserFact]
    public async Task Message_IsShown_AndItsTapLeadsToThePage()
    {
        var page = await ReadyAsync("granted");
        await page.GotoAsync("/reminders");
        await Browser.UntilAsync(page, "navigator.serviceWorker.controller !== null");
        var session = await page.Context.NewCDPSessionAsync(page);
        var registered = new TaskCompletionSource<string>();
        session.Event("ServiceWorker.workerRegistrationUpdated").OnEvent += (_, news) =>
        {
            foreach (var one in news!.Value.GetProperty("registrations").EnumerateArray().Where(one => one.GetProperty("scopeURL").GetString() == browser.Address.ToString()))
                registered.TrySetResult(one.GetProperty("registrationId").GetString()!);
        };
        await session.SendAsync("ServiceWorker.enable");
        // The same names that the sender writes.
        var body = Scheduler.Service.Storage.Json.Write(new Scheduler.Service.Roads.PushBody("Frost tonight in <b>Yard", "Invented maple. Bring it in.", "/season"));
        await session.SendAsync("ServiceWorker.deliverPushMessage", new()
        {
            ["origin"] = browser.Address.GetLeftPart(UriPartial.Authority), ["registrationId"] = await registered.Task.WaitAsync(TimeSpan.FromSeconds(15)), ["data"] = body
        });
        await Browser.UntilAsync(page, "navigator.serviceWorker.ready.then(worker => worker.getNotifications()).then(all => all.length === 1)");
        var shown = await page.EvaluateAsync<string[]>("navigator.serviceWorker.ready.then(worker => worker.getNotifications()).then(([one]) => [one.title, one.body])");
        Assert.Equal(["Frost tonight in <b>Yard", "Invented maple. Bring it in."], shown);
        await InWorkerAsync(page, session,
            """
            (async () => {
              ExtendableEvent.prototype.waitUntil = () => {};
              const [shown] = await registration.getNotifications();
              self.dispatchEvent(new NotificationEvent("notificationclick", { notification: shown }));
            })()
            """);
        await page.WaitForURLAsync("**/season");
        await Browser.UntilAsync(page, "navigator.serviceWorker.ready.then(worker => worker.getNotifications()).then(all => all.length === 0)");
        await page.Context.CloseAsync();
    }

    /// <summary>The event as the Push API has it (W3C Push API, "pushsubscriptionchange"), dispatched in the worker; the browser's own new subscription is made up.</summary>
    [BrowserFact]
    public async Task Subscription_ThatTheBrowserReplaces_GoesOnWithItsRoad()
    {
        var page = await ReadyAsync("granted");
        await page.GotoAsync("/reminders");
        await Browser.UntilAsync(page, "navigator.serviceWorker.controller !== null");
        await page.FillAsync("#push-form input[name=name]", "moved");
        await page.ClickAsync("#push-on");
        await page.WaitForURLAsync("**/reminders/*?did=subscribed");
        var road = page.Url.Split('?')[0];
        await page.GotoAsync("/reminders");
        await page.WaitForSelectorAsync("#push-note:not([hidden])");
        var key = await page.EvaluateAsync<string>("localStorage.getItem('asked')");
        var session = await page.Context.NewCDPSessionAsync(page);
        // Once as a browser that says what it gave up, once as one that says nothing.
        foreach (var old in new[] { $"{{ endpoint: await (await caches.match('/push-end')).text(), options: {{ applicationServerKey: '{key}' }} }}", "null" })
        {
            var made = RemindersTests.Subscription($"https://push.example/{Guid.NewGuid():N}");
            var end = RemindersTests.End(made);
            await InWorkerAsync(page, session,
                $$"""
                (async () => {
                  const made = {{JsonSerializer.Serialize(new { endpoint = made[0].Value, keys = new { p256dh = made[1].Value, auth = made[2].Value } })}};
                  PushManager.prototype.getSubscription = async () => null;
                  PushManager.prototype.subscribe = async options => {
                    if (!options.userVisibleOnly || options.applicationServerKey !== "{{key}}") throw new Error("Another key.");
                    return { endpoint: made.endpoint, toJSON: () => made };
                  };
                  const event = new ExtendableEvent("pushsubscriptionchange");
                  event.oldSubscription = {{old}};
                  event.newSubscription = null;
                  let done;
                  event.waitUntil = work => { done = work; };
                  self.dispatchEvent(event);
                  await done;
                  // What the road ends at now is remembered for the next time.
                  const now = await (await caches.match("/push-end")).text();
                  if (now !== made.endpoint) throw new Error("The road was not moved.");
                })()
                """);
            await page.GotoAsync("/reminders");
            Assert.Contains(end, await page.EvaluateAsync<string[]>("[...document.querySelectorAll('[data-end]')].map(card => card.dataset.end)"));
            Assert.Equal(road, new Uri(browser.Address, await page.Locator($".card[data-end='{end}'] a").GetAttributeAsync("href")).ToString());
        }
        await page.GotoAsync(road + "/delete");
        await page.ClickAsync("form[action$='/delete'] button");
        await page.Context.CloseAsync();
    }

    /// <summary>Signed in, with a push service that grants, denies or fails. Its endpoint is a made-up one that nothing is sent to.</summary>
    private async Task<IPage> ReadyAsync(string how)
    {
        var page = await browser.OpenSignedInAsync(View.Phone);
        await page.Context.GrantPermissionsAsync(["notifications"], new() { Origin = browser.Address.ToString() });
        var subscription = RemindersTests.Subscription($"https://push.example/{Guid.NewGuid():N}").ToDictionary(field => field.Name, field => field.Value);
        await page.AddInitScriptAsync(
            $$"""
            (() => {
              const bytes = text => Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), letter => letter.charCodeAt(0)).buffer;
              const plain = buffer => btoa(String.fromCharCode(...new Uint8Array(buffer))).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
              const made = () => ({
                endpoint: "{{subscription["endpoint"]}}", options: { applicationServerKey: bytes(localStorage.getItem("asked")) }, unsubscribe: async () => true,
                getKey: name => bytes(name === "auth" ? "{{subscription["auth"]}}" : "{{subscription["p256dh"]}}")
              });
              PushManager.prototype.getSubscription = async () => localStorage.getItem("asked") ? made() : null;
              PushManager.prototype.subscribe = async options => {
                if ("{{how}}" === "fails" || !options.userVisibleOnly) throw new DOMException("No push service.", "AbortError");
                localStorage.setItem("asked", plain(options.applicationServerKey));
                return made();
              };
              Notification.requestPermission = async () => "{{how}}" === "denied" ? "denied" : "granted";
            })();
            """);
        return page;
    }

    private static async Task InWorkerAsync(IPage page, ICDPSession session, string script)
    {
        var own = (await session.SendAsync("Target.getTargetInfo"))!.Value.GetProperty("targetInfo").GetProperty("browserContextId").GetString();
        var whole = await page.Context.Browser!.NewBrowserCDPSessionAsync();
        var worker = (await whole.SendAsync("Target.getTargets"))!.Value.GetProperty("targetInfos").EnumerateArray()
            .Single(target => target.GetProperty("type").GetString() == "service_worker" && target.GetProperty("browserContextId").GetString() == own);
        var answer = new TaskCompletionSource<string>();
        whole.Event("Target.receivedMessageFromTarget").OnEvent += (_, news) =>
        {
            // News of the worker itself may come before the answer.
            if (news!.Value.GetProperty("message").GetString() is { } message && message.StartsWith("{\"id\":1", StringComparison.Ordinal))
                answer.TrySetResult(message);
        };
        var attached = (await whole.SendAsync("Target.attachToTarget", new() { ["targetId"] = worker.GetProperty("targetId").GetString()!, ["flatten"] = false }))!.Value.GetProperty("sessionId").GetString()!;
        await whole.SendAsync("Target.sendMessageToTarget", new()
        {
            ["sessionId"] = attached,
            ["message"] = JsonSerializer.Serialize(new { id = 1, method = "Runtime.evaluate", @params = new { expression = script, awaitPromise = true } })
        });
        var said = await answer.Task.WaitAsync(TimeSpan.FromSeconds(15));
        Assert.True(said.Contains("\"result\"", StringComparison.Ordinal) && !said.Contains("exceptionDetails", StringComparison.Ordinal), said);
        await whole.DetachAsync();
    }
}
