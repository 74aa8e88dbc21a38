// Mistakes put in, on sliders: which of them show, and what they come to.

import { make } from "./dom.js";
import { mistaken } from "./store.js";

const SLIDERS = [["mitre", "Mitre out, up to 1°"], ["wedge", "Wedge of each ring out, up to 1°"], ["ring_size", "Rings too thick or thin"],
  ["ring_turned", "One ring turned too far"], ["off_centre", "Mounted off centre"], ["layup_off", "Layup off the middle"]];
const ONLY = { wedge: "torus", ring_turned: "vessel" };

export function mistakesPane() {
  const said = make("ul", { role: "status" });
  const rows = SLIDERS.map(([name, text]) => {
    const input = make("input", { type: "range", id: `wrong-${name}`, min: 0, max: 1, step: 0.05, value: 0, input: put });
    return { name, input: /** @type {HTMLInputElement} */ (input), row: make("div", { class: "row" }, make("label", { for: `wrong-${name}` }, text), input) };
  });
  const clear = make("button", { type: "button", click: none }, "No mistakes");
  const box = make("fieldset", {}, make("legend", {}, "Try mistakes"),
    make("p", { class: "quiet" }, "They show on the form and on the surface laid flat; the job file stays as it is."),
    ...rows.map((one) => one.row), said, clear);
  let [busy, again, revision] = [false, false, -1];

  async function put() {
    again = true;
    if (busy) return;
    busy = true;
    try {
      while (again) {
        again = false;
        const shares = rows.map(({ name, input, row }) => [name, row.hidden ? 0 : Number(input.value)]).filter(([, share]) => share);
        const told = await mistaken(Object.fromEntries(shares));
        said.replaceChildren(...told.map((text) => make("li", {}, text)));
      }
    } catch (error) {
      said.replaceChildren(make("li", {}, /** @type {Error} */ (error).message));
    } finally {
      busy = false;
    }
  }

  function none() {
    for (const { input } of rows) input.value = "0";
    void put();
  }

  /** @param {import("./store.js").View} view */
  return ({ state }) => {
    const layup = state.fields.some((one) => one.key === "layup.plies" && one.text);
    for (const { name, row } of rows) row.hidden = (ONLY[name] && ONLY[name] !== state.kind) || (name === "layup_off" && !layup);
    if (revision !== state.revision && rows.some(({ input }) => input.value !== "0")) void put(); // another job has other sizes
    revision = state.revision;
    return [box];
  };
}
