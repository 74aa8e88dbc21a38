// Mistakes put in, on sliders: how they show.

import { make } from "./dom.js";
import { mistaken } from "./store.js";

/** @type {[string, string][]} */
const SLIDERS = [["ring_size", "Rings too thick or too thin"], ["off_centre", "Mounted off centre"], ["layup_off", "Layup off the middle"]];

export function mistakesPane() {
  const said = make("ul", { class: "mistakes" });
  const rows = SLIDERS.map(([name, text]) => {
    const id = `wrong-${name}`;
    const input = /** @type {HTMLInputElement} */ (make("input", { type: "range", id, min: 0, max: 1, step: 0.05, value: 0, input: put }));
    return { name, input, row: make("div", { class: "row" }, make("label", { for: id }, text), input) };
  });
  const clear = make("button", { type: "button", click: none }, "No mistakes");
  const box = make("fieldset", { class: "tries" }, make("legend", {}, "Try mistakes"),
    make("p", { class: "quiet" }, "They show on the form and on the surface laid flat; the job file stays as it is."),
    ...rows.map((one) => one.row), make("div", { role: "status" }, said), clear);
  let [busy, again, revision] = [false, false, -1];

  async function put() {
    again = true;
    if (busy) return;
    busy = true;
    try {
      while (again) {
        again = false;
        const shares = rows.filter(({ input, row }) => !row.hidden && Number(input.value)).map(({ name, input }) => [name, Number(input.value)]);
        show(await mistaken(Object.fromEntries(shares)));
      }
    } catch (error) {
      said.replaceChildren(make("li", {}, /** @type {Error} */ (error).message));
    } finally {
      busy = false;
    }
  }

  /** @param {string[]} told */
  function show(told) {
    said.replaceChildren(...told.map((text) => make("li", {}, text)));
  }

  function none() {
    for (const { input } of rows) input.value = "0";
    void put();
  }

  document.getElementById("unmistaken")?.addEventListener("click", none);

  /** @param {import("./store.js").View} view */
  return ({ state }) => {
    const layup = state.fields.some((one) => one.key === "layup.plies" && one.text);
    for (const { name, row } of rows) row.hidden = name === "layup_off" && !layup;
    if (revision !== state.revision && rows.some(({ input }) => Number(input.value))) void put(); // another job has other sizes
    revision = state.revision;
    return [box];
  };
}
