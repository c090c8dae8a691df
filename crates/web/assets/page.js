// What every page shares: progress on what takes long, and the parts that a page has use for. Plain modules, no build.
// @ts-check

import { whatIf } from "./whatif.js";
import { figures } from "./figure.js";
import { editor } from "./editor.js";

whatIf();
figures();
editor();

// A form of every entry sends only what was changed.
for (const form of document.querySelectorAll("form[data-trim]")) {
  form.addEventListener("submit", () => {
    for (const field of /** @type {NodeListOf<HTMLInputElement>} */ (form.querySelectorAll("input[data-was]"))) {
      if (field.value === field.dataset.was) field.disabled = true;
    }
    // Back brings the form back as it was.
    setTimeout(() => form.querySelectorAll("input[data-was]").forEach((field) => field.removeAttribute("disabled")));
  });
}
