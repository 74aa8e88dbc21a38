// Woods: how many pieces are of each, painting segment by segment, and each ring turned on the one before by a rule.

import { brush, paint, rulesLost, setBrush, watchBrush } from "./brush.js";
import { make } from "./dom.js";
import { change, told } from "./store.js";
import { turnRow } from "./turns.js";

const REACHES = [["piece", "this piece"], ["2", "every 2nd of the ring"], ["3", "every 3rd of the ring"],
  ["4", "every 4th of the ring"], ["ring", "the whole ring"], ["column", "this piece of every ring"]];
const NEAR = 10; // woods shown at once

export function woodsPane() {
  const legend = make("ul", { class: "legend", "aria-label": "Woods and how many pieces are of each" });
  const choices = make("div", { class: "palette" });
  const more = make("details", {}, make("summary", {}, "More woods"), make("div", { class: "palette" }));
  const own = /** @type {HTMLInputElement} */ (make("input", { type: "text", id: "own-wood", size: 12, autocomplete: "off",
    change: () => setBrush({ wood: own.value.trim() }) }));
  const reach = /** @type {HTMLSelectElement} */ (make("select", { id: "reach", change: () => setBrush({ reach: reach.value }) },
    ...REACHES.map(([value, text]) => make("option", { value }, text))));
  const [ring, segment] = ["ring", "segment"].map((name) => /** @type {HTMLInputElement} */ (make("input", {
    type: "number", id: `paint-${name}`, min: 1, value: 1 })));
  const note = make("p", { role: "status", class: "quiet" });
  const lost = make("p", { class: "note" });
  const box = make("fieldset", {}, make("legend", {}, "Paint segments"), lost, choices, more,
    make("div", { class: "row" }, make("label", { for: "own-wood" }, "Another wood"), own),
    make("div", { class: "row" }, make("label", { for: "reach" }, "Paint"), reach),
    make("p", {}, "Click a segment on the form or on the surface laid flat, or name it:"),
    make("div", { class: "tools near" }, make("label", { for: "paint-ring" }, "Ring"), ring,
      make("label", { for: "paint-segment" }, "Segment"), segment, make("button", { type: "button", click: byNumber }, "Paint it")),
    note);
  const turn = turnRow();
  const faces = make("div", { class: "row" });
  let [known, spot] = ["", brush.spot];

  function byNumber() {
    setBrush({ spot: { ring: Number(ring.value), segment: Number(segment.value) } });
    paint();
  }

  watchBrush(() => {
    note.textContent = brush.note;
    if (brush.spot && brush.spot !== spot) [ring.value, segment.value] = [String(brush.spot.ring), String(brush.spot.segment)];
    spot = brush.spot; // a wood chosen for what is typed there leaves it
    for (const input of box.querySelectorAll("input[type=radio]")) {
      /** @type {HTMLInputElement} */ (input).checked = /** @type {HTMLInputElement} */ (input).value === brush.wood;
    }
  });

  /** @param {import("./store.js").View} view */
  return ({ state, fast }) => {
    const pattern = fast.drawing?.pattern;
    if (!pattern) return [make("p", { class: "quiet" }, "The woods show once the form can be drawn.")];
    legend.replaceChildren(...pattern.woods.map((one) => make("li", {}, swatch(one.colour), `${one.name}: ${one.count} piece${one.count === 1 ? "" : "s"}`)));
    const names = pattern.woods.map((one) => one.name);
    const all = [...pattern.woods.filter((one) => pattern.rings.some((ring) => ring.woods.includes(one.name))),
      ...state.palette.filter((one) => !names.includes(one.name))];
    if (known !== all.map((one) => one.name).join()) {
      known = all.map((one) => one.name).join();
      choices.replaceChildren(radio("", "Name it, paint nothing", ""), ...all.slice(0, NEAR).map((one) => radio(one.name, one.name, one.colour)));
      more.lastElementChild?.replaceChildren(...all.slice(NEAR).map((one) => radio(one.name, one.name, one.colour)));
    }
    const rules = rulesLost(state).map((one) => one.key.split(".").at(-1));
    lost.hidden = !rules.length;
    lost.textContent = `Painting lists the woods of every ring in the job file and takes these rules out: ${rules.join(", ")}. One Undo brings all of it back.`;
    const turned = state.fields.find((one) => one.key === "layup.turned")?.text;
    if (faces.dataset.job !== turned) faces.replaceChildren(...faceRow(state));
    faces.dataset.job = turned;
    return [legend, box, turn(state), faces];
  };
}

/** @param {string} colour */
function swatch(colour) {
  const made = make("span", { class: "swatch", "aria-hidden": "true" });
  made.style.setProperty("background", colour);
  return made;
}

/** @param {string} wood @param {string} label @param {string} colour */
function radio(wood, label, colour) {
  const input = make("input", { type: "radio", name: "brush", value: wood, checked: brush.wood === wood, change: () => setBrush({ wood }) });
  return make("label", {}, input, colour ? swatch(colour) : "", label);
}

/** Of a layup, which way its pieces are turned. @param {import("./contract.js").State} state */
function faceRow(state) {
  const turned = state.fields.find((one) => one.key === "layup.turned");
  if (!turned || !state.fields.some((one) => one.key === "layup.plies" && one.text)) return [];
  const wrong = make("span", { class: "fault" });
  const input = /** @type {HTMLInputElement} */ (make("input", { type: "checkbox", id: "turned", checked: turned.text === "true",
    change: () => change([{ key: "layup.turned", value: input.checked }]).catch((error) => { wrong.textContent = told(error); }) }));
  return [make("label", { for: "turned" }, "Layup: the other face outward"), input, wrong];
}
