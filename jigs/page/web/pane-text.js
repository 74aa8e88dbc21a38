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
  let base = "";

  async function write() {
    note.textContent = "";
    try {
      await rewrite(area.value);
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
  /** @param {import("./store.js").View} view */
  return ({ state }) => {
    const touched = area.value !== base && area.value !== state.text;
    if (touched && base !== state.text) note.textContent = "The file has changed meanwhile. What you typed is still here.";
    if (!touched) area.value = state.text;
    base = state.text;
    file.textContent = state.file;
    mark();
    return [file, area, note, make("div", { class: "tools" }, save, drop)];
  };
}
