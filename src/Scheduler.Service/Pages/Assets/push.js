// Turns messages on for this browser: permission, a subscription to this host's key, and the page's own form with it.
(() => {
  "use strict";
  const section = document.getElementById("push");
  if (!section) return;
  const words = section.dataset;
  const form = document.querySelector("#push-form form");
  const button = document.getElementById("push-on");
  const note = document.getElementById("push-note");
  const say = text => { note.textContent = text; note.hidden = false; };

  if (!window.isSecureContext) { say(words.insecure); return; }
  if (!("serviceWorker" in navigator) || !("PushManager" in window) || !("Notification" in window)) {
    // Some phones give it only to a page that was put on the home screen.
    say("standalone" in navigator && !navigator.standalone ? words.install : words.unsupported);
    return;
  }

  const key = () => {
    const text = words.key.replaceAll("-", "+").replaceAll("_", "/");
    return Uint8Array.from(atob(text), letter => letter.charCodeAt(0));
  };
  const plain = bytes => btoa(String.fromCharCode(...new Uint8Array(bytes))).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
  const print = async text =>
    [...new Uint8Array(await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text)))].map(byte => byte.toString(16).padStart(2, "0")).join("");

  // By it the worker tells the road whose subscription the browser replaces some day.
  const keep = async endpoint => (await caches.open("frame")).put("/push-end", new Response(endpoint));

  const show = async () => {
    const worker = await navigator.serviceWorker.ready;
    const kept = await worker.pushManager.getSubscription();
    const end = kept && await print(kept.endpoint);
    const mine = end && [...document.querySelectorAll("[data-end]")].find(card => card.dataset.end.toLowerCase() === end);
    if (mine) { await keep(kept.endpoint); say(words.mine); } else document.getElementById("push-form").hidden = false;
  };

  button.addEventListener("click", async () => {
    note.hidden = true;
    button.setAttribute("aria-busy", "true");
    try {
      if (await Notification.requestPermission() !== "granted") { say(words.denied); return; }
      const { pushManager } = await navigator.serviceWorker.ready;
      const kept = await pushManager.getSubscription();
      // One to another key can never be written to from here.
      if (kept && plain(kept.options.applicationServerKey ?? []) !== plain(key())) await kept.unsubscribe();
      const made = await pushManager.subscribe({ userVisibleOnly: true, applicationServerKey: key() });
      form.elements.endpoint.value = made.endpoint;
      form.elements.p256dh.value = plain(made.getKey("p256dh"));
      form.elements.auth.value = plain(made.getKey("auth"));
      form.requestSubmit();
    } catch {
      say(words.failed);
    } finally {
      button.removeAttribute("aria-busy");
    }
  });
  show();
})();
