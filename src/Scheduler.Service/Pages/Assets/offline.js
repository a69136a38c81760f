// Tells how old a page from the store is and what waits to be sent; the work itself is the worker's.
(() => {
  "use strict";
  const box = document.getElementById("offline");
  if (!box || !("serviceWorker" in navigator)) return;
  const words = box.dataset;
  const kept = document.documentElement.dataset.kept;
  const say = text => {
    const line = document.createElement("p");
    line.textContent = text;
    box.append(line);
    box.hidden = false;
  };
  if (kept) {
    // What this page said once was said long ago.
    for (const old of document.querySelectorAll("main .notice")) old.remove();
    say(words.kept.replace("{0}", new Date(kept).toLocaleString(document.documentElement.lang, { dateStyle: "medium", timeStyle: "short" })));
  }

  const waiting = () => new Promise(done => {
    const request = indexedDB.open("taps", 1);
    request.onupgradeneeded = () => request.result.createObjectStore("taps", { keyPath: "id" });
    request.onerror = () => done([]);
    request.onsuccess = () => {
      const all = request.result.transaction("taps").objectStore("taps").getAll();
      all.onsuccess = () => { request.result.close(); done(all.result); };
      all.onerror = () => done([]);
    };
  });

  const show = async () => {
    const mine = (await waiting()).filter(tapped => tapped.owner === words.owner);
    document.getElementById("waiting-taps")?.remove();
    if (mine.length > 0) {
      const line = document.createElement("p");
      line.id = "waiting-taps";
      line.textContent = words.waiting.replace("{0}", mine.length);
      box.append(line);
      box.hidden = false;
    }
    for (const button of document.querySelectorAll("button[formaction]")) {
      const tapped = mine.find(one => one.path === new URL(button.formAction).pathname);
      if (!tapped || button.dataset.waiting) continue;
      button.dataset.waiting = tapped.id;
      button.textContent = words.waits;
      button.type = "button";
      button.addEventListener("click", () => { tell({ say: "drop", id: tapped.id }); location.reload(); });
    }
    return mine.length;
  };

  const tell = message => navigator.serviceWorker.ready.then(worker => worker.active?.postMessage(message));
  const send = async () => { if (await show() > 0) tell({ say: "send" }); };

  navigator.serviceWorker.register("/worker.js").catch(() => {});
  navigator.serviceWorker.addEventListener("message", event => {
    const { say: what, sent, lost } = event.data ?? {};
    if (what !== "taps") return;
    if (lost) sessionStorage.setItem("lost", lost);
    if (sent) sessionStorage.setItem("sent", sent);
    if (sent || lost) location.reload();
  });
  for (const [name, text] of [["sent", words.sent], ["lost", words.lost]]) {
    const count = sessionStorage.getItem(name);
    if (count) say(text.replace("{0}", count));
    sessionStorage.removeItem(name);
  }
  // A network that is said to be there may lead nowhere: only what was reached counts.
  window.addEventListener("online", () => kept ? fetch("/manifest.webmanifest", { cache: "no-store" }).then(() => location.reload(), () => {}) : send());
  send();
})();
