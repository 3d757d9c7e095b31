// Sounds for alarms that nobody has acknowledged and for lost contact, and keeps the bedside page fresh. Whether an alarm calls is decided by the
// server, which marks it; this page only sounds for the marks. It never reloads itself, because a browser gives a new page no sound before a tap.
"use strict";
(() => {
  const EVERY = 5000, PATIENCE = 8000, LOST = 30000, ASLEEP = 15000, TICK = 250;
  // Start and length in seconds, and hertz. Three calls that a sleeper can tell apart; each begins softly and is at its loudest after half a minute.
  const CALLS = {
    critical: { every: 1.8, tones: [[0, 0.26, 932], [0.34, 0.26, 1245], [0.68, 0.5, 932]] },
    alarm: { every: 3, tones: [[0, 0.4, 622], [0.5, 0.4, 784]] },
    lost: { every: 4, tones: [[0, 0.9, 494], [1, 0.9, 330]] },
    test: { every: 0, tones: [[0, 0.3, 622], [0.4, 0.3, 784], [0.8, 0.5, 932]] },
  };
  const root = document.documentElement, main = document.querySelector("main"), contact = document.getElementById("contact"), form = document.getElementById("alarms");
  const quiet = new Set();
  let audio = null, ringing = [], call = "", began = 0, next = 0, lastGood = Date.now(), lastTick = Date.now(), lostWhy = "", lostSeen = false, lock = null, isFetching = false;

  const at = id => document.getElementById(id);

  function wall(moment) {
    const how = { hour: "2-digit", minute: "2-digit", hourCycle: "h23" };
    try {
      return new Date(moment).toLocaleTimeString([], { ...how, timeZone: main.dataset.zone });
    } catch {
      return new Date(moment).toLocaleTimeString([], how);
    }
  }

  function put(fresh) {
    for (const part of fresh.querySelectorAll("[data-part]")) {
      const old = document.querySelector(`[data-part="${part.dataset.part}"]`);
      if (!old || old.outerHTML === part.outerHTML) continue;
      const focused = old.contains(document.activeElement) ? document.activeElement.id : "";
      old.replaceWith(part);
      if (focused) at(focused)?.focus({ preventScroll: true });
    }
    const name = fresh.querySelector(".name");
    if (name && !form.elements.by) form.insertBefore(name, at("said"));
    const calling = new Set([...form.querySelectorAll("[data-calls]")].map(one => one.dataset.alarm));
    for (const one of quiet) if (!calling.has(one)) quiet.delete(one);
    for (const button of form.querySelectorAll("[data-quiet]")) button.hidden = quiet.has(button.dataset.quiet);
  }

  async function refresh() {
    if (isFetching) return;
    isFetching = true;
    try {
      const reply = await fetch(location.href, { cache: "no-store", redirect: "manual", signal: AbortSignal.timeout(PATIENCE) });
      if (reply.type === "opaqueredirect") throw new Error("the page is no longer signed in");
      const page = new DOMParser().parseFromString(await reply.text(), "text/html");
      if (!reply.ok || !page.querySelector("[data-part=clock]")) throw new Error("VatWatch does not answer as it should");
      put(page);
      if (page.querySelector("[data-blind]")) {
        lostWhy = "no new reading comes in";
      } else {
        lastGood = Date.now();
        lostWhy = "";
      }
    } catch (wrong) {
      lostWhy = wrong instanceof TypeError || wrong.name === "TimeoutError" ? "VatWatch cannot be reached" : wrong.message;
    } finally {
      isFetching = false;
    }
  }

  // An alarm is heard of at once; whatever the stream misses, the next look finds.
  function follow() {
    const stream = new EventSource("/api/events");
    for (const name of ["alarm", "lagged"]) stream.addEventListener(name, refresh);
    stream.addEventListener("error", () => {
      if (stream.readyState === EventSource.CLOSED) setTimeout(follow, EVERY);
    });
  }

  function isLost() {
    return Date.now() - lastGood > LOST;
  }

  function wanted() {
    if (isLost()) return lostSeen ? "" : "lost";
    const calls = [...form.querySelectorAll("[data-calls]")].filter(one => !quiet.has(one.dataset.alarm));
    return calls.some(one => one.dataset.calls === "critical") ? "critical" : calls.length > 0 ? "alarm" : "";
  }

  function play(which, volume) {
    const start = audio.context.currentTime + 0.05;
    for (const [from, length, hertz] of CALLS[which].tones) {
      const tone = audio.context.createOscillator(), loud = audio.context.createGain();
      tone.type = "triangle";
      tone.frequency.value = hertz;
      loud.gain.setValueAtTime(0, start + from);
      loud.gain.linearRampToValueAtTime(volume, start + from + 0.03);
      loud.gain.setValueAtTime(volume, start + from + length - 0.06);
      loud.gain.linearRampToValueAtTime(0, start + from + length);
      tone.connect(loud).connect(audio.meter);
      tone.start(start + from);
      tone.stop(start + from + length);
      tone.onended = () => { ringing = ringing.filter(one => one !== tone); };
      ringing.push(tone);
    }
    if (which !== "test") navigator.vibrate?.([400, 200, 400]);
  }

  function level() {
    audio.meter.getFloatTimeDomainData(audio.samples);
    return audio.samples.reduce((most, one) => Math.max(most, Math.abs(one)), 0);
  }

  function sayContact() {
    if (!isLost()) lostSeen = false;
    contact.hidden = !isLost();
    contact.querySelector("button").hidden = lostSeen;
    const words = `No contact since ${wall(lastGood)}: ${lostWhy || "no answer"}. What is shown is from then. Look at the vats.`;
    if (isLost() && contact.firstElementChild.textContent !== words) contact.firstElementChild.textContent = words;
    root.classList.toggle("lost", isLost());
  }

  function saySound() {
    const isOn = audio?.context.state === "running";
    const words = !audio ? "The sound is off."
      : isOn ? `The sound is on. It calls for alarms (${at("from").selectedOptions[0].textContent}) and when contact is lost. If the level moves and you hear nothing, turn the volume up.`
      : "The browser has stopped the sound. Tap to turn it on again.";
    if (at("sound-state").textContent !== words) at("sound-state").textContent = words;
    at("sound-on").textContent = isOn ? "Play the test again" : "Turn the sound on: plays a test";
    at("sound-off").hidden = !audio;
    at("sound-mark").textContent = isOn ? "sound on" : "sound off";
    root.classList.toggle("silent", !isOn);
  }

  function tick() {
    const passed = Date.now() - lastTick;
    if (passed > ASLEEP) {
      at("slept").textContent = `This page was asleep from ${wall(lastTick)} to ${wall(Date.now())} and could not have sounded.`;
      refresh();
    }
    lastTick = Date.now();
    sayContact();
    const now = audio?.context.state === "running" ? wanted() : "";
    if (now !== call) {
      for (const tone of ringing) tone.stop();
      call = now;
      began = next = audio?.context.currentTime ?? 0;
      root.dataset.sounding = call;
    }
    if (call && audio.context.currentTime >= next) {
      play(call, Math.min(1, 0.2 + (audio.context.currentTime - began) / 30));
      next = audio.context.currentTime + CALLS[call].every;
    }
    if (audio) at("level").value = level();
  }

  async function stayAwake() {
    const stays = at("awake");
    if (document.hidden || lock) return;
    if (!navigator.wakeLock) {
      stays.textContent = window.isSecureContext ? "This browser does not keep the screen on." : "This browser keeps the screen on only for pages that come over https.";
      return;
    }
    try {
      lock = await navigator.wakeLock.request("screen");
      lock.addEventListener("release", () => { lock = null; stays.textContent = "The screen may go off."; });
      stays.textContent = "The screen stays on.";
    } catch {
      stays.textContent = "This browser does not keep the screen on now; a low battery can be the reason.";
    }
  }

  async function turnOn() {
    if (!audio) {
      const context = new AudioContext(), meter = context.createAnalyser();
      meter.fftSize = 2048;
      meter.connect(context.destination);
      audio = { context, meter, samples: new Float32Array(meter.fftSize) };
      context.addEventListener("statechange", saySound);
    }
    await audio.context.resume();
    play("test", 0.7);
    saySound();
    stayAwake();
  }

  async function turnOff() {
    const old = audio;
    audio = null;
    call = root.dataset.sounding = "";
    at("level").value = 0;
    await old?.context.close();
    await lock?.release();
    saySound();
  }

  async function acknowledge(event) {
    event.preventDefault();
    const button = event.submitter, said = at("said");
    button.disabled = true;
    try {
      const reply = await fetch(button.formAction, { method: "POST", body: new URLSearchParams(new FormData(form)), redirect: "manual", signal: AbortSignal.timeout(PATIENCE) });
      const page = reply.type === "opaqueredirect" ? null : new DOMParser().parseFromString(await reply.text(), "text/html");
      said.textContent = page?.querySelector("main p")?.textContent ?? "";
    } catch {
      said.textContent = "Not acknowledged: VatWatch cannot be reached.";
    }
    button.disabled = false;
    refresh();
  }

  at("sound").hidden = false;
  at("sound-on").addEventListener("click", turnOn);
  at("sound-off").addEventListener("click", turnOff);
  contact.querySelector("button").addEventListener("click", () => { lostSeen = true; sayContact(); });
  form.addEventListener("submit", acknowledge);
  form.addEventListener("click", event => {
    const one = event.target.closest("[data-quiet]");
    if (one) { quiet.add(one.dataset.quiet); one.hidden = true; }
  });
  document.addEventListener("visibilitychange", () => { if (!document.hidden) { if (audio) stayAwake(); refresh(); } });
  for (const button of form.querySelectorAll("[data-quiet]")) button.hidden = false;
  saySound();
  setInterval(tick, TICK);
  setInterval(refresh, EVERY);
  follow();
})();
