// The text of a file and the form beside it stay in step: what is found appears as one types, the form shows the subject that
// the caret stands in, and what is put into a field goes into the text.
// @ts-check

/** How long the keys must rest. [ms] */
const REST = 300;
/** How long until what did not get through is asked again. [ms] */
const AGAIN = 2000;

export function editor() {
  const form = document.querySelector("form.editor");
  const text = document.getElementById("text");
  if (!(form instanceof HTMLFormElement) || !(text instanceof HTMLTextAreaElement)) return;
  const saved = text.value;
  let sending = false;
  let resting = 0;
  /** @type {AbortController | null} */
  let asking = null;

  /** Asks for what stands beside the text, and puts it there; the focus stays where it is.
   * @param {string} path @param {Record<string, string>} more */
  async function ask(path, more) {
    asking?.abort();
    asking = new AbortController();
    const body = new URLSearchParams(/** @type {any} */ (new FormData(form)));
    for (const [key, value] of Object.entries(more)) body.set(key, value);
    const sent = text.value;
    try {
      const answer = await fetch(path, { method: "POST", body, signal: asking.signal });
      if (!answer.ok && answer.status !== 422) return;
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      const fresh = page.getElementById("text");
      // Who went on typing meanwhile is not overwritten: the next rest asks again.
      if (text.value !== sent) return;
      if (fresh instanceof HTMLTextAreaElement && fresh.value !== sent) text.value = fresh.value;
      for (const id of ["fill", "findings"]) swap(id, page.getElementById(id));
    } catch (fault) {
      // What was overtaken is forgotten; what did not get through is asked again, unless a key asks first.
      if (!(fault instanceof DOMException && fault.name === "AbortError")) rest(() => ask(path, more), AGAIN);
    }
  }

  /** @param {string} id @param {HTMLElement | null} fresh */
  function swap(id, fresh) {
    const old = document.getElementById(id);
    if (!old || !fresh) return;
    const focus = old.contains(document.activeElement) ? document.activeElement?.id : "";
    const open = [...old.querySelectorAll("details")].map((part) => part.open);
    old.replaceChildren(...fresh.childNodes);
    old.querySelectorAll("details").forEach((part, index) => (part.open = open[index] ?? false));
    if (focus) document.getElementById(focus)?.focus();
  }

  /** The subject that the caret stands in is shown. */
  function follow() {
    const line = text.value.slice(0, text.selectionStart).split("\n").length;
    const subject = document.getElementById("subject");
    if (!(subject instanceof HTMLSelectElement)) return;
    let best = null;
    for (const option of subject.options) {
      const begins = Number(option.dataset.line ?? Infinity);
      if (begins <= line && begins >= Number(best?.dataset.line ?? 0)) best = option;
    }
    if (!best || best.value === subject.value) return;
    subject.value = best.value;
    ask("/check", {});
  }

  /** @param {() => void} then */
  function rest(then, time = REST) {
    clearTimeout(resting);
    resting = setTimeout(then, time);
  }
  text.addEventListener("input", () => rest(() => ask("/check", {})));
  text.addEventListener("click", () => rest(follow));
  text.addEventListener("keyup", (event) => {
    if (event.key.startsWith("Arrow") || event.key.startsWith("Page")) rest(follow);
  });
  form.addEventListener("change", (event) => {
    const field = /** @type {HTMLElement} */ (event.target);
    if (field.id === "subject") ask("/check", {});
    else if (field.id.startsWith("if.")) ask("/put", { do: "fields" });
  });
  // A finding leads to its line.
  form.addEventListener("click", (event) => {
    const line = Number(/** @type {HTMLElement} */ (event.target).closest("[data-line]:not(option)")?.getAttribute("data-line"));
    if (!line) return;
    const start = text.value.split("\n", line - 1).join("\n").length + (line > 1 ? 1 : 0);
    text.focus();
    text.setSelectionRange(start, (text.value.indexOf("\n", start) + 1 || text.value.length + 1) - 1);
  });
  form.addEventListener("submit", (event) => {
    const button = event.submitter;
    if (button instanceof HTMLButtonElement && button.name === "do") {
      event.preventDefault();
      ask("/put", { do: button.value });
      return;
    }
    sending = true;
  });
  addEventListener("beforeunload", (event) => {
    if (!sending && text.value !== saved) event.preventDefault();
  });
}
