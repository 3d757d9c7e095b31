// Counts the time in and out of the liquor by the second, says by colour and sound when a wished time is over, and keeps open what the dyer has
// opened when the live page puts a fresh part in place. Without it the page says the time of its making and everything works.
"use strict";
(() => {
  const AGAIN = 30000, MOST_RINGS = 5, NOTES = [0, 0.35, 0.7], PITCH = 740, SILENT = "vatwatch-silent";
  const begun = new WeakMap(), open = new Set();
  let audio = null, rings = 0, lastRing = 0;

  function words(seconds) {
    const two = number => String(number).padStart(2, "0"), minutes = Math.floor(seconds / 60);
    return minutes < 60 ? `${minutes}:${two(seconds % 60)}` : `${Math.floor(minutes / 60)} h ${two(minutes % 60)} min`;
  }

  function count() {
    let isDue = false;
    for (const shown of document.querySelectorAll("time[data-elapsed]")) {
      if (!begun.has(shown)) begun.set(shown, performance.now());
      const passed = Math.floor(Number(shown.dataset.elapsed) + (performance.now() - begun.get(shown)) / 1000 * Number(shown.dataset.speed || 1));
      const text = words(passed);
      if (shown.textContent !== text) shown.textContent = text;
      if (shown.dataset.goal && passed >= Number(shown.dataset.goal)) {
        isDue = true;
        shown.closest(".bar-line")?.classList.add("due");
      }
    }
    remind(isDue);
  }

  function remind(isDue) {
    if (!isDue) {
      rings = lastRing = 0;
    } else if (rings < MOST_RINGS && (lastRing === 0 || performance.now() - lastRing > AGAIN)) {
      ring();
    }
  }

  function isSilent() {
    try { return localStorage.getItem(SILENT) === "yes"; } catch { return false; }
  }

  // Browsers let a page sound only after it has been tapped once.
  function ring() {
    if (audio?.state !== "running" || isSilent()) return;
    rings++;
    lastRing = performance.now();
    for (const after of NOTES) {
      const tone = audio.createOscillator(), loudness = audio.createGain(), at = audio.currentTime + after;
      tone.frequency.value = PITCH;
      loudness.gain.setValueAtTime(0.0001, at);
      loudness.gain.exponentialRampToValueAtTime(0.4, at + 0.03);
      loudness.gain.exponentialRampToValueAtTime(0.0001, at + 0.28);
      tone.connect(loudness).connect(audio.destination);
      tone.start(at);
      tone.stop(at + 0.3);
    }
    document.documentElement.dataset.rang = String(rings);
  }

  function showSound() {
    for (const button of document.querySelectorAll("button[data-sound]")) {
      button.hidden = false;
      const text = isSilent() ? "Sound is off" : "Sound is on";
      if (button.textContent !== text) button.textContent = text;
      button.setAttribute("aria-pressed", String(!isSilent()));
    }
  }

  function switchSound() {
    try { localStorage.setItem(SILENT, isSilent() ? "no" : "yes"); } catch { return; }
    showSound();
    const soundsNow = !isSilent();
    if (soundsNow) audio?.resume().then(() => { ring(); rings = lastRing = 0; });
  }

  document.addEventListener("click", event => {
    audio ??= "AudioContext" in window ? new AudioContext() : null;
    audio?.resume();
    if (event.target.closest?.("button[data-sound]")) switchSound();
  });

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
      showSound();
    }).observe(main, { childList: true, subtree: true });
  }
  setInterval(count, 1000);
  showSound();
  count();
})();
