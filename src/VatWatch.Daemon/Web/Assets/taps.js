// Sends what is tapped without leaving the page. While VatWatch is away a tap is kept on this phone and sent when it is back, with its own time and
// a name, so that it is written once. Pictures are made smaller first. Without this script the forms work as forms do.
"use strict";
(() => {
  const STORE = "vatwatch-kept", TOKEN = "__RequestVerificationToken", MOST = 200;
  const PATIENCE = 10000, SETTLING = 1500, PICTURE_PATIENCE = 90000, AGAIN = 5000, LONGEST_SIDE = 1600, QUALITY = 0.85;
  let memory = [], isSending = false, lastDip = 0;

  function kept() {
    try { return JSON.parse(localStorage.getItem(STORE)) ?? []; } catch { return memory; }
  }

  function keepAll(taps) {
    memory = taps;
    try { localStorage.setItem(STORE, JSON.stringify(taps)); } catch { /* a browser that stores nothing keeps them while the page is open */ }
    show();
  }

  function newName() {
    return [...crypto.getRandomValues(new Uint8Array(16))].map(byte => byte.toString(16).padStart(2, "0")).join("");
  }

  function say(words, isPlain = false) {
    const said = document.getElementById("said");
    if (!said) return;
    said.textContent = words;
    said.className = isPlain ? "hidden" : "fault";
  }

  function line(words, one) {
    const item = document.createElement("li"), at = new Date(one.at);
    item.textContent = `${words} ${one.words}, ${at.getHours()}:${String(at.getMinutes()).padStart(2, "0")}`;
    return item;
  }

  // Off the page of the vat there is no place for them, so one is made while there are any.
  function place(isNeeded) {
    const found = document.getElementById("kept"), main = document.querySelector("main");
    if (found || !isNeeded || !main) return found;
    const made = document.createElement("ul");
    [made.id, made.className] = ["kept", "kept"];
    main.before(made);
    return made;
  }

  function show() {
    const taps = kept(), list = place(taps.length > 0);
    if (!list) return;
    list.hidden = taps.length === 0;
    list.replaceChildren(...taps.map(one => {
      const item = line(one.refused ? "Not written:" : "Kept on this phone until VatWatch is back:", one);
      if (one.refused) {
        const button = document.createElement("button");
        [button.type, button.className, button.textContent] = ["button", "undo", "Discard"];
        button.addEventListener("click", () => keepAll(kept().filter(other => other.tap !== one.tap)));
        item.append(`. ${one.refused} `, button);
      }
      return item;
    }));
  }

  // No answer, or one that says that VatWatch itself is in trouble, throws; the rest is an answer.
  async function post(action, body, patience) {
    const reply = await fetch(action, { method: "POST", body, headers: { "VatWatch-Refresh": "1" }, signal: AbortSignal.timeout(patience) });
    const text = await reply.text();
    if (reply.status >= 500) throw new Error(String(reply.status));
    const page = new DOMParser().parseFromString(text, "text/html");
    return {
      page,
      isWritten: reply.ok && reply.redirected && page.querySelector("main[data-live]") !== null,
      refused: page.querySelector(".message p")?.textContent,
    };
  }

  async function smaller(file) {
    try {
      const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
      const scale = Math.min(1, LONGEST_SIDE / Math.max(picture.width, picture.height));
      const canvas = document.createElement("canvas");
      [canvas.width, canvas.height] = [Math.round(picture.width * scale), Math.round(picture.height * scale)];
      canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
      const blob = await new Promise(done => canvas.toBlob(done, "image/jpeg", QUALITY));
      return blob && blob.size < file.size ? blob : file;
    } catch {
      return file;
    }
  }

  function keep(action, fields, tap, words) {
    const taps = kept();
    if (taps.length >= MOST) return say(`Not kept: ${MOST} taps wait on this phone already.`);
    keepAll([...taps, { action, fields: fields.filter(([name]) => name !== TOKEN), tap, words, at: Date.now() }]);
    turn(fields);
    say("");
  }

  // While nothing comes from VatWatch, the big button goes on by itself.
  function turn(fields) {
    const kind = fields.find(([name]) => name === "kind")?.[1], button = document.getElementById("bar-tap");
    if (!button || (kind !== "dip-in" && kind !== "dip-out")) return;
    [button.value, button.textContent] = kind === "dip-in" ? ["dip-out", "Dip out"] : ["dip-in", "Dip in"];
  }

  async function body(fields, file) {
    if (!file) return new URLSearchParams(fields);
    const form = new FormData();
    for (const [name, value] of fields) form.append(name, value === file ? await smaller(file) : value, ...(value === file ? ["picture"] : []));
    return form;
  }

  async function send(form, button) {
    const fields = [...new FormData(form)], tap = newName(), words = form.dataset.words ?? (button?.firstChild ?? button)?.textContent.trim() ?? "";
    if (button?.name) fields.push([button.name, button.value]);
    const action = button?.getAttribute("formaction") ?? form.getAttribute("action");
    const file = fields.map(([, value]) => value).find(value => value instanceof File && value.size > 0);
    const canWait = !file && action.endsWith("/entries") && fields.some(([name, value]) => name === "by" && value.trim());
    if (canWait && kept().some(one => !one.refused)) {
      keep(action, fields, tap, words);
      flush();
      return;
    }
    try {
      const reply = await post(action, await body([...fields, ["tap", tap]], file), file ? PICTURE_PATIENCE : PATIENCE);
      if (reply.isWritten) {
        await written(form, reply.page);
        say(`Written: ${words}`, true);
      } else if (reply.refused) {
        say(reply.refused);
      } else {
        location.reload();
      }
    } catch {
      if (canWait) keep(action, fields, tap, words);
      else say("No contact with VatWatch, so this was not sent. Try again when it is back.");
    }
  }

  async function written(form, page) {
    form.reset();
    form.closest("details")?.removeAttribute("open");
    // Lets others hear that it was closed, before the page is put in place.
    await new Promise(done => setTimeout(done));
    document.dispatchEvent(new CustomEvent("vatwatch-page", { detail: page }));
  }

  // A page may have no form to take it from, and one that was kept for long an old one: the page of the vat gives it fresh.
  async function tokenFor(action) {
    const reply = await fetch(action.replace(/\/entries$/, ""), { headers: { "VatWatch-Refresh": "1" }, signal: AbortSignal.timeout(PATIENCE) });
    if (!reply.ok) throw new Error(String(reply.status));
    return new DOMParser().parseFromString(await reply.text(), "text/html").querySelector(`input[name=${TOKEN}]`)?.value ?? "";
  }

  async function flush() {
    if (isSending) return;
    isSending = true;
    try {
      for (let one = next(); one; one = next()) {
        const token = await tokenFor(one.action);
        const reply = await post(one.action, new URLSearchParams([...one.fields, [TOKEN, token], ["tap", one.tap], ["kept", String(Math.max(0, Date.now() - one.at) / 1000)]]), PATIENCE);
        if (!reply.isWritten && !reply.refused) break;
        keepAll(kept().flatMap(other => other.tap !== one.tap ? [other] : reply.isWritten ? [] : [{ ...other, refused: reply.refused }]));
        document.dispatchEvent(new CustomEvent("vatwatch-stale"));
      }
    } catch {
      // Still away.
    } finally {
      isSending = false;
    }
  }

  function next() {
    return kept().find(one => !one.refused);
  }

  document.addEventListener("submit", async event => {
    const form = event.target;
    if (!form.matches("form[data-tap]")) return;
    event.preventDefault();
    // A second tap of a wet finger must not take out what the first has put in.
    const isDip = event.submitter?.id === "bar-tap";
    if (form.dataset.busy || (isDip && lastDip > 0 && performance.now() - lastDip < SETTLING)) return;
    form.dataset.busy = "yes";
    try {
      await send(form, event.submitter);
    } finally {
      if (isDip) lastDip = performance.now();
      delete form.dataset.busy;
    }
  });
  document.addEventListener("vatwatch-refreshed", () => { show(); flush(); });
  window.addEventListener("online", flush);
  setInterval(() => { if (next()) flush(); }, AGAIN);
  show();
  flush();
})();
