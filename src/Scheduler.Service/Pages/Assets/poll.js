// While something runs, what tells of it is read again and exchanged; once it is over, the whole page is read anew.
(() => {
  "use strict";
  const shown = document.querySelector("[data-poll]");
  if (!shown) return;
  const look = async () => {
    try {
      const answer = await fetch(location.href, { headers: { accept: "text/html" } });
      const next = new DOMParser().parseFromString(await answer.text(), "text/html").querySelector("[data-poll]");
      if (answer.ok && !next) { location.reload(); return; }
      if (next) shown.replaceChildren(...next.childNodes);
    } catch {
      // No network just now: the next look may have it.
    }
    setTimeout(look, shown.dataset.poll * 1000);
  };
  setTimeout(look, shown.dataset.poll * 1000);
})();
