// Everything works without this file. It saves a second tap from sending twice, and moves the focus to what was just said.
(() => {
  "use strict";
  document.addEventListener("submit", event => {
    const form = event.target;
    if (form.dataset.sent) { event.preventDefault(); return; }
    form.dataset.sent = "yes";
    if (event.submitter) {
      event.submitter.setAttribute("aria-busy", "true");
      if (event.submitter.dataset.busy) {
        const note = document.createElement("p");
        note.setAttribute("role", "status");
        note.textContent = event.submitter.dataset.busy;
        event.submitter.after(note);
      }
    }
  });
  // Coming back with the back button shows the page as it was left; its forms may be sent again.
  window.addEventListener("pageshow", () => {
    for (const form of document.forms) delete form.dataset.sent;
    for (const busy of document.querySelectorAll("[aria-busy]")) busy.removeAttribute("aria-busy");
  });
  document.querySelector("[data-focus]")?.focus();
  for (const field of document.querySelectorAll("[data-copy]")) {
    if (!navigator.clipboard) break;
    const button = document.createElement("button");
    button.type = "button";
    button.className = "button";
    button.textContent = field.dataset.copy;
    button.addEventListener("click", async () => {
      await navigator.clipboard.writeText(field.value ?? field.textContent);
      button.textContent = field.dataset.copied;
    });
    field.after(button);
  }
})();
