// Keeps the last pages for times without network, and what was tapped meanwhile until it can be sent.
// Pages are kept for one sign-in only: those of another are thrown away as soon as a page says who is signed in.
"use strict";

const FRAME = "frame";
const PAGES = "pages-";
const MOST_PAGES = 30;
const OFFLINE = "/offline";
const KEPT = /^\/today$|^\/trees\/[0-9a-f-]{32,36}$/;
const TAP = /\/(done|seen|session)\//;
const PUSH_END = "/push-end";

self.addEventListener("install", event => event.waitUntil((async () => {
  const frame = await caches.open(FRAME);
  await keepPage(frame, OFFLINE, await fetch(OFFLINE));
  await self.skipWaiting();
})()));

self.addEventListener("activate", event => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", event => {
  const url = new URL(event.request.url);
  if (url.origin !== location.origin) return;
  if (url.pathname.startsWith("/assets/") && event.request.method === "GET") event.respondWith(asset(event.request));
  else if (event.request.mode !== "navigate") return;
  else if (event.request.method === "GET") event.respondWith(page(event, url));
  else if (event.request.method === "POST" && TAP.test(url.pathname)) event.respondWith(tap(event.request, url));
  else if (url.pathname === "/sign-out") event.waitUntil(forget(""));
});

self.addEventListener("sync", event => {
  if (event.tag === "taps") event.waitUntil(sendAll());
  if (event.tag === "push") event.waitUntil(moveOn());
});

self.addEventListener("message", event => {
  const { say, id } = event.data ?? {};
  if (say === "send") event.waitUntil(sendAll());
  if (say === "drop") event.waitUntil(change(store => store.delete(id)).then(tellAll));
});

// What the host tells; the push service in between cannot read it.
self.addEventListener("push", event => {
  let told = {};
  try { told = event.data?.json() ?? {}; } catch { /* Not one of ours; a push without a notification would cost the permission. */ }
  event.waitUntil(self.registration.showNotification(told.title ?? "Scheduler", {
    body: told.body ?? "", icon: "/icons/icon-192.png", data: { url: told.url ?? "/" }
  }));
});

self.addEventListener("notificationclick", event => {
  event.notification.close();
  event.waitUntil(show(event.notification.data?.url ?? "/"));
});

// The browser gave its subscription up for another, or wants another made: the road goes on with it.
self.addEventListener("pushsubscriptionchange", event => event.waitUntil(moveOn(event.oldSubscription, event.newSubscription)));

async function moveOn(old, made) {
  const frame = await caches.open(FRAME);
  if (old) await frame.put(PUSH_END, new Response(old.endpoint));
  const end = await (await frame.match(PUSH_END))?.text();
  if (!end) return;
  try {
    made ??= await self.registration.pushManager.getSubscription() ?? await self.registration.pushManager.subscribe({
      userVisibleOnly: true, applicationServerKey: old?.options?.applicationServerKey ?? (await (await fetch("/api/v1/push/key")).json()).key
    });
    if (made.endpoint === end) return;
    const word = await fetch("/offline/token", { headers: { Accept: "application/json" }, redirect: "error" });
    if (!word.ok) throw new Error(word.statusText);
    const { field, token } = await word.json();
    const { endpoint, keys } = made.toJSON();
    const answer = await fetch("/reminders/push/moved", {
      method: "POST", redirect: "error", body: new URLSearchParams({ old: end, endpoint, ...keys, [field]: token })
    });
    if (answer.ok) await frame.put(PUSH_END, new Response(endpoint));
    else if (answer.status >= 500 || answer.status === 429) throw new Error(answer.statusText);
  } catch {
    await self.registration.sync?.register("push").catch(() => {});
  }
}

// A page of ours that is open already goes there; otherwise a new one is opened.
async function show(path) {
  const url = new URL(path, location.origin);
  if (url.origin !== location.origin) return;
  const [open] = await self.clients.matchAll({ type: "window" });
  if (!open) { await self.clients.openWindow(url); return; }
  await open.focus().catch(() => {});
  await open.navigate(url);
}

// Assets carry a print of their content in the address, so a kept one is never old.
async function asset(request) {
  const frame = await caches.open(FRAME);
  const kept = await frame.match(request.url);
  if (kept) return kept;
  const answer = await fetch(request);
  if (answer.ok) await frame.put(request.url, answer.clone());
  return answer;
}

async function page(event, url) {
  try {
    const answer = await fetch(event.request);
    event.waitUntil(note(url, answer.clone()));
    return answer;
  } catch {
    return await keptPage(url) ?? Response.error();
  }
}

// A redirect is followed by the browser itself, as another request; what comes here then is the page.
async function note(url, answer) {
  if (answer.type === "opaqueredirect" || !(answer.headers.get("Content-Type") ?? "").startsWith("text/html")) return;
  const session = answer.headers.get("Page-Session") ?? "";
  await forget(session);
  if (session && answer.ok && KEPT.test(url.pathname)) {
    const pages = await caches.open(PAGES + session);
    await keepPage(pages, nameOf(url), answer);
    const names = await pages.keys();
    for (const old of names.slice(0, Math.max(0, names.length - MOST_PAGES))) await pages.delete(old);
  }
}

