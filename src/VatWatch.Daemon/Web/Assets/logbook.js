// Counts the time in and out of the liquor by the second, and keeps open what the dyer has opened when the live page puts a fresh part in
// place. Without it the page says the time of its making and everything works.
"use strict";
(() => {
  const begun = new WeakMap(), open = new Set();

  function words(seconds) {
    const two = number => String(number).padStart(2, "0"), minutes = Math.floor(seconds / 60);
    return minutes < 60 ? `${minutes}:${two(seconds % 60)}` : `${Math.floor(minutes / 60)} h ${two(minutes % 60)} min`;
  }

  function count() {
    for (const shown of document.querySelectorAll("time[data-elapsed]")) {
      if (!begun.has(shown)) begun.set(shown, performance.now());
      const passed = (performance.now() - begun.get(shown)) / 1000 * Number(shown.dataset.speed || 1);
      const text = words(Math.floor(Number(shown.dataset.elapsed) + passed));
      if (shown.textContent !== text) shown.textContent = text;
    }
  }

  document.addEventListener("toggle", event => {
    const id = event.target.id;
    if (id && event.target.matches("details")) open[event.target.open ? "add" : "delete"](id);
  }, true);

  const main = document.querySelector("main");
  if (main) {
    new MutationObserver(() => {
      for (const id of open) {
        const details = document.getElementById(id);
        if (details && !details.open) details.open = true;
      }
    }).observe(main, { childList: true, subtree: true });
  }
  setInterval(count, 1000);
  count();
})();
