// What-if: the sheet and the pictures answer while a knob is turned. The latest turn wins; what was asked before is dropped.
// Without this script the same knobs are links and a form.
// @ts-check

import { figures } from "./figure.js";

/** How long a knob must rest before remedies are looked for and the address is kept. [ms] */
const REST = 500;

export function whatIf() {
  const form = /** @type {HTMLFormElement | null} */ (document.getElementById("turn"));
  if (!form) return;
  /** @type {AbortController | null} */
  let asking = null;
  let resting = 0;
  /** The what-if that is shown; a step within the page is none. */
  let shown = location.pathname + location.search;

  /** The address of the what-if that the form shows. */
  function address() {
    const query = new URLSearchParams();
    for (const field of /** @type {HTMLInputElement[]} */ ([...form.elements])) {
      if (!field.name || field.type === "range" || field.disabled) continue;
      if (field.name.startsWith("if.") && field.type !== "hidden") {
        const kept = new URLSearchParams(location.search).has(field.name);
        if (field.value.trim() === "" || (field.value === field.dataset.was && !kept)) continue;
      }
      query.append(field.name, field.value);
    }
    return `${form.getAttribute("action")}?${query}`;
  }

  /**
   * Asks, and puts the answer in place of what is shown.
   * @param {string} url
   * @param {boolean} live whether the knob is still moving: remedies, and what the sheet rests on, come when it rests
   * @param {boolean} stepped whether a step was taken, which moves the steps on either side
   */
  async function ask(url, live, stepped = !live) {
    asking?.abort();
    asking = new AbortController();
    form.setAttribute("aria-busy", "true");
    try {
      const answer = await fetch(live ? `${url}&live=${stepped ? "step" : "drag"}` : url, { signal: asking.signal });
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      if (!page.querySelector("[data-live]")) {
        const why = page.querySelector("main")?.textContent?.trim() ?? "";
        say(why);
        return;
      }
      say("");
      for (const part of page.querySelectorAll("[data-live]")) swap(document.getElementById(part.id), part);
      figures();
      swapBand(page);
      if (stepped) knobs(page);
      if (!live) {
        const to = new URL(answer.url);
        if (to.pathname + to.search !== location.pathname + location.search) history.pushState(null, "", to);
        shown = to.pathname + to.search;
      }
    } catch (error) {
      if (!(error instanceof DOMException)) say("The program does not answer. Is it still running?");
    } finally {
      form.removeAttribute("aria-busy");
    }
  }

  /**
   * Puts a part in place of the old one; what somebody has opened in it stays open.
   * @param {HTMLElement | null} old
   * @param {Element} part
   */
  function swap(old, part) {
    if (!old) return;
    const was = [...old.querySelectorAll("details")];
    part.querySelectorAll("details").forEach((fresh, index) => {
      if (was[index]?.open) fresh.open = true;
    });
    old.replaceWith(part);
  }

  /** @param {Document} page */
  function swapBand(page) {
    document.body.className = page.body.className;
    for (const name of [".word-across", ".band"]) {
      const old = document.querySelector(`body > ${name}`);
      const fresh = page.querySelector(`body > ${name}`);
      if (old && fresh) old.replaceWith(fresh);
      else if (old) old.remove();
      else if (fresh) document.getElementById("main")?.before(fresh);
    }
    const links = page.querySelector("header.top");
    if (links) document.querySelector("header.top")?.replaceWith(links);
  }

  /**
   * Steps and marks of the knobs, without touching the field that somebody is in.
   * @param {Document} page
   */
  function knobs(page) {
    for (const old of form.querySelectorAll(".knob")) {
      const name = /** @type {HTMLInputElement | null} */ (old.querySelector("input[name]"))?.name;
      const fresh = name && page.getElementById(name)?.closest(".knob");
      if (!fresh) continue;
      const within = old.contains(document.activeElement) ? document.activeElement : null;
      const which = within ? [...old.querySelectorAll("a,input")].indexOf(within) : -1;
      old.replaceWith(fresh);
      sliders(fresh);
      if (which >= 0) /** @type {HTMLElement | undefined} */ ([...fresh.querySelectorAll("a,input")][which])?.focus();
    }
  }

  /** @param {string} words */
  function say(words) {
    let note = form.querySelector("[role=alert]");
    if (!note && words) {
      note = document.createElement("p");
      note.setAttribute("role", "alert");
      form.prepend(note);
    }
    if (note) words ? (note.textContent = words) : note.remove();
  }

  function moved() {
    clearTimeout(resting);
    ask(address(), true);
    resting = setTimeout(() => ask(address(), false), REST);
  }

  /** @param {Element} within */
  function sliders(within) {
    for (const slider of /** @type {NodeListOf<HTMLInputElement>} */ (within.querySelectorAll("input[type=range]"))) slider.hidden = false;
  }

  sliders(form);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    clearTimeout(resting);
    ask(address(), false);
  });
  form.addEventListener("input", (event) => {
    const slider = /** @type {HTMLInputElement} */ (event.target);
    if (slider.type !== "range") return;
    const field = /** @type {HTMLInputElement | null} */ (document.getElementById(slider.dataset.for ?? ""));
    if (!field) return;
    field.value = `${slider.value} ${slider.dataset.unit ?? ""}`.trim();
    moved();
  });
  form.addEventListener("change", (event) => {
    if (/** @type {HTMLInputElement} */ (event.target).type !== "range") moved();
  });
  form.addEventListener("click", (event) => {
    const step = /** @type {HTMLElement} */ (event.target).closest("a.nudge");
    if (!(step instanceof HTMLAnchorElement) || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    const field = /** @type {HTMLInputElement | null} */ (document.getElementById(step.dataset.for ?? ""));
    if (field) field.value = step.dataset.value ?? field.value;
    clearTimeout(resting);
    const url = step.getAttribute("href") ?? address();
    ask(url, true, true);
    resting = setTimeout(() => ask(url, false), REST);
  });
  addEventListener("popstate", () => {
    if (location.pathname + location.search !== shown) location.reload();
  });
}
