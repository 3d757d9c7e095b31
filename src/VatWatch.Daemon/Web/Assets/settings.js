// Sends a test message to a contact and says what became of it.
"use strict";
for (const button of document.querySelectorAll("button[data-test]")) {
  button.hidden = false;
  button.addEventListener("click", async () => {
    const answer = button.closest("li").querySelector("[role=status]");
    button.disabled = true;
    answer.textContent = "Sending…";
    try {
      const reply = await fetch(button.dataset.test, { method: "POST", signal: AbortSignal.timeout(60000) });
      const said = await reply.json();
      answer.textContent = said.answer ?? said.detail ?? "No answer that could be understood.";
    } catch {
      answer.textContent = "No contact with VatWatch; nothing is known of the message.";
    }
    button.disabled = false;
  });
}
