// Keeps the shown page fresh: whenever the event stream says that something changed, and every 10 s for the ages, it fetches the page it
// is on and puts the parts that differ in place. Words are made in one place only, the server. Without this script the page reloads itself.
"use strict";
(() => {
  const main = document.querySelector("main[data-live]");
  const contact = document.getElementById("contact");
  if (!main || !contact) return;

  const LEAST_PAUSE = 700, AGES = 10000, PATIENCE = 8000, TYPING = 15000, TOO_OLD = 20000, ANEW = 2000;
  const FIELDS = "input, select, textarea";
  let lastGood = Date.now(), lastTry = Date.now(), lastTick = Date.now(), lastTyped = 0, planned = 0, running = null, stream = null, anew = 0;

  function parts(root) {
    return [...root.querySelectorAll("[data-part]")];
  }

  // Somebody who types is not interrupted, but a page left with the cursor in a field must not go stale: after a pause it is replaced, and
  // what was typed is carried over.
  function isBeingFilled(element) {
    const active = document.activeElement;
    return active !== null && active.matches(`${FIELDS}, button`) && element.contains(active) && Date.now() - lastTyped < TYPING;
  }

  function keepingTyped(change) {
    const typed = new Map([...main.querySelectorAll(FIELDS)].filter(field => field.id && field.value !== field.defaultValue).map(field => [field.id, field.value]));
    const open = new Set([...main.querySelectorAll("details[id][open]")].map(one => one.id));
    const active = document.activeElement?.id;
    change();
    for (const [id, value] of typed) {
      const field = document.getElementById(id);
      if (field?.matches(FIELDS) && field.type !== "file" && field.type !== "hidden") field.value = value;
    }
    for (const id of open) document.getElementById(id)?.setAttribute("open", "");
    if (active && document.activeElement?.id !== active) document.getElementById(active)?.focus({ preventScroll: true });
  }

  function differs(a, b) {
    return a.textContent !== b.textContent || a.className !== b.className || a.dataset.last !== b.dataset.last;
  }

  function put(fresh) {
    const old = parts(main), now = parts(fresh);
    const sameParts = old.length === now.length && old.every((part, i) => part.dataset.part === now[i].dataset.part);
    keepingTyped(() => {
      if (!sameParts && !isBeingFilled(main)) {
        // What lives by a script of its own, such as the chart, is carried over as it is.
        for (const kept of main.querySelectorAll("[data-keep][id]")) fresh.querySelector(`#${CSS.escape(kept.id)}`)?.replaceWith(kept);
        main.replaceChildren(...fresh.childNodes);
        return;
      }
      // Only the form that is being filled in stands still.
      for (const part of old) {
        const next = now.find(one => one.dataset.part === part.dataset.part);
        if (next && differs(part, next) && !isBeingFilled(part)) part.replaceWith(next);
      }
    });
  }

  // The site's clock, like every other time on the page; a browser that does not know the zone has its own.
  function wall(moment) {
    const form = { hour: "2-digit", minute: "2-digit", second: "2-digit", hourCycle: "h23" };
    try {
      return moment.toLocaleTimeString([], { ...form, timeZone: main.dataset.zone });
    } catch {
      return moment.toLocaleTimeString([], form);
    }
  }

  function sayOld() {
    const since = wall(new Date(lastGood));
    contact.textContent = `Old: no contact with VatWatch since ${since}. Nothing below is newer than that; look at the vats.`;
    contact.hidden = false;
  }

  function take(page) {
    const fresh = page.querySelector("main[data-live]");
    if (!fresh) throw new Error("not the page");
    put(fresh);
    document.title = page.title;
    lastGood = Date.now();
    contact.hidden = true;
    document.dispatchEvent(new CustomEvent("vatwatch-refreshed"));
  }

  async function refresh() {
    if (running) return;
    const mine = running = new AbortController();
    lastTry = Date.now();
    try {
      const reply = await fetch(location.href, {
        cache: "no-store", redirect: "manual", headers: { "VatWatch-Refresh": "1" }, signal: AbortSignal.any([mine.signal, AbortSignal.timeout(PATIENCE)]),
      });
      if (reply.type === "opaqueredirect") {
        location.reload();
        return;
      }
      if (!reply.ok) throw new Error(String(reply.status));
      take(new DOMParser().parseFromString(await reply.text(), "text/html"));
    } catch {
      if (running === mine) sayOld();
    } finally {
      if (running === mine) running = null;
    }
  }

  function plan() {
    if (planned || document.hidden) return;
    planned = setTimeout(() => { planned = 0; refresh(); }, Math.max(0, lastTry + LEAST_PAUSE - Date.now()));
  }

  function follow() {
    stream?.close();
    stream = null;
    clearTimeout(anew);
    if (document.hidden) return;
    stream = new EventSource("/api/events");
    for (const name of ["open", "measurement", "condition", "alarm", "session", "lagged"]) stream.addEventListener(name, plan);
    // The browser itself tries again after a broken line, but not after an answer that is no stream, as a starting daemon or a full one gives.
    stream.addEventListener("error", () => {
      plan();
      if (stream?.readyState === EventSource.CLOSED) anew = setTimeout(follow, ANEW);
    });
  }

  // After a sleep nothing that was under way can be trusted: an old answer may hang for minutes. What is shown is called old at once.
  function wake() {
    lastTick = Date.now();
    if (document.hidden) {
      follow();
      return;
    }
    if (Date.now() - lastGood > TOO_OLD) sayOld();
    running?.abort();
    running = null;
    clearTimeout(planned);
    planned = 0;
    follow();
    refresh();
  }

  document.documentElement.classList.add("live");
  document.addEventListener("visibilitychange", wake);
  document.addEventListener("resume", wake);
  window.addEventListener("pageshow", event => { if (event.persisted) wake(); });
  window.addEventListener("online", wake);
  window.addEventListener("offline", sayOld);
  // A form that was sent by script brings the page back with it; what has come meanwhile is older.
  document.addEventListener("vatwatch-page", event => {
    running?.abort();
    running = null;
    lastTyped = 0;
    take(event.detail);
  });
  document.addEventListener("vatwatch-stale", plan);
  document.addEventListener("input", () => { lastTyped = Date.now(); });
  setInterval(() => {
    const slept = Date.now() - lastTick > 2500;
    lastTick = Date.now();
    if (slept) wake();
  }, 1000);
  setInterval(plan, AGES);
  follow();
})();
