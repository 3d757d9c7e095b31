// Keeps the shown page fresh: whenever the event stream says that something changed, and every 10 s for the ages, it fetches the page it
// is on and puts the parts that differ in place. Words are made in one place only, the server. Without this script the page reloads itself.
"use strict";
(() => {
  const main = document.querySelector("main[data-live]");
  const contact = document.getElementById("contact");
  if (!main || !contact) return;

  const LEAST_PAUSE = 2000, AGES = 10000, PATIENCE = 8000, TYPING = 15000;
  let lastGood = Date.now(), lastTry = Date.now(), lastTyped = 0, planned = 0, busy = false, stream = null;

  function parts(root) {
    return [...root.querySelectorAll("[data-part]")];
  }

  // Somebody who types is not interrupted, but a page left with the cursor in a field must not go stale: after a pause it is replaced, and
  // what was typed is carried over.
  function isBeingFilled(element) {
    const active = document.activeElement;
    return active !== null && active.matches("input, button") && element.contains(active) && Date.now() - lastTyped < TYPING;
  }

  function keepingTyped(change) {
    const typed = new Map([...main.querySelectorAll("input[id]")].filter(input => input.value !== input.defaultValue).map(input => [input.id, input.value]));
    const active = document.activeElement?.id;
    change();
    for (const [id, value] of typed) {
      const input = document.getElementById(id);
      if (input) input.value = value;
    }
    if (active && document.activeElement?.id !== active) document.getElementById(active)?.focus({ preventScroll: true });
  }

  function differs(a, b) {
    return a.textContent !== b.textContent || a.className !== b.className;
  }

  function put(fresh) {
    const old = parts(main), now = parts(fresh);
    const sameParts = old.length === now.length && old.every((part, i) => part.dataset.part === now[i].dataset.part);
    keepingTyped(() => {
      if (!sameParts) {
        if (!isBeingFilled(main)) main.replaceChildren(...fresh.childNodes);
        return;
      }
      old.forEach((part, i) => {
        if (differs(part, now[i]) && !isBeingFilled(part)) part.replaceWith(now[i]);
      });
    });
  }

  async function refresh() {
    if (busy) return;
    busy = true;
    lastTry = Date.now();
    try {
      const reply = await fetch(location.href, { cache: "no-store", redirect: "manual", signal: AbortSignal.timeout(PATIENCE) });
      if (reply.type === "opaqueredirect") {
        location.reload();
        return;
      }
      if (!reply.ok) throw new Error(String(reply.status));
      const page = new DOMParser().parseFromString(await reply.text(), "text/html");
      const fresh = page.querySelector("main[data-live]");
      if (!fresh) throw new Error("not the page");
      put(fresh);
      document.title = page.title;
      lastGood = Date.now();
      contact.hidden = true;
    } catch {
      const since = new Date(lastGood).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit", second: "2-digit", hour12: false });
      contact.textContent = `Old: no contact with VatWatch since ${since}. Nothing below is newer than that; look at the vats.`;
      contact.hidden = false;
    } finally {
      busy = false;
    }
  }

  function plan() {
    if (planned || document.hidden) return;
    planned = setTimeout(() => { planned = 0; refresh(); }, Math.max(0, lastTry + LEAST_PAUSE - Date.now()));
  }

  function follow() {
    if (document.hidden) {
      stream?.close();
      stream = null;
    } else if (!stream) {
      stream = new EventSource("/api/events");
      for (const name of ["measurement", "condition", "alarm", "session", "lagged"]) stream.addEventListener(name, plan);
      plan();
    }
  }

  document.documentElement.classList.add("live");
  document.addEventListener("visibilitychange", follow);
  document.addEventListener("input", () => { lastTyped = Date.now(); });
  setInterval(plan, AGES);
  follow();
})();
