// The job file's text, as it stands on disk.

import { make } from "./dom.js";
import { rewrite, told } from "./store.js";

export function textPane() {
  const area = /** @type {HTMLTextAreaElement} */ (make("textarea", {
    "aria-label": "Text of the job file", spellcheck: "false", autocomplete: "off", wrap: "off", rows: 26,
  }));
  const note = make("p", { class: "fault", role: "alert" });
  const save = /** @type {HTMLButtonElement} */ (make("button", { type: "button", click: write }, "Write the file"));
  const drop = /** @type {HTMLButtonElement} */ (make("button", { type: "button", click: back }, "Back to the file"));
  const file = make("p", { class: "quiet" });
  let [base, end] = ["", "\n"]; // the browser types every line's end as \n

  async function write() {
    note.textContent = "";
    try {
      await rewrite(area.value.replaceAll("\n", end));
    } catch (error) {
      note.textContent = told(/** @type {any} */ (error));
    }
  }

  function back() {
    area.value = base;
    note.textContent = "";
    mark();
  }

  function mark() {
    save.disabled = drop.disabled = area.value === base;
  }

  area.addEventListener("input", mark);
  window.addEventListener("beforeunload", (event) => { if (area.value !== base) event.preventDefault(); });
  /** @param {import("./store.js").View} view */
  return ({ state }) => {
    const text = state.text.replaceAll("\r\n", "\n");
    const touched = area.value !== base && area.value !== text;
    if (touched && base !== text) note.textContent = "The file has changed meanwhile. What you typed is still here.";
    if (!touched) area.value = text;
    [base, end] = [text, state.text.includes("\r\n") ? "\r\n" : "\n"];
    file.textContent = state.file;
    mark();
    return [file, area, note, make("div", { class: "tools" }, save, drop)];
  };
}