async function keepPage(cache, name, answer) {
  const html = await answer.text();
  await cache.delete(name);
  await cache.put(name, new Response(html, { headers: {
    "Content-Type": "text/html; charset=utf-8",
    "Content-Security-Policy": answer.headers.get("Content-Security-Policy") ?? "default-src 'none'",
    "X-Kept": new Date().toISOString()
  } }));
  const frame = await caches.open(FRAME);
  for (const [address] of html.matchAll(/\/assets\/[0-9a-f]+\/[\w.-]+/g))
    if (!await frame.match(address)) await frame.add(address).catch(() => {});
}

async function keptPage(url) {
  for (const cacheName of await caches.keys()) {
    if (!cacheName.startsWith(PAGES)) continue;
    const pages = await caches.open(cacheName);
    const kept = KEPT.test(url.pathname) || url.pathname === "/"
      ? await pages.match(nameOf(url)) ?? (url.pathname === "/today" || url.pathname === "/" ? await pages.match("/today", { ignoreSearch: true }) : undefined)
      : undefined;
    if (kept) return marked(kept);
  }
  const frame = await caches.open(FRAME);
  const plain = await frame.match(OFFLINE);
  return plain && marked(plain);
}

// The page's own script shows how old it is.
async function marked(kept) {
  const html = (await kept.text()).replace("<html ", `<html data-kept="${kept.headers.get("X-Kept")}" `);
  return new Response(html, { headers: kept.headers });
}

// What a page says once (such as "logged") is part of its address, and no other page.
function nameOf(url) {
  const garden = url.searchParams.get("garden");
  return url.pathname + (garden ? "?garden=" + garden : "");
}

async function forget(except) {
  for (const cacheName of await caches.keys())
    if (cacheName.startsWith(PAGES) && cacheName !== PAGES + except) await caches.delete(cacheName);
}

async function tap(request, url) {
  const now = new Date();
  const day = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map(part => String(part).padStart(2, "0")).join("-");
  const fields = [...new URLSearchParams(await request.text()), ["on", day]];
  try {
    return await fetch(url, {
      method: "POST", body: new URLSearchParams(fields), redirect: "manual", headers: { Accept: request.headers.get("Accept") ?? "text/html" }
    });
  } catch {
    // It may have arrived and only its answer be lost: sent again with the same key and the same day it counts once even then.
    const key = fields.find(([name]) => name === "form-key")?.[1];
    const session = (await caches.keys()).find(name => name.startsWith(PAGES))?.slice(PAGES.length);
    if (!key || !session) return Response.error();
    // One tap a button: a page that is shown again from the store has the same key for all of them.
    await change(store => store.put({
      id: key + " " + url.pathname, path: url.pathname, fields: fields.filter(([name]) => name !== "form-token"), owner: session.split("-")[0]
    }));
    await self.registration.sync?.register("taps").catch(() => {});
    const from = request.referrer ? new URL(request.referrer) : new URL("/today", location.origin);
    return Response.redirect(from.pathname + from.search, 303);
  }
}

let sending = null;
function sendAll() {
  return sending ??= send().finally(() => { sending = null; });
}

async function send() {
  let sent = 0, lost = 0;
  for (const tapped of await all()) {
    try {
      // The token of the form may be old by now, and somebody else may be signed in.
      const word = await fetch("/offline/token", { headers: { Accept: "application/json" }, redirect: "error" });
      if (!word.ok) break;
      const { field, token, session } = await word.json();
      if (session.split("-")[0] !== tapped.owner) continue;
      const answer = await fetch(tapped.path, { method: "POST", body: new URLSearchParams([...tapped.fields, [field, token]]) });
      if (answer.status === 429 || answer.status >= 500 || answer.url.includes("/sign-in")) break;
      if (answer.ok && !answer.url.includes("did=gone")) sent++; else lost++;
      await change(store => store.delete(tapped.id));
    } catch {
      break;
    }
  }
  if (sent + lost > 0) await tellAll({ sent, lost });
}

async function tellAll(news = {}) {
  for (const client of await self.clients.matchAll()) client.postMessage({ say: "taps", ...news });
}

function open() {
  return new Promise((done, fail) => {
    const request = indexedDB.open("taps", 1);
    request.onupgradeneeded = () => request.result.createObjectStore("taps", { keyPath: "id" });
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(request.error);
  });
}

async function all() {
  const database = await open();
  return new Promise((done, fail) => {
    const request = database.transaction("taps").objectStore("taps").getAll();
    request.onsuccess = () => { database.close(); done(request.result); };
    request.onerror = () => fail(request.error);
  });
}

async function change(act) {
  const database = await open();
  await new Promise((done, fail) => {
    const turn = database.transaction("taps", "readwrite");
    act(turn.objectStore("taps"));
    turn.oncomplete = done;
    turn.onerror = () => fail(turn.error);
  });
  database.close();
}
