// Mistakes put in, on sliders: how they show, what they come to, which check finds them, how small they must be.

import { make } from "./dom.js";
import { mistaken } from "./store.js";

/** @typedef {import("./contract.js").Mistake} Mistake */

/** By form, "" for both. @type {[string, string, string][]} */
const SLIDERS = [["mitre", "", "Segment ends too square, up to 1°"], ["wedge", "torus", "Wedge rings span too little, up to 1°"],
  ["first_cut", "torus", "First cut of wedge rings out, up to 1°"], ["lean", "torus", "Blade leans, up to 1°"],
  ["half_end", "torus", "End wedge too thick"], ["ring_size", "", "Rings too thick or too thin"],
  ["ring_turned", "torus", "One ring turned, by segments"], ["ring_turned", "vessel", "One ring turned too far"],
  ["ring_flipped", "torus", "One ring upside down"], ["off_centre", "", "Mounted off centre"], ["layup_off", "", "Layup off the middle"]];
const ONCE = ["ring_flipped"]; // there is no half of it

export function mistakesPane() {
  const said = make("ul", { class: "mistakes" });
  const rows = SLIDERS.map(([name, form, text]) => {
    const id = `wrong-${name}-${form}`;
    const input = /** @type {HTMLInputElement} */ (make("input", ONCE.includes(name) ? { type: "checkbox", id, change: put }
      : { type: "range", id, min: 0, max: 1, step: 0.05, value: 0, input: put }));
    return { name, form, input, row: make("div", { class: "row" }, make("label", { for: id }, text), input) };
  });
  const clear = make("button", { type: "button", click: none }, "No mistakes");
  const box = make("fieldset", { class: "tries" }, make("legend", {}, "Try mistakes"),
    make("p", { class: "quiet" }, "They show on the form and on the surface laid flat; the job file stays as it is."),
    ...rows.map((one) => one.row), make("div", { role: "status" }, said), clear);
  let [busy, again, revision] = [false, false, -1];

  /** @param {HTMLInputElement} input */
  const share = (input) => (input.type === "checkbox" ? Number(input.checked) : Number(input.value));

  async function put() {
    again = true;
    if (busy) return;
    busy = true;
    try {
      while (again) {
        again = false;
        const shares = rows.filter(({ input, row }) => !row.hidden && share(input)).map(({ name, input }) => [name, share(input)]);
        show(await mistaken(Object.fromEntries(shares)));
      }
    } catch (error) {
      said.replaceChildren(make("li", {}, /** @type {Error} */ (error).message));
    } finally {
      busy = false;
    }
  }

  /** @param {Mistake[]} told */
  function show(told) {
    for (const image of said.querySelectorAll("img")) URL.revokeObjectURL(image.src);
    said.replaceChildren(...told.map(entry));
  }

  function none() {
    for (const { input } of rows) {
      if (input.type === "checkbox") input.checked = false;
      else input.value = "0";
    }
    void put();
  }

  document.getElementById("unmistaken")?.addEventListener("click", none);

  /** @param {import("./store.js").View} view */
  return ({ state }) => {
    const layup = state.fields.some((one) => one.key === "layup.plies" && one.text);
    for (const { name, form, row } of rows) row.hidden = Boolean(form && form !== state.kind) || (name === "layup_off" && !layup);
    if (revision !== state.revision && rows.some(({ input }) => share(input))) void put(); // another job has other sizes
    revision = state.revision;
    return [box];
  };
}

/** @param {Mistake} one */
function entry(one) {
  const address = one.figure && URL.createObjectURL(new Blob([one.figure], { type: "image/svg+xml" }));
  return make("li", {}, make("p", {}, one.comes_to), make("p", {}, one.found, " ", make("button", { type: "button", class: "link", "aria-label": `Show the step: ${one.step}`,
    click: () => document.dispatchEvent(new CustomEvent("show-step", { detail: one.step })) }, "Show the step")), make("p", {}, make("b", {}, "How small: "), one.small),
    address ? make("img", { class: "drawn", src: address, alt: one.alt }) : "");
}
