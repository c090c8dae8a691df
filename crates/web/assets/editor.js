// The text of a file: findings appear beside it as one types.
// @ts-check

/** How long the keys must rest. [ms] */
const REST = 300;

export function editor() {
  const form = document.querySelector("form.editor");
  const place = document.getElementById("findings");
  const text = document.getElementById("text");
  if (!(form instanceof HTMLFormElement) || !place || !(text instanceof HTMLTextAreaElement)) return;
  const saved = text.value;
  let sending = false;
  let resting = 0;
  /** @type {AbortController | null} */
  let asking = null;

  async function check() {
    asking?.abort();
    asking = new AbortController();
    try {
      const body = new URLSearchParams(/** @type {any} */ (new FormData(form)));
      const answer = await fetch("/check", { method: "POST", body, signal: asking.signal });
      if (!answer.ok) return;
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      place.replaceChildren(...page.body.childNodes);
    } catch {
      // The next key asks again.
    }
  }

  text.addEventListener("input", () => {
    clearTimeout(resting);
    resting = setTimeout(check, REST);
  });
  // A finding leads to its line.
  place.addEventListener("click", (event) => {
    const line = Number(/** @type {HTMLElement} */ (event.target).closest("[data-line]")?.getAttribute("data-line"));
    if (!line) return;
    const start = text.value.split("\n", line - 1).join("\n").length + (line > 1 ? 1 : 0);
    text.focus();
    text.setSelectionRange(start, (text.value.indexOf("\n", start) + 1 || text.value.length + 1) - 1);
  });
  form.addEventListener("submit", () => (sending = true));
  addEventListener("beforeunload", (event) => {
    if (!sending && text.value !== saved) event.preventDefault();
  });
}
